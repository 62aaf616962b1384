package hear

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sparehand/internal/book"
	"sparehand/rules"
)

// realBook loads the book that sparehand comes with. While somebody is at
// work on a rule it may not load; then there is nothing to measure.
func realBook(tb testing.TB) *book.Book {
	tb.Helper()
	b, err := book.Load(rules.Files)
	switch {
	case err != nil && os.Getenv("SPAREHAND_TEST_ALL") == "1":
		tb.Fatalf("the book does not load: %v", err)
	case err != nil:
		tb.Skipf("the book does not load: %v", err)
	}
	return b
}

// score counts what was heard of a set of utterances.
type score struct {
	problems, first, three, clearly, wrong int // of trouble lines
	asked1                                 int // right at once, or offered where it is asked which
	emergencies, certain, asked            int // of emergency lines
	none, alarms, taken                    int // of shop talk: false alarms, problems taken for clear
	falseAlarms                            int // alarms on trouble lines
	surely                                 int // alarms over shop talk that ask nothing first
}

func measure(t *testing.T, h *Hearing, b *book.Book, folder string, complain func(string, ...any)) score {
	t.Helper()
	var s score
	eachSaying(t, folder, func(id, words string) {
		s.add(b, id, h.Hear(Context{}, words), func(what string) { complain("%s: %s: %q", what, id, words) })
	})
	return s
}

// eachSaying goes through the sayings of a folder of testdata/hearing.
func eachSaying(t *testing.T, folder string, do func(id, words string)) {
	t.Helper()
	files, err := filepath.Glob("../../testdata/hearing/" + folder + "/*.tsv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no sayings in %s (%v)", folder, err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if id, words, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
				do(id, words)
			}
		}
	}
}

func (s *score) add(b *book.Book, id string, m Meaning, complain func(string)) {
	alarm := m.Emergency != "" || m.MaybeEmergency != ""
	switch {
	case id == "none":
		s.none++
		if m.Emergency != "" {
			s.surely++
		}
		if alarm {
			s.alarms++
			complain("alarm over shop talk")
		}
		if m.Problem != "" {
			s.taken++
			complain("shop talk taken for " + m.Problem)
		}
	case b.EmergencyByID(id) != nil:
		s.emergencies++
		if m.Emergency != "" {
			s.certain++
		} else if alarm {
			s.asked++
		} else {
			complain("emergency missed")
		}
	default:
		s.addProblem(id, m, alarm, complain)
	}
}

func (s *score) addProblem(id string, m Meaning, alarm bool, complain func(string)) {
	s.problems++
	if alarm {
		s.falseAlarms++
		complain("alarm over a problem")
	}
	offered := make([]string, 0, 4)
	if m.Problem != "" {
		offered = append(offered, m.Problem)
	}
	for _, a := range m.Alternatives {
		if a.ID != m.Problem {
			offered = append(offered, a.ID)
		}
	}
	for i, o := range offered[:min(3, len(offered))] {
		if o == id {
			s.three++
			if i == 0 {
				s.first++
			}
		}
	}
	if m.Problem == id || m.Problem == "" && slices.Contains(offered, id) {
		s.asked1++
	}
	if m.Problem == id {
		s.clearly++
	} else if m.Problem != "" {
		s.wrong++
		complain("taken for " + m.Problem)
	}
}

func (s score) share(n int) float64 { return float64(n) / float64(max(1, s.problems)) }

// Of problems the aims are asserted: 0.90 first, 0.98 in the first three, 0.96
// right after at most one question. Of emergencies all should be heard and none
// in shop talk; what is missed, and asked about in vain, is bounded at what was
// measured. The folder scored is only scored: its lines are never printed.
func TestHearsWhatMakersSay(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for file, complain := range map[string]func(string, ...any){
		"tuning": t.Logf,
		"scored": func(string, ...any) {},
	} {
		s := measure(t, h, b, file, complain)
		t.Logf("%s: %d problem lines: %.3f first, %.3f in three, %.3f clear, %.3f after one question, %d clearly wrong, %d false alarms; %d emergencies: %d certain, %d asked; %d of shop talk: %d alarms (%d without asking), %d taken for problems",
			file, s.problems, s.share(s.first), s.share(s.three), s.share(s.clearly), s.share(s.asked1), s.wrong, s.falseAlarms,
			s.emergencies, s.certain, s.asked, s.none, s.alarms, s.surely, s.taken)
		if s.share(s.first) < 0.90 || s.share(s.three) < 0.98 || s.share(s.asked1) < 0.96 || s.share(s.wrong) > 0.02 {
			t.Errorf("%s: problems are heard too badly", file)
		}
		if missed := s.emergencies - s.certain - s.asked; missed > 2 {
			t.Errorf("%s: %d of %d emergencies were missed", file, missed, s.emergencies)
		}
		if s.surely > 0 || 25*s.alarms > s.none || 100*s.falseAlarms > s.problems || 25*s.taken > s.none {
			t.Errorf("%s: %d alarms over shop talk (%d without asking), %d over problems, %d lines taken for problems", file, s.alarms, s.surely, s.falseAlarms, s.taken)
		}
	}
}

