package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"text/tabwriter"

	"sparehand/internal/book"
	"sparehand/internal/diagnose"
	"sparehand/internal/journal"
	"sparehand/internal/talk"
)

type notesCmd struct {
	List    notesListCmd    `cmd:"" default:"withargs" help:"List the notes, the newest first (the default)."`
	Page    notesPageCmd    `cmd:"" help:"Write the notebook as a page to read or print, as HTML."`
	Export  notesExportCmd  `cmd:"" help:"Write everything that is kept as JSON Lines, or the notes as CSV."`
	Import  notesImportCmd  `cmd:"" help:"Read what export wrote. All of it is taken, or nothing."`
	Backup  notesBackupCmd  `cmd:"" help:"Copy the whole file, also while sparehand serves."`
	Learned notesLearnedCmd `cmd:"" help:"Show how what was found here moves the book's frequencies."`
	Forget  notesForgetCmd  `cmd:"" help:"Take a note out, and with it what was learned from it."`
}

// withStore runs with the store open; there has to be one.
func (f storeFlag) withStore(std streams, do func(context.Context, *journal.Journal) error) error {
	j, err := f.open(std.err)
	if err != nil {
		return err
	}
	if j == nil {
		return errors.New("there is no notebook here: name one with --store")
	}
	return errors.Join(do(context.Background(), j), j.Close())
}

type notesListCmd struct {
	storeFlag
	Kind  string   `help:"Only this kind." enum:",mould,batch,piece,diagnosis" default:""`
	Most  int      `help:"At most so many; 0 for all." default:"50"`
	JSON  bool     `help:"One JSON object a line."`
	Talks bool     `help:"List the talks, and not the notes."`
	Words []string `arg:"" optional:"" help:"Only notes with all these words."`
}

func (c notesListCmd) Run(std streams) error {
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error {
		if c.Talks {
			return c.talks(ctx, j, std.out)
		}
		notes, err := j.Notes(ctx, journal.Query{Kind: c.Kind, Words: c.Words, Most: c.Most})
		if err != nil {
			return err
		}
		if c.JSON {
			return jsonLines(std.out, notes)
		}
		table := tabwriter.NewWriter(std.out, 0, 0, 2, ' ', 0)
		for _, n := range notes {
			fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\n", n.At.Local().Format("2006-01-02 15:04"), n.Kind, labelled(n), n.Outcome, n.ID)
		}
		if len(notes) == 0 {
			fmt.Fprintln(std.out, "The notebook has nothing of that.")
		}
		return table.Flush()
	})
}

func labelled(n talk.Note) string {
	if n.Kind == talk.NoteDiagnosis {
		return n.Problem
	}
	return n.Label
}

func (c notesListCmd) talks(ctx context.Context, j *journal.Journal, out io.Writer) error {
	list, err := j.Talks(ctx, c.Most)
	if err != nil {
		return err
	}
	if c.JSON {
		return jsonLines(out, list)
	}
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for _, t := range list {
		fmt.Fprintf(table, "%s\t%d turns\t%s\t%s\n", t.Last.Local().Format("2006-01-02 15:04"), t.Turns, t.Title, t.ID)
	}
	return table.Flush()
}

func jsonLines[T any](out io.Writer, list []T) error {
	encode := json.NewEncoder(out)
	encode.SetEscapeHTML(false)
	for _, x := range list {
		if err := encode.Encode(x); err != nil {
			return fmt.Errorf("writing: %w", err)
		}
	}
	return nil
}

type notesPageCmd struct {
	storeFlag
}

func (c notesPageCmd) Run(std streams) error {
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error { return j.Page(ctx, std.out) })
}

type notesExportCmd struct {
	storeFlag
	CSV bool `help:"The notes alone, as CSV with a row of names first."`
}

func (c notesExportCmd) Run(std streams) error {
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error {
		if c.CSV {
			return j.ExportCSV(ctx, std.out)
		}
		return j.Export(ctx, std.out)
	})
}

type notesImportCmd struct {
	storeFlag
	File string `arg:"" optional:"" help:"The file; without it, standard input is read."`
}

// mostImported bounds what is read in one go, in bytes: it is held in memory.
const mostImported = 1 << 30

func (c notesImportCmd) Run(std streams) error {
	in := std.in
	if c.File != "" {
		f, err := os.Open(c.File)
		if err != nil {
			return fmt.Errorf("can't read what to import: %w", err)
		}
		defer f.Close()
		in = f
	}
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error {
		got, err := j.Import(ctx, io.LimitReader(in, mostImported))
		if err != nil {
			return err
		}
		fmt.Fprintf(std.out, "Taken: %d notes, %d talks with %d turns. Known already: %d.\n", got.Notes, got.Talks, got.Turns, got.Known)
		return nil
	})
}

type notesBackupCmd struct {
	storeFlag
	To string `arg:"" help:"The file to write; it must not be there yet."`
}

func (c notesBackupCmd) Run(std streams) error {
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error {
		if err := j.Backup(ctx, c.To); err != nil {
			return err
		}
		fmt.Fprintf(std.out, "Copied to %s.\n", c.To)
		return nil
	})
}

type notesForgetCmd struct {
	storeFlag
	ID string `arg:"" help:"The note's id, as notes list gives it."`
}

func (c notesForgetCmd) Run(std streams) error {
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error { return j.Forget(ctx, c.ID) })
}

type notesLearnedCmd struct {
	rulesFlag
	storeFlag
}

// Run lists the causes of the problems of which something was found: how likely
// they are by the book, and how likely here.
func (c notesLearnedCmd) Run(std streams) error {
	b, err := c.load()
	if err != nil {
		return err
	}
	return c.withStore(std, func(ctx context.Context, j *journal.Journal) error {
		nothing := true
		for _, m := range diagnose.Models(b) {
			found, err := j.Tally(ctx, m.Problem.ID)
			if err != nil {
				return err
			}
			if len(found) > 0 {
				nothing = false
				printLearned(std.out, m.Problem, found, m.Prior(), m.Found(found).Prior())
			}
		}
		if nothing {
			fmt.Fprintln(std.out, "Nothing was found here yet: the book's frequencies hold as they are.")
		}
		return nil
	})
}

func printLearned(out io.Writer, p *book.Problem, found map[string]int, byBook, here []float64) {
	fmt.Fprintf(out, "%s (%s)\n", p.Title, p.ID)
	for i, cause := range p.Causes {
		fmt.Fprintf(out, "  %3.0f %% by the book, %3.0f %% here, found %d times: %s\n", 100*byBook[i], 100*here[i], found[cause.ID], cause.Title)
	}
}
