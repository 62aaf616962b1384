package voice

import (
	"context"
	"encoding/binary"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// installed finds a program that a check leans on. Without it the test is
// skipped, or fails where everything has to run.
func installed(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		t.Fatalf("%s is not installed and SPAREHAND_TEST_ALL=1", name)
	}
	if err != nil {
		t.Skipf("%s is not installed: the check with it is skipped", name)
	}
	return path
}

// standIn speaks with a shell script.
func standIn(t *testing.T, script string) *Speaker {
	t.Helper()
	path := filepath.Join(t.TempDir(), "speech")
	if err := os.WriteFile(path, []byte("#!/bin/sh\n"+script), 0o700); err != nil {
		t.Fatal(err)
	}
	return newSpeaker("espeak-ng", path)
}

// Each program's sound is read by SoX, which knows WAVE files, and lasts the
// longer the slower it is spoken.
func TestSayIsAWave(t *testing.T) {
	for _, name := range []string{"espeak-ng", "flite"} {
		t.Run(name, func(t *testing.T) {
			s := newSpeaker(name, installed(t, name))
			long := map[Pace]int{}
			for _, pace := range []Pace{Slow, Plain, Quick} {
				wav, err := s.Say(t.Context(), "Dam the leak with clay. Then pour again, from outside!", pace)
				if err != nil {
					t.Fatal(err)
				}
				long[pace] = checkWave(t, wav)
			}
			if long[Slow] <= long[Plain] || long[Plain] <= long[Quick] {
				t.Errorf("lengths are %v", long)
			}
		})
	}
}

// checkWave gives the samples of a file of one channel.
func checkWave(t *testing.T, wav []byte) int {
	t.Helper()
	if string(wav[:4]) != "RIFF" || string(wav[8:16]) != "WAVEfmt " || int(binary.LittleEndian.Uint32(wav[4:])) != len(wav)-8 {
		t.Fatalf("the header is %q", wav[:44])
	}
	if n := binary.LittleEndian.Uint32(wav[40:]); string(wav[36:40]) != "data" || int(n) != len(wav)-44 {
		t.Fatalf("%d bytes are told of, and %d are there", n, len(wav)-44)
	}
	path := filepath.Join(t.TempDir(), "said.wav")
	if err := os.WriteFile(path, wav, 0o600); err != nil {
		t.Fatal(err)
	}
	for option, want := range map[string]string{"-c": "1", "-b": "16", "-s": strconv.Itoa((len(wav) - 44) / 2), "-t": "wav"} {
		out, err := exec.CommandContext(t.Context(), installed(t, "soxi"), option, path).CombinedOutput()
		if got := strings.TrimSpace(string(out)); err != nil || got != want {
			t.Errorf("soxi %s says %q (%v), want %s", option, got, err, want)
		}
	}
	return (len(wav) - 44) / 2
}

func TestSayRefuses(t *testing.T) {
	s := standIn(t, "echo it ran\n")
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	for what, c := range map[string]struct {
		text string
		pace Pace
	}{
		"nothing": {" \n", Plain}, "too much": {strings.Repeat("é", spokenRunes+1), Plain}, "an unknown pace": {"rope", "hasty"}, "no pace": {"rope", ""},
	} {
		var unsayable Unsayable
		if _, err := s.Say(t.Context(), c.text, c.pace); !errors.As(err, &unsayable) {
			t.Errorf("%s: %v", what, err)
		}
	}
	for range spokenAtOnce {
		s.turns <- struct{}{}
	}
	if _, err := s.Say(gone, "rope", Plain); !errors.Is(err, ErrSpeaking) {
		t.Errorf("without a turn: %v", err)
	}
}

func TestSayFails(t *testing.T) {
	for what, c := range map[string]struct{ script, want string }{
		"no sound": {"cat\n", "espeak-ng could not say that: what it gave is no sound"},
		"a fault":  {"echo broken >&2\nexit 3\n", "espeak-ng could not say that: exit status 3"},
		"no end":   {"exec cat /dev/zero\n", "espeak-ng could not say that: it says too much"},
	} {
		_, err := standIn(t, c.script).Say(t.Context(), "rope", Plain)
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %q", what, err, c.want)
		}
	}
}

