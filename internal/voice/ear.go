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
// to it; a look asks what it is so far.
type order struct {
	Setup *setup
	Sound []int16
	Look  bool
	Rival string // a grammar to decode it by as well, beside what was found
	Upto  int    // rival: how many samples of it, those of the look
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

// finding answers a look, or a rival. All scores are of one decoder, so they can
// be compared.
type finding struct {
	Samples  int    // how much sound it is of
	Frames   int    // of 10 ms
	Sounding int    // frames that are louder than the room
	Best     string // the words, by the grammar or by the rival
	Free     bool   // Best is by the n-grams
	Loose    string // the words by the n-grams, where they were asked
	Sound    int    // score of the sound of these words
	Loop     int    // score of the loop of phones
	Noise    int    // score of no phones at all: of the room, of breath, knocks and babble
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
	fault   error
}

// obey does what is ordered, and gives a finding where one is asked for.
func (e *ear) obey(o order) *finding {
	if o.Setup != nil {
		e.close()
		e.sound = e.sound[:0]
		e.fault = e.begin(o.Setup)
	}
	e.sound = append(e.sound, o.Sound...)
	var f *finding
	switch {
	case !o.Look && o.Rival == "":
		return nil
	case e.fault != nil:
	case o.Rival != "":
		f, e.fault = e.rival(o.Rival, o.Upto)
	default:
		f, e.fault = e.look()
	}
	if e.fault != nil {
		return &finding{Samples: len(e.sound), Fault: e.fault.Error()}
	}
	if f.Samples = len(e.sound); o.Rival != "" {
		f.Samples = o.Upto
	}
	return f
}

func (e *ear) close() {
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

// look decodes what there is by the grammar. Where that does not convince, it
// may be a description.
func (e *ear) look() (*finding, error) {
	sound := masked(e.sound)
	f := &finding{Sounding: sounding(e.sound)}
	measured := make(chan error, 1)
	go func() { measured <- e.measure(f, sound) }()
	err := e.expected(f, sound)
	if fault := <-measured; err == nil {
		err = fault
	}
	if err != nil || !e.free || f.Best != "" && f.above() > e.worth {
		return f, err
	}
	words, _, _, err := e.decoder.Decode("free", sound)
	if words = plainWords(words); err != nil || strings.Count(words, " ") < leastFree-1 {
		return f, err
	}
	f.Loose = words
	fit, err := e.fit(words, sound)
	if f.Best == "" || float64(fit-f.Sound)*nats > freeAhead*float64(f.Frames) {
		f.Best, f.Sound, f.Free = words, fit, true
	}
	return f, err
}

// expected finds the words by the grammar.
func (e *ear) expected(f *finding, sound []int16) (err error) {
	if f.Best, _, f.Frames, err = e.decoder.Decode("grammar", sound); err != nil {
		return err
	}
	if f.Best = plainWords(f.Best); f.Best != "" {
		f.Sound, err = e.fit(f.Best, sound)
	}
	return err
}

// measure finds what words are measured against.
func (e *ear) measure(f *finding, sound []int16) (err error) {
	if _, f.Loop, _, err = e.meter.Decode("loop", sound); err == nil {
		_, f.Noise, _, err = e.meter.Decode("noise", sound)
	}
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

func (e *ear) rival(grammar string, upto int) (*finding, error) {
	err := withFiles(func(file func(text string) string) error {
		return e.decoder.Grammar("rival", file(grammar), grammarWeight)
	})
	if err != nil {
		return nil, err
	}
	f, sound := &finding{}, masked(e.sound[:upto])
	f.Best, _, f.Frames, err = e.decoder.Decode("rival", sound)
	if f.Best = plainWords(f.Best); err == nil && f.Best != "" {
		f.Sound, err = e.fit(f.Best, sound)
	}
	return f, err
}

// plainWords takes the numbers off other ways to say a word: "talc(2)".
func plainWords(text string) string {
	words := strings.Fields(text)
	for i, w := range words {
		words[i], _, _ = strings.Cut(w, "(")
	}
	return strings.Join(words, " ")
}
