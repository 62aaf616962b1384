package voice

import (
	"encoding/gob"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"sparehand/internal/voice/sphinx"
)

// The recogniser's process and its keeper talk in these, by encoding/gob.

// order is what the keeper sends. A setup begins an utterance; sound is added
// to it; a look asks what it is so far, and is followed by one to weigh that.
type order struct {
	Setup *setup
	Sound []int16
	Look  bool
	Weigh bool
	Rival string // weigh: a grammar of what else it may be, "" for none
}

// setup is what is expected, in the forms the library reads.
type setup struct {
	Acoustic string  // the model's folder
	Grammar  string  // finite-state grammar of what is expected
	Loop     string  // one of any phones at all
	Noise    string  // one of none
	Model    string  // n-grams of free descriptions, or ""
	Worth    float64 // see ear
	Words    string  // pronunciations for all of them
}

// finding answers a look, with the words by the grammar only, and the weighing,
// with all. All scores are of one kind of decoder, so they can be compared.
type finding struct {
	Samples  int    // how much sound it is of
	Frames   int    // of 10 ms
	Sounding int    // frames that are louder than the room
	Best     string // the words, by the grammar
	Free     bool   // Best is by the n-grams
	Loose    string // the words by the n-grams, where they were asked
	Sound    int    // score of the sound of these words
	Loop     int    // score of the loop of phones
	Noise    int    // score of no phones at all: of the room, of breath, knocks and babble
	Rival    string // the likeliest words by the rival grammar
	Against  int    // score of the sound of those
	Fault    string // the utterance is lost
}

// Ear is the recogniser's process: it serves orders from in and writes
// findings to out until in ends.
func Ear(in io.Reader, out io.Writer) error {
	lib, err := sphinx.Load()
	if err != nil {
		return err
	}
	orders, findings := gob.NewDecoder(in), gob.NewEncoder(out)
	e := &ear{lib: lib}
	defer e.close()
	for {
		var o order
		if err := orders.Decode(&o); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return fmt.Errorf("reading orders: %w", err)
		}
		if f := e.obey(o); f != nil {
			if err := findings.Encode(f); err != nil {
				return fmt.Errorf("writing findings: %w", err)
			}
		}
	}
}

// ear is one utterance in the library.
type ear struct {
	lib     *sphinx.Library
	decoder *sphinx.Decoder // of the utterance, or nil
	scorer  *sphinx.Decoder // for how well words fit it
	meter   *sphinx.Decoder // the same, for what it is measured against: both at once take less time
	free    bool
	worth   float64 // words that stand out so far are no description
	sound   []int16
	glance  *glance // what is looked at, from the look until it is weighed
	fault   error
}

// glance is a look under way.
type glance struct {
	finding
	sound      []int16
	measured   chan struct{} // closed when it is; then unmeasured says why it is not
	unmeasured error
}

// obey does what is ordered, and gives a finding where one is asked for.
func (e *ear) obey(o order) *finding {
	if o.Setup != nil {
		e.close()
		e.sound = e.sound[:0]
		e.fault = e.begin(o.Setup)
	}
	e.sound = append(e.sound, o.Sound...)
	if !o.Look && !o.Weigh {
		return nil
	}
	f := &finding{}
	switch {
	case e.fault != nil:
	case o.Look:
		f, e.fault = e.look()
	default:
		f, e.fault = e.weigh(o.Rival)
	}
	if e.fault != nil {
		return &finding{Fault: e.fault.Error()}
	}
	return f
}

func (e *ear) close() {
	if e.glance != nil {
		<-e.glance.measured
		e.glance = nil
	}
	for _, d := range []**sphinx.Decoder{&e.decoder, &e.scorer, &e.meter} {
		if *d != nil {
			(*d).Close()
			*d = nil
		}
	}
}

// begin makes a fresh decoder: one that was used before may carry over what
// it learnt of another voice.
func (e *ear) begin(s *setup) error {
	return withFiles(func(file func(text string) string) error {
		words := file(s.Words)
		var err error
		if e.decoder, err = e.lib.New(s.Acoustic, words, false); err != nil {
			return err
		}
		if e.scorer, err = e.lib.New(s.Acoustic, words, true); err != nil {
			return err
		}
		if e.meter, err = e.lib.New(s.Acoustic, words, true); err != nil {
			return err
		}
		if err := e.decoder.Grammar("grammar", file(s.Grammar), grammarWeight); err != nil {
			return err
		}
		if err := e.meter.Grammar("loop", file(s.Loop), 1); err != nil {
			return err
		}
		if err := e.meter.Grammar("noise", file(s.Noise), 1); err != nil {
			return err
		}
		e.worth = s.Worth
		if e.free = s.Model != ""; e.free {
			return e.decoder.Model("free", file(s.Model))
		}
		return nil
	})
}