// What is said goes in whole by standard input, and is no argument.
func TestSayGoesInByStdin(t *testing.T) {
	dir := t.TempDir()
	s := standIn(t, "echo \"$@\" >"+dir+"/arguments\ncat >"+dir+"/input\n")
	_, _ = s.Say(t.Context(), "-x rope\x00 and \xff tar", Slow) // that it is no sound is no matter
	for file, want := range map[string]string{"arguments": "-v en-gb -s 120 --stdin --stdout\n", "input": "-x rope and  tar\n"} {
		if got, err := os.ReadFile(filepath.Join(dir, file)); err != nil || string(got) != want {
			t.Errorf("%s are %q (%v), want %q", file, got, err, want)
		}
	}
}

// Where nobody listens any more the program is ended.
func TestSayEndsWithItsContext(t *testing.T) {
	file := filepath.Join(t.TempDir(), "pid")
	s := standIn(t, "echo $$ >"+file+".new && mv "+file+".new "+file+"\nexec sleep 600\n")
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	said := make(chan error, 1)
	go func() {
		_, err := s.Say(ctx, "rope", Plain)
		said <- err
	}()
	var number []byte
	for until := time.Now().Add(spokenTime); ; time.Sleep(time.Millisecond) {
		var err error
		if number, err = os.ReadFile(file); err == nil {
			break
		}
		if time.Now().After(until) {
			t.Fatal("the program never began")
		}
	}
	cancel()
	if err := <-said; err == nil || strings.Contains(err.Error(), "too long") {
		t.Errorf("it says %v", err)
	}
	pid, err := strconv.Atoi(strings.TrimSpace(string(number)))
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Kill(pid, 0); !errors.Is(err, syscall.ESRCH) {
		t.Errorf("the program goes on: %v", err)
	}
}

// Whatever the lengths in a header say, what is mended is one file that says
// its own, and stays as it is when mended again.
func TestMendWave(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.OneOf(rapid.SampledFrom([]uint32{0x7ffff000, 0xffffffff}), rapid.Uint32Range(40, 200)) // espeak-ng's is the first
		samples := rapid.SliceOfN(rapid.Byte(), 2, 40).Draw(t, "samples")
		file := binary.LittleEndian.AppendUint32([]byte("RIFF"), length.Draw(t, "length"))
		file = append(file, "WAVE"...)
		if rapid.Bool().Draw(t, "with a list") {
			file = append(file, "LIST\x03\x00\x00\x00abc\x00"...)
		}
		file = append(file, "fmt \x10\x00\x00\x00\x01\x00\x01\x00\x22\x56\x00\x00\x44\xac\x00\x00\x02\x00\x10\x00data"...)
		file = binary.LittleEndian.AppendUint32(file, length.Draw(t, "data"))
		file = append(file, samples...)
		wav, err := mendWave(file)
		if err != nil {
			t.Fatal(err)
		}
		samples = samples[:len(samples)/2*2]
		if int(binary.LittleEndian.Uint32(wav[4:])) != len(wav)-8 || int(binary.LittleEndian.Uint32(wav[40:])) != len(samples) || string(wav[44:]) != string(samples) {
			t.Fatalf("mended to %q", wav)
		}
		if again, err := mendWave(wav); err != nil || string(again) != string(wav) {
			t.Fatalf("mended again to %q, %v", again, err)
		}
	})
	for _, wav := range []string{
		"", "RIFF", "RIFF____WAVE", "RIFF____WAVEfmt data", "RIFF____WAVEdata\x02\x00\x00\x00ab", "not a wave file, and no data in it",
		"RIFF____WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x22\x56\x00\x00\x44\xac\x00\x00\x02\x00\x10\x00data\x00\x00\x00\x00",
		"RIFF____WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x22\x56\x00\x00\x44\xac\x00\x00\x00\x00\x10\x00data\x02\x00\x00\x00ab",
	} {
		if got, err := mendWave([]byte(wav)); err == nil {
			t.Errorf("%q is taken for sound: %q", wav, got)
		}
	}
}

func FuzzMendWave(f *testing.F) {
	f.Add([]byte("RIFF____WAVEfmt \x10\x00\x00\x00\x01\x00\x01\x00\x22\x56\x00\x00\x44\xac\x00\x00\x02\x00\x10\x00data\xff\xff\xff\xffab"))
	f.Fuzz(func(t *testing.T, wav []byte) {
		if got, err := mendWave(wav); err == nil && int(binary.LittleEndian.Uint32(got[4:])) != len(got)-8 {
			t.Errorf("%q is mended to %q", wav, got)
		}
	})
}
