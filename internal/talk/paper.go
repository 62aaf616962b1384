package talk

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/draw"
	"sparehand/internal/guide"
	"sparehand/internal/phrase"
)

// Paper is something to print or keep: the plan of a build, what came of it, or
// its calendar.
type Paper struct {
	Title    string      `json:"title"`
	Made     time.Time   `json:"made"`
	Parts    []PaperPart `json:"parts"`
	Calendar string      `json:"calendar,omitempty"` // an iCalendar stream (RFC 5545)
}

// PaperPart is a part of a paper: lines, a table, or a picture.
type PaperPart struct {
	Title   string        `json:"title"`
	Lines   []string      `json:"lines,omitempty"`
	Columns []string      `json:"columns,omitempty"`
	Rows    [][]string    `json:"rows,omitempty"`
	Picture *draw.Picture `json:"picture,omitempty"`
}

// Papers that can be made.
const (
	PaperPlan     = "plan"     // time chart, timetable, shopping list and safety sheet
	PaperResult   = "result"   // what was made, and how
	PaperCalendar = "calendar" // the plan for a calendar program
)

// Paper makes a paper of the talk as it stands. Its error is one sentence for
// the maker.
func (s *Session) Paper(what string, now time.Time) (Paper, error) {
	st := s.state
	if st.build == nil {
		return Paper{}, fmt.Errorf("no build is on, so there is nothing to print: say guide me")
	}
	st.fresh()
	st.tick(now)
	p := Paper{Title: st.pieceName(), Made: now}
	var err error
	switch what {
	case PaperPlan:
		p.Parts = st.planPaper(now)
	case PaperResult:
		p.Parts = st.resultPaper(now)
	case PaperCalendar:
		p.Calendar, err = st.calendar(p.Title, now)
	default:
		err = fmt.Errorf("no paper is called %q: there are plan, result and calendar", what)
	}
	return p, err
}

func (s *state) planPaper(now time.Time) []PaperPart {
	var parts []PaperPart
	if p := s.planShown(now); p != nil {
		head := PaperPart{Title: "The plan", Lines: []string{s.planSpoken(now)}}
		if p.Chart.SVG != "" {
			head.Picture = &p.Chart
		}
		table := PaperPart{Title: "Timetable", Columns: []string{"From", "To", "Step", "Minutes", "Start at the latest"}}
		for _, t := range p.Tasks {
			latest := ""
			if p.Call != nil {
				latest = clock(t.Latest, now)
			}
			table.Rows = append(table.Rows, []string{clock(t.Start, now), clock(t.Finish, now), phrase.Capital(t.Title),
				fmt.Sprintf("%.0f to %.0f", t.From, t.To), latest})
		}
		parts = append(parts, head, table)
		for _, w := range p.Shorter {
			parts = append(parts, PaperPart{Title: "A shorter way: " + w.Title, Lines: []string{w.Say, w.Costs}})
		}
	}
	if list := s.shopping(); len(list.Rows) > 0 || len(list.Lines) > 0 {
		parts = append(parts, list)
	}
	return append(parts, s.atHandPart(), s.safetySheet())
}

// shopping is the shopping list, as far as it can be worked out.
func (s *state) shopping() PaperPart {
	part := PaperPart{Title: "Shopping list", Columns: []string{"What", "How much"}}
	for _, am := range s.a.book.Amounts {
		if len(am.Buys) == 0 {
			continue
		}
		w := s.work(am)
		if len(w.Lacks) > 0 {
			part.Lines = append(part.Lines, "Tell me the size of the piece, and I work the list out.")
			continue
		}
		for _, line := range w.Lines {
			part.Rows = append(part.Rows, []string{phrase.Capital(line.Name), line.Value()})
		}
	}
	return part
}

// atHandPart lists what has to be at hand, each thing once.
func (s *state) atHandPart() PaperPart {
	part := PaperPart{Title: "To have at hand"}
	for _, step := range s.build.Steps(s) {
		if s.build.Progress(step).Stage == guide.Over {
			continue
		}
		for _, need := range step.Guide.Needs {
			if need = phrase.Capital(need); !slices.Contains(part.Lines, need) {
				part.Lines = append(part.Lines, need)
			}
		}
	}
	return part
}

