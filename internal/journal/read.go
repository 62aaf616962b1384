package journal

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"sparehand/internal/talk"
)

// read is what a file to import holds, checked, each thing with its line.
type read struct {
	numbers   map[string]int
	forgotten []string
	talks     []talkRecord
	turns     map[string][]readTurn // by talk
	notes     []readNote
	at        map[string]int // line of a talk, by id
}

type readTurn struct {
	Line
	at int
}

type readNote struct {
	kept
	at int
}

var byteOrderMark = []byte("\ufeff")

// readFile tells the two formats apart by the first sign.
func readFile(r io.Reader) (*read, error) {
	in := bufio.NewReader(&lineLimit{r: r})
	if start, _ := in.Peek(len(byteOrderMark)); bytes.Equal(start, byteOrderMark) {
		in.Discard(len(byteOrderMark))
	}
	f := &read{numbers: map[string]int{}, turns: map[string][]readTurn{}, at: map[string]int{}}
	start, err := in.Peek(1)
	switch {
	case errors.Is(err, io.EOF):
		return nil, errors.New("there is nothing in the file to import")
	case err != nil:
		return nil, err
	case start[0] == '{':
		err = f.lines(in)
	default:
		err = f.sheet(in)
	}
	return f, err
}

// lines reads JSON Lines.
func (f *read) lines(in io.Reader) error {
	scan := bufio.NewScanner(in)
	scan.Buffer(nil, maxLine+2)
	at := 0
	for scan.Scan() {
		at++
		if len(bytes.TrimSpace(scan.Bytes())) == 0 {
			continue
		}
		err := f.record(at, scan.Bytes())
		if err != nil {
			return fmt.Errorf("line %d: %w", at, err)
		}
	}
	if err := scan.Err(); err != nil {
		return fmt.Errorf("line %d: %w", at+1, err)
	}
	return nil
}

func (f *read) record(at int, line []byte) error {
	var r record
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&r); err != nil {
		return fmt.Errorf("it can't be read as JSON of a notebook: %w", err)
	}
	if d.More() {
		return errors.New("there is more than one object on it")
	}
	if at == 1 {
		switch {
		case r.Sparehand != "notebook":
			return errors.New(`it is no export of a notebook: that begins with {"sparehand":"notebook","version":1}`)
		case r.Version != formatVersion:
			return fmt.Errorf("its version is %d and this build reads %d: use a newer sparehand", r.Version, formatVersion)
		}
		return nil
	}
	switch {
	case r.Number != nil:
		return f.number(r.Number.Kind, r.Number.Last)
	case r.Forgotten != "":
		f.forgotten = append(f.forgotten, r.Forgotten)
		return plainID("note", r.Forgotten)
	case r.Talk != nil:
		return f.talk(at, *r.Talk)
	case r.Turn != nil:
		return f.turn(at, r.Turn)
	case r.Note != nil:
		return f.note(at, *r.Note)
	}
	return errors.New("there is no number, forgotten, talk, turn or note on it")
}

// number raises the last number given to a kind of note.
func (f *read) number(kind string, last int) error {
	f.numbers[kind] = max(f.numbers[kind], last)
	return plainID("kind", kind)
}

func (f *read) talk(at int, t talkRecord) (err error) {
	if f.at[t.ID] > 0 {
		return fmt.Errorf("the talk %q is on line %d already", t.ID, f.at[t.ID])
	}
	f.at[t.ID] = at
	if t.Begun, err = plainTime(t.Begun); err != nil {
		return err
	}
	if t.Due, err = plainTime(t.Due); err != nil {
		return err
	}
	f.talks = append(f.talks, t)
	return plainID("talk", t.ID)
}

func (f *read) turn(at int, t *turnRecord) error {
	if f.at[t.Talk] == 0 {
		return fmt.Errorf("it is a turn of the talk %q, which no line before it names", t.Talk)
	}
	line, err := cleanLine(t.line())
	if err != nil {
		return err
	}
	before := f.turns[t.Talk]
	if line.Turn != len(before)+1 {
		return fmt.Errorf("turn %d of the talk %q stands where turn %d should", line.Turn, t.Talk, len(before)+1)
	}
	f.turns[t.Talk] = append(before, readTurn{line, at})
	return nil
}

func (f *read) note(at int, n talk.Note) error {
	k, err := keepNote(n)
	if err != nil {
		return err
	}
	f.notes = append(f.notes, readNote{k, at})
	if k.Number > 0 {
		return f.number(k.Kind, k.Number)
	}
	return nil
}

// sheet reads CSV.
func (f *read) sheet(in io.Reader) error {
	sheet := csv.NewReader(in)
	sheet.FieldsPerRecord = len(columns)
	names := strings.Join(columnNames(), ",")
	head, err := sheet.Read()
	if err != nil || strings.Join(head, ",") != names {
		return fmt.Errorf("line 1: it is neither an export of a notebook nor a sheet of its notes, which begins with %s", names)
	}
	for {
		cells, err := sheet.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return sheetFault(err)
		}
		at, _ := sheet.FieldPos(0)
		n, err := noteOf(cells)
		if err == nil {
			err = f.note(at, n)
		}
		if err != nil {
			return fmt.Errorf("line %d: %w", at, err)
		}
	}
}

func noteOf(cells []string) (n talk.Note, err error) {
	for i, c := range columns {
		if err := c.set(&n, unguard(cells[i])); err != nil {
			return n, fmt.Errorf("column %s: %w", c.name, err)
		}
	}
	return n, nil
}

func sheetFault(err error) error {
	var parse *csv.ParseError
	switch {
	case !errors.As(err, &parse):
		return err
	case errors.Is(err, csv.ErrFieldCount):
		return fmt.Errorf("line %d: there are not %d cells in the row", parse.StartLine, len(columns))
	}
	return fmt.Errorf("line %d: %w", parse.Line, parse.Err)
}

// lineLimit ends the reading at a line that is too long to be one of ours.
type lineLimit struct {
	r    io.Reader
	line int // from 0
	size int // bytes of the line so far
}

func (l *lineLimit) Read(p []byte) (int, error) {
	n, err := l.r.Read(p)
	for _, b := range p[:n] {
		l.size++
		if b == '\n' {
			l.line, l.size = l.line+1, 0
		}
		if l.size > maxLine {
			return 0, fmt.Errorf("line %d is longer than %d bytes", l.line+1, maxLine)
		}
	}
	return n, err
}
