package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"sparehand/internal/serve"
	"sparehand/internal/voice"
	"sparehand/internal/voice/sphinx"
)

// earsFlag says what listens.
type earsFlag struct {
	Ears string `help:"What recognises speech: here (PocketSphinx on this machine), none, or the address of a speech server of yours, such as ws://127.0.0.1:2700." placeholder:"WHERE" default:"here"`
}

// earCmd is the recogniser's own process. It is not for people.
type earCmd struct{}

func (earCmd) Run(std streams) error { return voice.Ear(std.in, std.out) }

// open finds what listens and what speaks, and tells the page what is missing.
// Neither is needed.
func (f earsFlag) open(warn io.Writer) (voice.Recogniser, *voice.Speaker, serve.Voice, error) {
	told := serve.Voice{}
	speaker := voice.NewSpeaker()
	if speaker != nil {
		told.Mouth = speaker.Name()
	} else {
		told.MouthMissing = voice.NoSpeaker
	}
	switch f.Ears {
	case "here", "":
	case "none":
		told.Missing = "Listening is switched off: start sparehand without --ears none."
		return nil, speaker, told, nil
	default:
		ears, err := voice.NewRemote(f.Ears)
		if err != nil {
			return nil, nil, told, fmt.Errorf("--ears: %w, or it is here or none", err)
		}
		if told.Ears = ears.Name(); ears.Beyond() {
			told.Ears += ", so what is said leaves this machine"
			fmt.Fprintf(warn, "sparehand: what is said goes to %s: it leaves this machine\n", ears.Name())
		}
		return ears, speaker, told, nil
	}
	ears, err := f.here()
	switch {
	case errors.Is(err, sphinx.ErrMissing):
		told.Missing = sphinx.Missing
	case err != nil:
		fmt.Fprintln(warn, "sparehand: nothing listens:", err)
		told.Missing = "The speech recogniser can't be used: " + err.Error() + "."
	default:
		told.Ears = ears.Name()
		return ears, speaker, told, nil
	}
	return nil, speaker, told, nil
}

func (earsFlag) here() (*voice.Local, error) {
	self, err := os.Executable()
	if err != nil {
		return nil, fmt.Errorf("this program can't find itself: %w", err)
	}
	return voice.NewLocal(voice.LocalConfig{Command: []string{self, "ear"}})
}
