package voice

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// Pace is how fast something is spoken.
type Pace string

// Paces.
const (
	Slow  Pace = "slow"
	Plain Pace = "plain"
	Quick Pace = "quick"
)

// wordsAMinute of a pace; slow is three quarters of plain.
var wordsAMinute = map[Pace]int{Slow: 120, Plain: 160, Quick: 210}

// Bounds of what is spoken.
const (
	spokenRunes  = 1500     // of one text
	spokenBytes  = 16 << 20 // of its sound: slow words were seen to take 5 MB, and digits 10
	spokenTime   = 10 * time.Second
	spokenAtOnce = 2
)

// NoSpeaker is said where no program makes speech.
const NoSpeaker = "Nothing here makes the sound of speech: install the package espeak-ng (apt install espeak-ng), or flite, and start sparehand again."

// ErrSpeaking is given where too much is being spoken.
var ErrSpeaking = errors.New("too much is being said at once: try again in a moment")

// Unsayable says why a text or a pace is refused, for the maker.
type Unsayable string

func (u Unsayable) Error() string { return string(u) }

// Speaker makes the sound of speech with a program of the distribution. It is
// safe for concurrent use.
type Speaker struct {
	program string // path
	name    string
	turns   chan struct{}
}

// NewSpeaker finds espeak-ng or flite; nil where neither is installed.
func NewSpeaker() *Speaker {
	for _, name := range []string{"espeak-ng", "flite"} {
		if path, err := exec.LookPath(name); err == nil {
			return newSpeaker(name, path)
		}
	}
	return nil
}

func newSpeaker(name, path string) *Speaker {
	return &Speaker{program: path, name: name, turns: make(chan struct{}, spokenAtOnce)}
}

// Name is the program's.
func (s *Speaker) Name() string { return s.name }

// Say gives a text as sound: a WAVE file of 16-bit samples. What it can't take
// is an Unsayable, and ErrSpeaking is given where no turn came in time. All
// errors are for the maker. It ends with ctx.
func (s *Speaker) Say(ctx context.Context, text string, pace Pace) ([]byte, error) {
	wpm, known := wordsAMinute[pace]
	switch {
	case !known:
		return nil, Unsayable(fmt.Sprintf("%q is no pace: say slow, plain or quick", pace))
	case strings.TrimSpace(text) == "":
		return nil, Unsayable("there is nothing to say")
	case utf8.RuneCountInString(text) > spokenRunes:
		return nil, Unsayable(fmt.Sprintf("that is too long to say: %d characters are the most", spokenRunes))
	}
	ctx, done := context.WithTimeout(ctx, spokenTime)
	defer done()
	select {
	case s.turns <- struct{}{}:
		defer func() { <-s.turns }()
	case <-ctx.Done():
		return nil, ErrSpeaking
	}
	text = strings.ToValidUTF8(strings.ReplaceAll(text, "\x00", ""), "")
	wav, err := s.run(ctx, text, wpm)
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return nil, fmt.Errorf("%s took too long to say that: try again with fewer words", s.name)
	}
	if err == nil {
		wav, err = mendWave(wav)
	}
	if err != nil {
		return nil, fmt.Errorf("%s could not say that: %w", s.name, err)
	}
	return wav, nil
}

// run has the program speak. The text goes in by its standard input: arguments
// can be read by others on this machine.
func (s *Speaker) run(ctx context.Context, text string, wpm int) ([]byte, error) {
	if s.name == "flite" {
		return s.runFlite(ctx, text, wpm)
	}
	cmd := s.command(ctx, text, "-v", "en-gb", "-s", strconv.Itoa(wpm), "--stdin", "--stdout")
	out := &atMost{left: spokenBytes}
	cmd.Stdout = out
	return out.got(cmd.Run())
}

func (s *Speaker) command(ctx context.Context, text string, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, s.program, args...)
	cmd.Stdin = strings.NewReader(text + "\n")
	cmd.WaitDelay = time.Second // for what a program it started holds open
	return cmd
}
