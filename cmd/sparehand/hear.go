package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"strings"

	"sparehand/internal/talk"
)

type hearCmd struct {
	rulesFlag
	JSON bool     `help:"Write JSON, one object an utterance (the only form so far)." default:"true" negatable:""`
	Text []string `arg:"" optional:"" help:"The words; without them, utterances are read from standard input, one a line."`
}

func (c hearCmd) Run(std streams) error {
	b, err := c.load()
	if err != nil {
		return err
	}
	a := talk.New(b)
	encode := json.NewEncoder(std.out)
	encode.SetEscapeHTML(false)
	if len(c.Text) > 0 {
		return encode.Encode(a.Understood(strings.Join(c.Text, " ")))
	}
	lines := bufio.NewScanner(std.in)
	lines.Buffer(nil, maxLine)
	for lines.Scan() {
		if err := encode.Encode(a.Understood(lines.Text())); err != nil {
			return fmt.Errorf("writing what was heard: %w", err)
		}
	}
	if err := lines.Err(); err != nil {
		return fmt.Errorf("reading what you say: %w", err)
	}
	return nil
}
