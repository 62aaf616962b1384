package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"sparehand/internal/phrase"
	"sparehand/internal/talk"
)

type talkCmd struct {
	rulesFlag
	storeFlag
	JSON bool   `help:"Read one utterance a line and write one reply a line, as JSON. Nothing is kept then, unless --store says where."`
	On   string `help:"Go on with an earlier talk: its id as notes list gives it, or last." placeholder:"ID"`
}

// maxLine bounds one line of standard input.
const maxLine = 1 << 20

func (c talkCmd) Run(std streams) error {
	b, err := c.load()
	if err != nil {
		return err
	}
	if c.JSON && c.Store == "" && c.On == "" {
		c.Store = noStore
	}
	store, err := c.open(std.err)
	if err != nil {
		return err
	}
	if store != nil {
		defer store.Close()
	}
	t, err := resume(assistantAt(talk.New(b), store), store, c.On)
	if err != nil {
		return err
	}
	if c.JSON {
		return talkJSON(t, std)
	}
	return talkAloud(t, std)
}

// talkJSON answers each line with one reply. Timers do not ring here: a reply
// for each line is all that a script expects.
func talkJSON(t *keptTalk, std streams) error {
	lines := bufio.NewScanner(std.in)
	lines.Buffer(nil, maxLine)
	encode := json.NewEncoder(std.out)
	encode.SetEscapeHTML(false)
	for lines.Scan() {
		reply, err := t.hear(strings.TrimSpace(lines.Text()))
		if err != nil {
			return err
		}
		if err := encode.Encode(reply); err != nil {
			return fmt.Errorf("writing the reply: %w", err)
		}
	}
	if err := lines.Err(); err != nil {
		return fmt.Errorf("reading what you say: %w", err)
	}
	return nil
}

// lookAtTimers is how often the terminal sees whether a timer is due.
const lookAtTimers = 250 * time.Millisecond

// talkAloud answers a person, whose timers ring while nothing is typed.
func talkAloud(t *keptTalk, std streams) error {
	screen := terminal{w: std.out}
	screen.show(t.session.Reply())
	fmt.Fprint(std.out, "> ")
	lines, failed := readLines(std.in)
	tick := time.NewTicker(lookAtTimers)
	defer tick.Stop()
	for {
		select {
		case text, more := <-lines:
			if !more {
				fmt.Fprintln(std.out)
				if t.kept() {
					fmt.Fprintf(std.out, "To go on: sparehand talk --on %s\n", t.id)
				}
				return <-failed
			}
			if text == "" {
				fmt.Fprint(std.out, "> ")
				continue
			}
			reply, err := t.hear(text)
			if err != nil {
				fmt.Fprintf(std.out, "\n%s\n> ", phrase.Capital(err.Error()))
				continue
			}
			screen.show(reply)
			fmt.Fprint(std.out, "> ")
		case <-tick.C:
			for reply, rang := t.ring(); rang; reply, rang = t.ring() {
				fmt.Fprintf(std.out, "\a\n** %s\n> ", reply.Say)
			}
		}
	}
}

// readLines reads trimmed lines until the end; then failed has what went wrong.
func readLines(in io.Reader) (lines <-chan string, failed <-chan error) {
	out, end := make(chan string), make(chan error, 1)
	go func() {
		defer close(out)
		scan := bufio.NewScanner(in)
		scan.Buffer(nil, maxLine)
		for scan.Scan() {
			out <- strings.TrimSpace(scan.Text())
		}
		if err := scan.Err(); err != nil {
			end <- fmt.Errorf("reading what you say: %w", err)
		}
		close(end)
	}()
	return out, end
}

// terminal shows replies as text and remembers what stands above already.
type terminal struct {
	w      io.Writer
	warned string // cautions shown last
	sums   string // amounts shown last
	card   string // the step shown last
	timers string // that ran then
}

