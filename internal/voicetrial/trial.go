// Package voicetrial measures the recogniser: it has synthetic voices say what
// makers say, adds noise, and counts what comes of it in a talk. No real user
// is measured by it.
package voicetrial

import (
	"context"
	"fmt"
	"hash/fnv"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"

	"sparehand/internal/book"
	"sparehand/internal/serve"
	"sparehand/internal/talk"
	"sparehand/internal/voice"
)

// Conditions are the noise under the speech, in decibels below it.
var Conditions = []float64{math.Inf(1), 20, 10}

// Trial is what is tried.
type Trial struct {
	Ears   voice.Recogniser
	Book   *book.Book
	Voices []Voice

	assistant *talk.Assistant
	asked     map[string][]talk.Event
}

// Outcome is what came of one utterance.
type Outcome struct {
	Case
	Voice   string
	Under   float64 // decibels that the noise lies under the speech
	Heard   voice.Heard
	Seconds float64 // of sound, without the room before and after it
	Meant   bool    // the words mean what was said
	Came    string  // right, wrong or asked; for what nobody meant: let be, asked or taken
}

// Plain is the outcome as it is written to a file.
func (o Outcome) Plain() map[string]any {
	under := "none"
	if !math.IsInf(o.Under, 1) {
		under = fmt.Sprintf("%g dB", o.Under)
	}
	return map[string]any{"kind": o.Kind, "fact": o.Fact, "say": o.Say, "want": o.Want, "voice": o.Voice, "noise": under, "words": o.Heard.Words,
		"sure": o.Heard.Sure, "free": o.Heard.Free, "others": o.Heard.Others, "above": o.Heard.Above, "speech": o.Heard.Speech, "lead": o.Heard.Lead, "phones": o.Heard.Phones,
		"meant": o.Meant, "came": o.Came}
}

// Run says everything in every voice under every condition, and gives each
// outcome to done as it comes. What nobody meant is said once, clean. Cases
// whose fact nothing asks for are left out: see Skipped.
func (t *Trial) Run(ctx context.Context, cases []Case, done func(Outcome)) error {
	t.assistant = talk.New(t.Book)
	t.asked = asking(t.assistant, t.Book)
	type job struct {
		c     Case
		v     Voice
		under float64
	}
	jobs := make(chan job)
	var mu sync.Mutex
	var failed error
	var workers sync.WaitGroup
	for range 2 {
		workers.Go(func() {
			for j := range jobs {
				o, err := t.try(ctx, j.c, j.v, j.under)
				mu.Lock()
				if err != nil && failed == nil {
					failed = fmt.Errorf("%q by %s: %w", j.c.Say, j.v.Name, err)
				} else if err == nil {
					done(o)
				}
				mu.Unlock()
			}
		})
	}
	for _, c := range cases {
		if _, known := t.asked[c.Fact]; !known {
			continue
		}
		conditions := Conditions
		if c.Kind == "unrelated" || c.Kind == "noise" {
			conditions = Conditions[:1]
		}
		for _, v := range t.Voices {
			for _, under := range conditions {
				jobs <- job{c, v, under}
			}
		}
	}
	close(jobs)
	workers.Wait()
	return failed
}

// Skipped are the cases whose fact is asked in no talk that is tried.
func (t *Trial) Skipped(cases []Case) []Case {
	return slices.DeleteFunc(slices.Clone(cases), func(c Case) bool { _, ok := t.asked[c.Fact]; return ok })
}

// edge is the sound of the room before and after each utterance, in samples:
// what the page sends from before speech began, and what it takes to see its end.
const edge = voice.Rate * 3 / 10

func (t *Trial) try(ctx context.Context, c Case, v Voice, under float64) (Outcome, error) {
	o := Outcome{Case: c, Voice: v.Name, Under: under}
	pcm, err := t.sound(ctx, c, v)
	if err != nil {
		return o, err
	}
	o.Seconds = float64(len(pcm)) / voice.Rate
	pcm = InRoom(pcm, under, edge, edge, chance(c, v))
	s := t.assistant.Resume(slices.Clone(t.asked[c.Fact]))
	if o.Heard, err = t.listen(ctx, s, pcm); err != nil {
		return o, err
	}
	if c.Kind != "unrelated" && c.Kind != "noise" {
		o.Meant = sameActs(t.typed(s, o.Heard.Words).Acts, t.typed(s, c.Say).Acts)
	}
	o.Came = t.judge(s, c, o.Heard)
	return o, nil
}

// chance is the same for the same case and voice.
func chance(c Case, v Voice) *rand.Rand {
	h := fnv.New64a()
	fmt.Fprint(h, c, v.Name)
	return rand.New(rand.NewPCG(h.Sum64(), 0))
}

func (t *Trial) sound(ctx context.Context, c Case, v Voice) ([]int16, error) {
	if c.Kind == "noise" {
		for _, n := range Noises {
			if n.Name == c.Say {
				r := chance(c, v)
				return n.Sound(0.4+1.6*r.Float64(), r), nil
			}
		}
		return nil, fmt.Errorf("no noise is called %q", c.Say)
	}
	return v.Say(ctx, c.Say)
}

