package voice

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
)

// runFlite is run for flite. It reads back what it has written after each
// sentence, and so hangs on a pipe: its sound goes into a file.
func (s *Speaker) runFlite(ctx context.Context, text string, wpm int) ([]byte, error) {
	dir, err := os.MkdirTemp("", "sparehand-speech-")
	if err != nil {
		return nil, fmt.Errorf("there is no place for the sound: %w", err)
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "said.wav")
	stretch := float64(wordsAMinute[Plain]) / float64(wpm)
	cmd := s.command(ctx, text, "-voice", "slt", "--setf", "duration_stretch="+strconv.FormatFloat(stretch, 'f', 2, 64), "-f", "/dev/stdin", "-o", path)
	if err := cmd.Run(); err != nil {
		return nil, err
	}
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	out := &atMost{left: spokenBytes}
	_, err = io.Copy(out, file)
	return out.got(err)
}
