package main

import (
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"text/tabwriter"

	"sparehand/internal/book"
	"sparehand/internal/diagnose"
	"sparehand/internal/talk"
)

type checkCmd struct {
	rulesFlag
	Simulate  int      `help:"Also ask N simulated makers a problem, and compare ways of asking." placeholder:"N"`
	Verbose   bool     `short:"v" help:"List every case, not only those that fail."`
	Only      []string `help:"Only the cases and simulated makers of this problem; may be given again." placeholder:"ID"`
	Functions bool     `help:"List the functions that rules may call, and do nothing else."`
	Schema    bool     `help:"Print the JSON Schema of a rules file, for editors, and do nothing else."`
}

func (c checkCmd) Run(std streams) error {
	if c.Functions {
		fmt.Fprint(std.out, functions())
		return nil
	}
	if c.Schema {
		out, err := book.Schema()
		if err != nil {
			return err
		}
		_, err = std.out.Write(out)
		return err
	}
	b, err := c.loadBy(book.Load)
	if err != nil {
		return err
	}
	causes := 0
	for _, p := range b.Problems {
		causes += len(p.Causes)
	}
	fmt.Fprintf(std.out, "%d problems, %d causes, %d signs, %d facts, %d emergencies, %d cautions, %d cases\n",
		len(b.Problems), causes, b.Signs, len(b.Facts), len(b.Emergencies), len(b.Cautions), len(b.Cases))
	failed, warned := c.cases(std.out, b)
	if c.Simulate > 0 {
		c.simulate(std.out, b)
	}
	if failed > 0 {
		fmt.Fprintf(std.err, "sparehand: %d of %d cases fail\n", failed, len(b.Cases))
	}
	if warned > 0 {
		fmt.Fprintf(std.err, "sparehand: %d warnings\n", warned)
	}
	if failed+warned > 0 {
		return silent{}
	}
	return nil
}

// wants reports whether a problem is among those to be looked at.
func (c checkCmd) wants(problem string) bool {
	return len(c.Only) == 0 || slices.Contains(c.Only, problem)
}

// cases runs every case, and lists those that fail, what no case covers and the
// warnings; what is not covered counts as warnings too.
func (c checkCmd) cases(w io.Writer, b *book.Book) (failed, warned int) {
	a := talk.New(b)
	cover := talk.NewCoverage(b)
	tried := 0
	for i := range b.Cases {
		if !c.wants(b.Cases[i].Expect.Problem) {
			continue
		}
		tried++
		t := a.Try(&b.Cases[i])
		cover.Add(t)
		if len(t.Faults) > 0 {
			failed++
		}
		if len(t.Faults) > 0 || c.Verbose {
			fmt.Fprintf(w, "%s: %s (%d questions)\n", b.Cases[i].Place, b.Cases[i].Name, len(t.Asked))
		}
		for _, f := range t.Faults {
			fmt.Fprintf(w, "    %s\n", f)
		}
	}
	missing := append(cover.Missing(c.wants), cover.NeverAsked(c.wants)...)
	for _, m := range missing {
		fmt.Fprintln(w, m)
	}
	warnings := c.warnings(b)
	for _, warning := range warnings {
		fmt.Fprintln(w, warning)
	}
	fmt.Fprintf(w, "%d of %d cases pass; %d things are covered by no case; %d warnings\n", tried-failed, tried, len(missing), len(warnings))
	return failed, len(missing) + len(warnings)
}

// warnings are those of the whole book, or of the files of the problems wanted.
func (c checkCmd) warnings(b *book.Book) []book.Warning {
	wanted := map[string]bool{}
	for _, p := range b.Problems {
		wanted[p.Place.File] = wanted[p.Place.File] || c.wants(p.ID)
	}
	return slices.DeleteFunc(b.Warnings(), func(w book.Warning) bool { return len(c.Only) > 0 && !wanted[w.File] })
}

// searchLimit is the number of states of knowledge up to which every tree is
// tried; beyond it only the few most telling questions are, at each step.
const searchLimit = 400_000

func (c checkCmd) simulate(w io.Writer, b *book.Book) {
	n := c.Simulate
	random := rand.New(rand.NewPCG(20, 26))
	kinds := []struct {
		name  string
		noise diagnose.Noise
	}{{"clean", diagnose.Noise{}}, {"1 in 10 wrong, 2 in 10 not sure", diagnose.Noise{Wrong: 0.1, NotSure: 0.2}}}
	fmt.Fprintf(w, "\nExpected questions until asking stops, over the book's own model (exact)\n")
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "problem\tcauses\tbits\tbound\tours\tbest tree\tsearched\tours/best\tfixed order\tright %\tbest right %\t")
	models := slices.DeleteFunc(diagnose.Models(b), func(m *diagnose.Model) bool { return !c.wants(m.Problem.ID) })
	for _, m := range models {
		t := m.Trees(searchLimit)
		search := "all"
		if !t.Whole {
			search = "few"
		}
		fmt.Fprintf(table, "%s\t%d\t%.2f\t%.2f\t%.2f\t%.2f\t%s\t%.2f\t%.2f\t%.1f\t%.1f\t\n", m.Problem.ID, len(m.Problem.Causes), t.Bits, t.Bound,
			t.Ours.Questions, t.Best.Questions, search, t.Ours.Questions/t.Best.Questions, t.Fixed.Questions, 100*t.Ours.Right, 100*t.Best.Right)
	}
	table.Flush()
	for _, k := range kinds {
		fmt.Fprintf(w, "\n%d simulated makers a problem, answers %s\n", n, k.name)
		table := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
		fmt.Fprintln(table, "problem\tright %\tquestions\tweakest cause\tright %\tmost taken for\t%\t")
		right, asked := 0, 0
		for _, m := range models {
			t := m.Simulate(n, k.noise, random)
			right += t.Right
			asked += t.Questions
			c := weakest(t)
			other, times := t.PerCause[c].TakenFor(c)
			fmt.Fprintf(table, "%s\t%.1f\t%.2f\t%s\t%.1f\t%s\t%.1f\t\n", m.Problem.ID, percent(t.Right, t.Makers),
				float64(t.Questions)/float64(t.Makers), causeName(m, c), percent(t.PerCause[c].Right, t.PerCause[c].Makers),
				causeName(m, other), percent(times, t.PerCause[c].Makers))
		}
		fmt.Fprintf(table, "all\t%.1f\t%.2f\t\t\t\t\t\n", percent(right, n*len(models)), float64(asked)/float64(n*len(models)))
		table.Flush()
	}
}

func percent(part, whole int) float64 { return 100 * float64(part) / float64(max(1, whole)) }

// weakest finds the cause that is least often recognised.
func weakest(t diagnose.Tally) int {
	worst, share := 0, 101.0
	for i, c := range t.PerCause {
		if p := percent(c.Right, c.Makers); c.Makers > 0 && p < share {
			worst, share = i, p
		}
	}
	return worst
}

func causeName(m *diagnose.Model, c int) string {
	switch {
	case c < 0:
		return "none"
	case c == len(m.Problem.Causes):
		return "something else"
	}
	return m.Problem.Causes[c].ID
}