// listen gives an utterance to the recogniser as the page would.
func (t *Trial) listen(ctx context.Context, s *talk.Session, pcm []int16) (voice.Heard, error) {
	u, err := t.Ears.Listen(ctx, serve.Expected(s.Expect()))
	if err != nil {
		return voice.Heard{}, err
	}
	const frame = voice.Rate / 50
	for at := 0; at < len(pcm); at += frame {
		end := min(at+frame, len(pcm))
		if _, err := u.Write(pcm[at:end], end <= len(pcm)-edge); err != nil {
			u.Drop()
			return voice.Heard{}, err
		}
	}
	return u.End()
}

// judge says what came of an utterance. Right is what the same words typed do;
// what would lose something has to be asked about, and that is right too.
func (t *Trial) judge(s *talk.Session, c Case, h voice.Heard) string {
	events := len(s.Events())
	typed := t.typed(s, c.Say)
	got := s.Listen(talk.Spoken{Words: h.Words, Sure: h.Sure, Free: h.Free, Others: h.Others}, start)
	var did talk.Event
	if list := s.Events(); len(list) > events {
		did = list[events]
	}
	nothing := len(did.Acts) == 0
	switch {
	case c.Kind == "unrelated" || c.Kind == "noise":
		switch {
		case nothing:
			return "let be"
		case did.Asks():
			return "asked"
		}
		return "taken"
	case c.Kind == "emergency" || c.Kind == "description" && t.Book.ProblemByID(c.Want) == nil: // in a stranger's words
		if got.Emergency != "" || got.Question != nil && got.Question.Fact == "emergency" {
			return "right"
		}
	case sameActs(did.Acts, typed.Acts) || confirms(did, typed):
		return "right"
	case c.Kind == "description" && (did.Asks() || nothing):
		return t.led(s, got, c.Want)
	}
	if nothing || did.Asks() {
		return "asked"
	}
	return "wrong"
}

// typed is what words do when they are typed.
func (t *Trial) typed(s *talk.Session, words string) talk.Event {
	keyed := t.assistant.Resume(slices.Clone(s.Events()))
	keyed.Hear(words, start)
	if list := keyed.Events(); len(list) > len(s.Events()) {
		return list[len(s.Events())]
	}
	return talk.Event{}
}

// confirms tells whether it is asked, by yes or no, if something shall be done.
func confirms(did, typed talk.Event) bool {
	return len(did.Acts) == 1 && len(did.Acts[0].Choices) == 2 && did.Acts[0].Choices[0].Label == "yes" && sameActs(did.Acts[0].Choices[0].Acts, typed.Acts)
}

func sameActs(a, b []talk.Act) bool {
	return fmt.Sprintf("%+v", a) == fmt.Sprintf("%+v", b)
}

// led answers truthfully what is asked after a description, at most twice, and
// tells whether that led to its problem.
func (t *Trial) led(s *talk.Session, r talk.Reply, want string) string {
	p := t.Book.ProblemByID(want)
	for range 2 {
		if r.Problem != "" || r.Question == nil || p == nil {
			break
		}
		pick := len(r.Question.Options)
		for i, o := range r.Question.Options {
			if o.Value == want || o.Value == p.Title || o.Value == p.Stage || o.Label == p.Title {
				pick = i + 1
			}
		}
		if r.Question.Kind == "yesno" && containsTitle(r.Question.Text, p.Title) {
			pick = 1
		}
		next, err := s.Pick(pick, start)
		if err != nil {
			break
		}
		r = next
	}
	switch r.Problem {
	case want:
		return "right"
	case "":
		return "asked"
	}
	return "wrong"
}

// Table writes the outcomes as a table: one line for each kind and condition.
func Table(w io.Writer, list []Outcome) {
	type key struct {
		kind  string
		under float64
	}
	counts, seconds := map[key]map[string]int{}, map[key]float64{}
	var keys []key
	for _, o := range list {
		k := key{o.Kind, o.Under}
		if counts[k] == nil {
			counts[k] = map[string]int{}
			keys = append(keys, k)
		}
		counts[k][o.Came]++
		seconds[k] += o.Seconds
		counts[k][""]++
	}
	slices.SortStableFunc(keys, func(a, b key) int {
		if a.kind != b.kind {
			return slices.Index(kinds, a.kind) - slices.Index(kinds, b.kind)
		}
		return int(math.Copysign(1, b.under-a.under))
	})
	fmt.Fprintf(w, "%-12s %-8s %6s %8s %8s %8s %8s\n", "what", "noise", "said", "minutes", "right", "asked", "wrong")
	for _, k := range keys {
		n := counts[k]
		share := func(what ...string) string {
			sum := 0
			for _, x := range what {
				sum += n[x]
			}
			return fmt.Sprintf("%.1f %%", 100*float64(sum)/float64(n[""]))
		}
		noise := "none"
		if !math.IsInf(k.under, 1) {
			noise = fmt.Sprintf("%g dB", k.under)
		}
		fmt.Fprintf(w, "%-12s %-8s %6d %8.1f %8s %8s %8s\n", k.kind, noise, n[""], seconds[k]/60, share("right", "let be"), share("asked"), share("wrong", "taken"))
	}
}

var kinds = []string{"choice", "number", "command", "emergency", "description", "unrelated", "noise"}

func containsTitle(text, title string) bool {
	return strings.Contains(strings.ToLower(text), strings.ToLower(title))
}
