package voicetrial

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"sparehand/internal/voice"
)

// Voice is a synthetic voice of one of the distribution's speech programs.
type Voice struct {
	Name    string // as printed
	Program string // that has to be installed
	Package string // that has it
	say     func(ctx context.Context, text, file string) *exec.Cmd
}

// Voices gives the voices of a set.
func Voices(set string) []Voice {
	if set == "scored" {
		return Scored
	}
	return Tuning
}

// Voices that are tuned with, and others that are reported on.
var (
	Tuning = []Voice{espeak("en-us+m3"), flite("awb"), festival("kal_diphone", "festvox-kallpc16k"), flite("rms")}
	Scored = []Voice{espeak("en-gb"), flite("slt"), festival("ked_diphone", "festvox-kdlpc16k")}
)

func espeak(voice string) Voice {
	return Voice{"espeak-ng " + voice, "espeak-ng", "espeak-ng", func(ctx context.Context, text, file string) *exec.Cmd {
		return exec.CommandContext(ctx, "espeak-ng", "-v", voice, "-s", "150", "-w", file, text)
	}}
}

func flite(voice string) Voice {
	return Voice{"flite " + voice, "flite", "flite", func(ctx context.Context, text, file string) *exec.Cmd {
		return exec.CommandContext(ctx, "flite", "-voice", voice, "-t", text, "-o", file)
	}}
}

func festival(voice, pack string) Voice {
	return Voice{"festival " + voice, "text2wave", "festival and " + pack, func(ctx context.Context, text, file string) *exec.Cmd {
		c := exec.CommandContext(ctx, "text2wave", "-F", "16000", "-eval", "(voice_"+voice+")", "-o", file)
		c.Stdin = bytes.NewReader([]byte(text))
		return c
	}}
}

// Installed tells whether the voice's program is there.
func (v Voice) Installed() bool {
	_, err := exec.LookPath(v.Program)
	return err == nil
}

// Say gives a text in the voice: samples at 16 kHz.
func (v Voice) Say(ctx context.Context, text string) ([]int16, error) {
	dir, err := os.MkdirTemp("", "voice")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	ctx, done := context.WithTimeout(ctx, time.Minute)
	defer done()
	file := filepath.Join(dir, "said.wav")
	if out, err := v.say(ctx, text, file).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%s: %w: %s", v.Name, err, bytes.TrimSpace(out))
	}
	wav, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	pcm, rate, err := readWave(wav)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", v.Name, err)
	}
	return resample(pcm, rate, voice.Rate), nil
}

// readWave reads one channel of 16-bit sound in the RIFF WAVE format.
func readWave(wav []byte) (pcm []int16, rate int, err error) {
	if len(wav) < 12 || string(wav[:4]) != "RIFF" || string(wav[8:12]) != "WAVE" {
		return nil, 0, errors.New("that is no WAVE file")
	}
	for at := 12; at+8 <= len(wav); {
		size := int(binary.LittleEndian.Uint32(wav[at+4:]))
		body := wav[at+8 : min(at+8+max(size, 0), len(wav))]
		switch string(wav[at : at+4]) {
		case "fmt ":
			if len(body) < 16 || binary.LittleEndian.Uint16(body[2:]) != 1 || binary.LittleEndian.Uint16(body[14:]) != 16 {
				return nil, 0, errors.New("not 16-bit sound of one channel")
			}
			rate = int(binary.LittleEndian.Uint32(body[4:]))
		case "data":
			pcm = make([]int16, len(body)/2)
			for i := range pcm {
				pcm[i] = int16(binary.LittleEndian.Uint16(body[2*i:]))
			}
			if rate == 0 {
				return nil, 0, errors.New("its rate is not told")
			}
			return pcm, rate, nil
		}
		at += 8 + size + size%2
	}
	return nil, 0, errors.New("it holds no sound")
}
