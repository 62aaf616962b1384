package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"sparehand/internal/sums"
	"sparehand/internal/talk"
)

// printAmounts prints one table for each sum, with what goes with it.
func printAmounts(w io.Writer, amounts []talk.AmountShown) {
	for len(amounts) > 0 {
		n := 1
		for n < len(amounts) && amounts[n].For == amounts[0].For {
			n++
		}
		printSum(w, amounts[:n])
		amounts = amounts[n:]
	}
}

func printSum(w io.Writer, lines []talk.AmountShown) {
	fmt.Fprintf(w, "  %s\n", lines[0].For)
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, a := range lines {
		fmt.Fprintf(table, "    %s\t%s\n", a.Name, strings.Join(cells(a), "\t"))
	}
	table.Flush()
	printList(w, "    taking for granted: ", lines[0].Assumes)
	printList(w, "    note: ", lines[0].Notes)
	if lines[0].Narrow != "" {
		fmt.Fprintf(w, "    %s\n", lines[0].Narrow)
	}
}

// cells are the figures of a line: grams and millilitres, or words; then its
// range, and its measures with what these are off.
func cells(a talk.AmountShown) []string {
	var out []string
	weighed := a.Unit == "g" || a.Unit == "ml"
	switch {
	case a.Text != "":
		if weighed && a.Grams > 0 {
			out = append(out, fmt.Sprintf("%g g", a.Grams))
		}
		return append(out, a.Text)
	case weighed:
		out = append(out, fmt.Sprintf("%g g", a.Grams), fmt.Sprintf("%g ml", a.Millilitres))
	default:
		out = append(out, sums.InUnit(a.Value, a.Unit))
	}
	if a.Low < a.High {
		out = append(out, sums.RangeInUnit(a.Low, a.High, a.Unit))
	} else {
		out = append(out, "")
	}
	if counts := measures(a); counts != "" {
		out = append(out, counts)
	}
	return out
}

func measures(a talk.AmountShown) string {
	var counts []string
	for _, m := range a.Measures {
		counts = append(counts, talk.InWords(m))
	}
	if len(counts) == 0 {
		return ""
	}
	text := "= " + strings.Join(counts, " + ")
	switch {
	case a.Off > 0:
		text += fmt.Sprintf(" (%g %% more)", a.Off)
	case a.Off < 0:
		text += fmt.Sprintf(" (%g %% less)", -a.Off)
	}
	return text
}
