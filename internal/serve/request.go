package serve

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"
)

// decode reads one request, strictly. What it could read is returned even
// with an error, so that a fault can name the ref. Errors are for the maker.
func decode(text []byte) (Request, error) {
	var r Request
	if !utf8.Valid(text) {
		return r, errors.New("that message is not UTF-8 text")
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&r); err != nil {
		return r, inWords(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return r, errors.New("that message has something after its end")
	}
	return r, nil
}

// inWords says in plain words what encoding/json found.
func inWords(err error) error {
	var kind *json.UnmarshalTypeError
	if errors.As(err, &kind) {
		if kind.Field == "" {
			return errors.New("that message is not a JSON object")
		}
		return fmt.Errorf("%q cannot be a %s", kind.Field, kind.Value)
	}
	if name, found := strings.CutPrefix(err.Error(), "json: unknown field "); found {
		return fmt.Errorf("nothing here is called %s", short(name, nameBytes))
	}
	return errors.New("that message is not JSON")
}

// check says what is wrong with a request, in words for the maker.
func (r Request) check(l Limits) error {
	switch {
	case r.V != Version:
		return fmt.Errorf("this server speaks version %d of the talk, and that message is version %d: load the page again", Version, r.V)
	case len(r.Ref) > refBytes:
		return fmt.Errorf("a ref has at most %d bytes", refBytes)
	case strings.ContainsFunc(r.Ref, unicode.IsControl):
		return errors.New("a ref has no control characters")
	case len(r.Talk) > nameBytes:
		return fmt.Errorf("a talk's id has at most %d bytes", nameBytes)
	case r.Kind == "open":
		return nil
	case !afterOpen(r.Kind):
		return fmt.Errorf("%q is not one of open, say, pick, correct, undo, paper, listen, hush, spoken", short(r.Kind, nameBytes))
	case r.Ref == "":
		return fmt.Errorf("%s needs a ref", r.Kind)
	}
	return r.checkTurn(l)
}

func afterOpen(kind string) bool {
	switch kind {
	case "say", "pick", "correct", "undo", "paper", "listen", "hush", "spoken":
		return true
	}
	return false
}

// checkTurn checks what a turn of its kind needs.
func (r Request) checkTurn(l Limits) error {
	switch r.Kind {
	case "say":
		return checkText(r.Text, l.TextRunes)
	case "spoken":
		return r.checkSpoken(l)
	case "paper":
		return checkText(r.Text, nameBytes)
	case "pick":
		if r.N < 0 {
			return errors.New("options are counted from 1, and 0 is not sure")
		}
	case "correct":
		switch {
		case r.Fact == "":
			return errors.New("it is not said what to correct")
		case len(r.Fact) > nameBytes:
			return fmt.Errorf("the name of a fact has at most %d bytes", nameBytes)
		case utf8.RuneCountInString(r.Value) > valueRunes:
			return fmt.Errorf("that is longer than %d characters: give the value alone", valueRunes)
		}
	}
	return nil
}

// readings is how many readings of an utterance are taken beside the first.
const readings = 3

func (r Request) checkSpoken(l Limits) error {
	if !(r.Sure >= 0 && r.Sure <= 1) {
		return errors.New("how sure it is lies between 0 and 1")
	}
	if len(r.Others) > readings {
		return fmt.Errorf("%d other readings are the most", readings)
	}
	for _, text := range append(r.Others, r.Text) {
		if err := checkText(text, l.TextRunes); err != nil {
			return err
		}
	}
	return nil
}

func checkText(text string, most int) error {
	if strings.TrimSpace(text) == "" {
		return errors.New("no words came with that")
	}
	if n := utf8.RuneCountInString(text); n > most {
		return fmt.Errorf("that is %d characters, and %d is the most: say it in fewer words", n, most)
	}
	return nil
}

// short cuts what a client sent, for quoting it.
func short(s string, bytes int) string {
	if len(s) <= bytes {
		return s
	}
	return strings.ToValidUTF8(s[:bytes], "") + "…"
}
