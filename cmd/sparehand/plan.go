package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"sparehand/internal/talk"
)

type planCmd struct {
	rulesFlag
	storeFlag
	On       string `help:"The talk whose build it is: its id as notes list --talks gives it, or last." default:"last" placeholder:"ID"`
	Calendar bool   `help:"As an iCalendar file (RFC 5545)." xor:"form"`
	Result   bool   `help:"What was made, and how, in place of what is to come." xor:"form"`
}

// Run writes the plan of a build: timetable, shopping list and safety sheet.
func (c planCmd) Run(std streams) error {
	b, err := c.load()
	if err != nil {
		return err
	}
	store, err := c.open(std.err)
	if err != nil {
		return err
	}
	if store == nil {
		return errors.New("there is no notebook here, and so no build: name one with --store")
	}
	defer store.Close()
	t, err := resume(assistantAt(talk.New(b), store), store, c.On)
	if err != nil {
		return err
	}
	what := talk.PaperPlan
	switch {
	case c.Calendar:
		what = talk.PaperCalendar
	case c.Result:
		what = talk.PaperResult
	}
	paper, err := t.session.Paper(what, time.Now())
	if err != nil {
		return err
	}
	if c.Calendar {
		_, err = io.WriteString(std.out, paper.Calendar)
		return err
	}
	return printPaper(std.out, paper)
}

func printPaper(out io.Writer, p talk.Paper) error {
	fmt.Fprintf(out, "%s\n", p.Title)
	for _, part := range p.Parts {
		fmt.Fprintf(out, "\n%s\n", part.Title)
		for _, line := range part.Lines {
			fmt.Fprintf(out, "  - %s\n", line)
		}
		table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
		for _, row := range part.Rows {
			fmt.Fprintf(table, "  %s\n", strings.Join(row, "\t"))
		}
		if err := table.Flush(); err != nil {
			return fmt.Errorf("writing the paper: %w", err)
		}
	}
	return nil
}