// What the layers of the hearing of emergencies catch, each alone and together,
// and the ranking of problems before anything is decided.
func TestWhatEachLayerAdds(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, folder := range []string{"tuning", "scored"} {
		var all, patterns, likeness, both, problems, first, three int
		eachSaying(t, folder, func(id, words string) {
			l := h.listen(words)
			ranked := h.rank(l)
			if b.EmergencyByID(id) != nil {
				all++
				certain, maybe := h.alarm(l)
				_, like := h.suspect(l, ranked, "")
				if certain+maybe != "" {
					patterns++
				}
				if like != "" {
					likeness++
				}
				if certain+maybe+like != "" {
					both++
				}
			}
			if b.ProblemByID(id) != nil {
				problems++
				list, _ := h.troubles(Context{}, l, ranked)
				at := slices.IndexFunc(list, func(c Candidate) bool { return c.ID == id })
				if at == 0 {
					first++
				}
				if at < 3 {
					three++
				}
			}
		})
		t.Logf("%s: of %d emergencies the patterns alone hear %d, likeness alone %d, together %d; of %d problems the ranking has %d first, %d in three",
			folder, all, patterns, likeness, both, problems, first, three)
		if both < patterns || both < likeness || both == 0 {
			t.Errorf("%s: a layer takes away what another adds", folder)
		}
	}
}

// What the book itself calls an emergency or shop talk must be heard so.
func TestTheBooksOwnSafetyWords(t *testing.T) {
	b := realBook(t)
	h := New(b)
	for _, e := range b.Emergencies {
		for _, s := range e.Sayings {
			if m := h.Hear(Context{}, s); m.Emergency == "" && m.MaybeEmergency == "" {
				t.Errorf("%s: %q raises no alarm", e.ID, s)
			}
		}
	}
	for _, s := range b.ShopTalk {
		if m := h.Hear(Context{}, s); m.Emergency != "" || m.MaybeEmergency != "" {
			t.Errorf("shop talk %q raises an alarm: %s%s", s, m.Emergency, m.MaybeEmergency)
		}
	}
}

// Every spoken answer of the cases beside the rules must answer its question.
func TestCasesAnswerTheirQuestions(t *testing.T) {
	b := realBook(t)
	h := New(b)
	answers, missed := 0, 0
	for _, c := range b.Cases {
		for name, words := range c.Answers {
			f := b.FactByName(name)
			m := h.Hear(Context{Problem: b.ProblemByID(c.Expect.Problem), Asked: &Asked{Fact: f, Kind: f.Kind, Options: f.Options}}, words)
			answers++
			if !m.NotSure && len(m.Denied) == 0 && (len(m.Facts) == 0 || m.Facts[0].Fact != f.ID) {
				missed++
				t.Logf("%s: %q does not answer %q: %s", c.Name, words, f.Ask, said(b, m))
			}
		}
	}
	t.Logf("%d of %d answers understood", answers-missed, answers)
	if 50*missed > answers {
		t.Errorf("%d of %d answers were not understood", missed, answers)
	}
}

// TestSharpness fits the sharpness again: each fifth of the book's sayings is
// judged by the other four, and the logarithmic loss is searched for its least.
func TestSharpness(t *testing.T) {
	b := realBook(t)
	h := &Hearing{book: b, stems: map[string]string{}, spread: map[string]int{}}
	all := h.samples(b)
	losses := map[float64]float64{}
	const folds = 5
	for k := range folds {
		var learn, judge []sample
		for i, s := range all {
			if i%folds == k {
				judge = append(judge, s)
			} else {
				learn = append(learn, s)
			}
		}
		trained := train(learn, len(h.classes))
		for _, s := range judge {
			scores := trained.scores(s.words)
			for _, sharp := range []float64{0.4, 0.5, 0.6, 0.75, 0.9, 1, 1.2, 1.5} {
				losses[sharp] -= math.Log(max(1e-12, shares(scores, sharp)[s.class])) / float64(len(all))
			}
		}
	}
	best := sharpness
	for sharp, loss := range losses {
		if loss < losses[best] {
			best = sharp
		}
	}
	t.Logf("losses %.3v, least at %v", losses, best)
	if losses[sharpness] > 1.05*losses[best] {
		t.Errorf("sharpness %v loses %.3f nats a saying, %v only %.3f", sharpness, losses[sharpness], best, losses[best])
	}
}
