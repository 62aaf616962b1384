package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"sparehand/internal/voicetrial"
)

// trialCmd measures how well speech is recognised. It is for contributors, and
// works in a checkout.
type trialCmd struct {
	rulesFlag
	Set   string   `help:"Which voices and words: tuning, or scored, which is only for reporting." enum:"tuning,scored" default:"tuning"`
	Kinds []string `help:"Try only these: choice, number, command, emergency, description, unrelated, noise." placeholder:"KIND"`
	Every int      `help:"Try every so manieth utterance only." default:"1"`
	Data  string   `help:"The folder with the words." default:"testdata"`
	Raw   string   `help:"Write each outcome with its scores to this file, one JSON object a line." placeholder:"FILE"`
}

func (c trialCmd) Run(std streams) error {
	b, err := c.load()
	if err != nil {
		return err
	}
	ears, err := earsFlag{}.here()
	if err != nil {
		return err
	}
	defer ears.Close()
	cases, err := voicetrial.Cases(os.DirFS(c.Data), c.Set, ears.Knows)
	if err != nil {
		return err
	}
	cases = voicetrial.EveryOf(c.chosen(cases), c.Every)
	t := &voicetrial.Trial{Ears: ears, Book: b, Voices: voicetrial.Voices(c.Set)}
	raw, err := c.open()
	if err != nil {
		return err
	}
	defer raw.Close()
	var list []voicetrial.Outcome
	var failed error
	err = t.Run(context.Background(), cases, func(o voicetrial.Outcome) {
		list = append(list, o)
		if failed == nil {
			failed = json.NewEncoder(raw).Encode(o.Plain())
		}
		if len(list)%100 == 0 {
			fmt.Fprintf(std.err, "%d utterances\n", len(list))
		}
	})
	if err == nil {
		err = failed
	}
	if err != nil {
		return err
	}
	var names []string
	for _, v := range t.Voices {
		names = append(names, v.Name)
	}
	fmt.Fprintf(std.out, "Synthetic voices: %s. No real user was measured.\n", strings.Join(names, ", "))
	voicetrial.Table(std.out, list)
	for _, s := range t.Skipped(cases) {
		fmt.Fprintf(std.out, "left out, since nothing asks for %s: %s\n", s.Fact, s.Say)
	}
	return nil
}

func (c trialCmd) open() (*os.File, error) {
	if c.Raw == "" {
		return os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	}
	return os.Create(filepath.Clean(c.Raw))
}

func (c trialCmd) chosen(cases []voicetrial.Case) []voicetrial.Case {
	return slices.DeleteFunc(cases, func(x voicetrial.Case) bool { return len(c.Kinds) > 0 && !slices.Contains(c.Kinds, x.Kind) })
}