// safetySheet lists the cautions of all steps, the gravest first, what must not
// be done, and what to do when somebody is hurt.
func (s *state) safetySheet() PaperPart {
	part := PaperPart{Title: "Safety sheet"}
	var warn []*book.Caution
	var never []string
	for _, step := range s.build.Steps(s) {
		warn = append(warn, step.Guide.Cautions...)
		never = append(never, step.Guide.Never...)
	}
	for _, c := range cautions(warn) {
		part.Lines = append(part.Lines, c.Text)
	}
	for _, n := range never {
		if !slices.Contains(part.Lines, n) {
			part.Lines = append(part.Lines, n)
		}
	}
	for i := range s.a.book.Emergencies {
		d := &s.a.book.Emergencies[i]
		part.Lines = append(part.Lines, phrase.Speech(d.Title+": "+phrase.Lower(d.Say), d.Call))
	}
	return part
}

func (s *state) resultPaper(now time.Time) []PaperPart {
	made := PaperPart{Title: "What was made", Columns: []string{"What", "Label", "When", "How it went"}}
	for _, n := range s.notes() {
		if n.Kind == NoteDiagnosis {
			continue
		}
		made.Rows = append(made.Rows, []string{phrase.Capital(n.Kind), n.Label, clock(n.At, now), n.Outcome})
	}
	steps := PaperPart{Title: "How it went", Columns: []string{"Step", "From", "To"}}
	for _, step := range s.build.Steps(s) {
		if p := s.build.Progress(step); p.Stage == guide.Over {
			steps.Rows = append(steps.Rows, []string{phrase.Capital(step.Title), clock(p.Begun, now), clock(p.Over, now)})
		}
	}
	parts := []PaperPart{made, steps, s.batchPart(), s.troublePart(now), s.toldPart()}
	return slices.DeleteFunc(parts, func(p PaperPart) bool { return len(p.Lines)+len(p.Rows) == 0 })
}

func (s *state) batchPart() PaperPart {
	part := PaperPart{Title: "The mix", Columns: []string{"Part", "Grams"}}
	for _, k := range s.kept {
		for _, p := range k.parts {
			part.Rows = append(part.Rows, []string{phrase.Capital(strings.ReplaceAll(p.Material, "-", " ")), fmt.Sprintf("%g", math.Round(10*p.Grams)/10)})
		}
	}
	return part
}

func (s *state) troublePart(now time.Time) PaperPart {
	part := PaperPart{Title: "What went wrong, and what helped"}
	for _, n := range s.diagnoses {
		r := s.a.index.remedies[n.Remedy]
		if r == nil {
			continue
		}
		line := phrase.Speech(fmt.Sprintf("%s: %s", clock(n.At, now), phrase.Lower(n.Outcome)), r.Say)
		part.Lines = append(part.Lines, line)
		for _, next := range r.NextTime {
			part.Lines = append(part.Lines, "Next time: "+next)
		}
	}
	return part
}

func (s *state) toldPart() PaperPart {
	part := PaperPart{Title: "What was told", Columns: []string{"What", "Answer"}}
	_, told := s.facts()
	for _, t := range told {
		if !t.NotSure {
			part.Rows = append(part.Rows, []string{t.Ask, t.Label})
		}
	}
	return part
}

// calendar gives the plan as calendar entries, one a hands part or wait.
func (s *state) calendar(name string, now time.Time) (string, error) {
	p := s.plan(now)
	if p == nil {
		return "", fmt.Errorf("nothing is left to do before it is worn, so there is nothing for a calendar")
	}
	const warning = 5 * time.Minute
	begun := s.build.Begun.UTC().Format("20060102T150405Z")
	var entries []guide.Entry
	for i, placed := range p.plan.Tasks {
		part := p.parts[i]
		e := guide.Entry{ID: fmt.Sprintf("%s-%s@sparehand", begun, strings.ReplaceAll(p.tasks[i].ID, " ", "-")),
			Title: phrase.Capital(taskTitle(part)), Start: p.at(placed.Start), End: p.at(placed.Finish)}
		if !part.Wait {
			e.Title, e.Warn = part.Step.Guide.Order, warning
			for _, need := range part.Step.Guide.Needs {
				e.Notes = append(e.Notes, "Have ready: "+need)
			}
		}
		e.Notes = append(e.Notes, part.Step.Guide.Look)
		entries = append(entries, e)
	}
	if !s.due.IsZero() {
		entries = append(entries, guide.Entry{ID: begun + "-call@sparehand", Title: "Call: " + name, Start: s.due.Truncate(time.Second), End: s.due.Truncate(time.Second)})
	}
	out, err := guide.Calendar(name, entries, now.Truncate(time.Second))
	return string(out), err
}
