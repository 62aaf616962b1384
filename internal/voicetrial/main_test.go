package voicetrial

import (
	"context"
	"errors"
	"fmt"
	"os"
	"testing"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/voice"
	"sparehand/internal/voice/sphinx"
	"sparehand/rules"
)

// earVariable makes this test binary the recogniser's process.
const earVariable = "SPAREHAND_TEST_EAR"

func TestMain(m *testing.M) {
	if os.Getenv(earVariable) == "1" {
		if err := voice.Ear(os.Stdin, os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// ears starts the local recogniser.
func ears(t testing.TB) *voice.Local {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	l, err := voice.NewLocal(voice.LocalConfig{Command: []string{self}, Env: []string{earVariable + "=1"}, Patience: time.Minute})
	if errors.Is(err, sphinx.ErrMissing) && os.Getenv("SPAREHAND_TEST_ALL") != "1" {
		t.Skip("libpocketsphinx3 and pocketsphinx-en-us are not installed")
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	})
	return l
}

func realBook(t testing.TB) *book.Book {
	t.Helper()
	b, err := book.Load(rules.Files)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// say gives words in a voice.
func say(t testing.TB, v Voice, text string) []int16 {
	t.Helper()
	if !v.Installed() {
		if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
			t.Fatalf("%s needs the package %s", v.Name, v.Package)
		}
		t.Skipf("%s: the package %s is not installed", v.Name, v.Package)
	}
	pcm, err := v.Say(context.Background(), text)
	if err != nil {
		t.Fatal(err)
	}
	return pcm
}