// show prints a reply: what is spoken, then the rest.
func (t *terminal) show(r talk.Reply) {
	w := t.w
	if r.Heard != "" {
		fmt.Fprintf(w, "  [heard: %s]\n", r.Heard)
	}
	fmt.Fprintf(w, "\n%s\n", r.Say)
	if warn := fmt.Sprint(r.Cautions); warn != t.warned {
		t.warned = warn
		for _, c := range r.Cautions {
			fmt.Fprintf(w, "  ! %s: %s\n", levelWord(c.Level), c.Text)
		}
	}
	if r.Emergency != "" {
		printList(w, "  ", r.Show)
		return
	}
	printRemedies(w, r)
	t.printBuild(r)
	if r.Question == nil || len(r.Remedies) > 0 || r.Done {
		printList(w, "  ", r.Show)
	}
	if sums := fmt.Sprint(r.Amounts); sums != t.sums {
		t.sums = sums
		printAmounts(w, r.Amounts)
	}
	printCauses(w, r)
	printOptions(w, r.Question)
}

func levelWord(level string) string {
	return map[string]string{"stop": "Stop", "care": "Take care", "note": "Note"}[level]
}

func printList(w io.Writer, indent string, lines []string) {
	for _, line := range lines {
		fmt.Fprintf(w, "%s%s\n", indent, line)
	}
}

// printRemedies shows the first remedy, and a second one where its cause is
// likely too. In a closed talk only what to do next time is left to say.
func printRemedies(w io.Writer, r talk.Reply) {
	if r.Done {
		return
	}
	if r.Time != nil && !r.Time.Fits {
		printHurry(w, r)
		return
	}
	for i, rem := range r.Remedies {
		if i >= 2 || i > 0 && (rem.Cause == r.Remedies[0].Cause || shareOf(r, rem.Cause) < 0.2) {
			fmt.Fprintf(w, "  (%d more to try: say next)\n", len(r.Remedies)-i)
			return
		}
		printRemedy(w, i, rem)
	}
}

// printHurry shows what is left to do where no cure fits into the time.
func printHurry(w io.Writer, r talk.Reply) {
	for _, line := range [][2]string{{"To save", r.Time.Save}, {"To hide", r.Time.Hide}, {"To leave out", r.Time.Drop}} {
		if line[1] != "" {
			fmt.Fprintf(w, "  %s: %s\n", line[0], line[1])
		}
	}
	for _, rem := range r.Remedies[:min(2, len(r.Remedies))] {
		fmt.Fprintf(w, "  With more time (%g min): %s\n", rem.Minutes, rem.Say)
	}
}

func shareOf(r talk.Reply, cause string) float64 {
	for _, c := range r.Causes {
		if c.ID == cause {
			return c.Share
		}
	}
	return 0
}

func printRemedy(w io.Writer, i int, r talk.RemedyShown) {
	fmt.Fprintf(w, "  %s (saves the piece: %s; %g min)\n", map[bool]string{true: "Do now", false: "Or then"}[i == 0], r.Saves, r.Minutes)
	for _, step := range r.Now {
		fmt.Fprintf(w, "    - %s\n", step)
	}
	for _, next := range r.NextTime {
		fmt.Fprintf(w, "    next time: %s\n", next)
	}
}

func printCauses(w io.Writer, r talk.Reply) {
	if len(r.Causes) == 0 || r.Done {
		return
	}
	fmt.Fprintln(w, "  Likely causes")
	for i, c := range r.Causes {
		if i > 0 && c.Share < 0.05 {
			break
		}
		because := ""
		if len(c.Because) > 0 {
			because = ": " + strings.Join(c.Because, "; ")
		}
		if c.Found > 0 {
			because += fmt.Sprintf(" (found here: %d)", c.Found)
		}
		fmt.Fprintf(w, "    %3.0f %%  %s%s\n", 100*c.Share, c.Title, because)
	}
}

func printOptions(w io.Writer, q *talk.Question) {
	if q == nil || q.Kind == "yesno" {
		return
	}
	for _, o := range q.Options {
		fmt.Fprintf(w, "    %d  %s\n", o.N, o.Label)
	}
}