// grammarWeight multiplies the costs of a grammar. The costs are small, and
// it makes no measurable difference between 1 and 10.
const grammarWeight = 6.5

// withFiles gives do a way to hand texts to the library, which reads files.
func withFiles(do func(file func(text string) string) error) error {
	dir, err := os.MkdirTemp("", "ear")
	if err != nil {
		return fmt.Errorf("no room for the grammar: %w", err)
	}
	defer os.RemoveAll(dir)
	n := 0
	return do(func(text string) string {
		n++
		path := filepath.Join(dir, fmt.Sprint(n))
		_ = os.WriteFile(path, []byte(text), 0o600) // the library says it can't read what is not there
		return path
	})
}

// look decodes what there is by the grammar. Meanwhile, and until it is weighed,
// that is measured which words are weighed against.
func (e *ear) look() (*finding, error) {
	g := &glance{sound: masked(e.sound), measured: make(chan struct{})}
	g.Samples, g.Sounding = len(e.sound), sounding(e.sound)
	e.glance = g
	go func() {
		defer close(g.measured)
		g.unmeasured = e.measure(g)
	}()
	words, _, frames, err := e.decoder.Decode("grammar", g.sound)
	g.Best, g.Frames = plainWords(words), frames
	return &finding{Samples: g.Samples, Best: g.Best}, err
}

// weigh finds how well the words of the look fit, and how well their rivals. Where
// they don't convince it may be a description.
func (e *ear) weigh(rivals string) (*finding, error) {
	g := e.glance
	if g == nil {
		return nil, errors.New("there is nothing to weigh: look first")
	}
	e.glance = nil
	compared := make(chan error, 1) // in the time of the fit
	go func() {
		<-g.measured
		if rivals == "" || g.unmeasured != nil {
			compared <- nil
			return
		}
		compared <- e.compare(g, rivals)
	}()
	err := e.fitted(g)
	if fault := <-compared; err == nil {
		err = fault
	}
	return &g.finding, err
}

// fitted scores the words of a look, and puts a description in their place where
// that fits better. It waits until the look is measured.
func (e *ear) fitted(g *glance) (err error) {
	if g.Best != "" {
		g.Sound, err = e.fit(g.Best, g.sound)
	}
	if <-g.measured; err == nil {
		err = g.unmeasured
	}
	if err != nil || !e.free || g.Best != "" && g.above() > e.worth {
		return err
	}
	words, _, _, err := e.decoder.Decode("free", g.sound)
	if words = plainWords(words); err != nil || strings.Count(words, " ") < leastFree-1 {
		return err
	}
	g.Loose = words
	fit, err := e.fit(words, g.sound)
	if g.Best == "" || float64(fit-g.Sound)*nats > freeAhead*float64(g.Frames) {
		g.Best, g.Sound, g.Free = words, fit, true
	}
	return err
}

// measure finds what words are measured against.
func (e *ear) measure(g *glance) (err error) {
	if _, g.Loop, _, err = e.meter.Decode("loop", g.sound); err == nil {
		_, g.Noise, _, err = e.meter.Decode("noise", g.sound)
	}
	return err
}

// compare finds the likeliest of the rivals.
func (e *ear) compare(g *glance, rivals string) error {
	err := withFiles(func(file func(text string) string) error {
		return e.meter.Grammar("rival", file(rivals), 1)
	})
	if err != nil {
		return err
	}
	words, score, _, err := e.meter.Decode("rival", g.sound)
	g.Rival, g.Against = plainWords(words), score
	return err
}

// fit gives the score of sound as these words.
func (e *ear) fit(words string, sound []int16) (int, error) {
	g := newGraph()
	g.join(g.start, g.end, 0, strings.Fields(words)...)
	err := withFiles(func(file func(text string) string) error {
		return e.scorer.Grammar("words", file(g.text()), 1)
	})
	if err != nil {
		return 0, err
	}
	said, score, _, err := e.scorer.Decode("words", sound)
	if said == "" {
		return math.MinInt32, err // they don't fit it at all
	}
	return score, err
}

// plainWords takes the numbers off other ways to say a word: "talc(2)".
func plainWords(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		words[i], _, _ = strings.Cut(w, "(")
	}
	return strings.Join(words, " ")
}
