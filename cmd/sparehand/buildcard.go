package main

import (
	"fmt"
	"strings"
	"time"

	"sparehand/internal/talk"
)

// printBuild shows the step at hand where it is another than before, and the
// timers that run.
func (t *terminal) printBuild(r talk.Reply) {
	b := r.Build
	if b == nil {
		t.card = ""
	}
	if b != nil && r.Phase == "building" && b.Step != "" && b.State != "asking" {
		if card := b.Step + b.State; card != t.card {
			t.card = card
			t.printStep(b)
		}
	}
	if timers := fmt.Sprint(r.Timers); timers != t.timers {
		t.timers = timers
		for _, m := range r.Timers {
			fmt.Fprintf(t.w, "  Timer %s: %s\n", clockShown(m.Due, r.At), m.Name)
		}
	}
}

func (t *terminal) printStep(b *talk.BuildShown) {
	w := t.w
	fmt.Fprintf(w, "  Step %d of %d: %s (%s)\n", b.N, b.Of, b.Title, minutesShown(b.Minutes))
	if b.State == "doing" {
		if len(b.Needs) > 0 {
			fmt.Fprintf(w, "    have ready: %s\n", strings.Join(b.Needs, ", "))
		}
		for _, line := range b.Do {
			fmt.Fprintf(w, "    - %s\n", line)
		}
		for _, line := range b.Never {
			fmt.Fprintf(w, "    ! %s\n", line)
		}
	}
	fmt.Fprintf(w, "    ready when: %s\n", b.Look)
	for _, x := range b.Waiting {
		if x.Step != b.Step {
			fmt.Fprintf(w, "    meanwhile waits: %s, till about %s\n", x.Title, clockShown(x.Mostly, b.Since))
		}
	}
}

func minutesShown(m talk.MinutesShown) string {
	if m.To >= 180 {
		return fmt.Sprintf("%.0f to %.0f hours", m.From/60, m.To/60)
	}
	return fmt.Sprintf("%.0f to %.0f min", m.From, m.To)
}

// clockShown is the time, with the day where it is another than that of from.
func clockShown(t, from time.Time) string {
	if t.Format(time.DateOnly) == from.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("Mon 15:04")
}
