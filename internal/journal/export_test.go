package journal

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"sparehand/internal/talk"
)

func exported(t tb, j *Journal) string {
	t.Helper()
	var b bytes.Buffer
	ok(t, j.Export(t.Context(), &b))
	return b.String()
}

func sheet(t tb, j *Journal) string {
	t.Helper()
	var b bytes.Buffer
	ok(t, j.ExportCSV(t.Context(), &b))
	return b.String()
}

func imported(t tb, j *Journal, file string) Imported {
	t.Helper()
	did, err := j.Import(t.Context(), strings.NewReader(file))
	ok(t, err)
	return did
}

// emptied takes everything out of a store, which is quicker than a new one.
func emptied(t tb, j *Journal) {
	t.Helper()
	for _, table := range []string{"lines", "talks", "notes", "forgotten", "numbers"} {
		_, err := j.write.ExecContext(t.Context(), `DELETE FROM `+table)
		ok(t, err)
	}
}

func TestImportOfAnExportIsTheSame(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		from := opened(t, where)
		into := opened(t, filepath.Join(t.TempDir(), "copy.db"))
		rapid.Check(t, func(t *rapid.T) {
			emptied(t, from)
			emptied(t, into)
			fill(t, from)
			want := exported(t, from)
			imported(t, into, want)
			sameTurns(t, from, into)
			// The last number given comes along with the notes' own.
			raised := exported(t, into)
			if numbersOut(raised) != numbersOut(want) {
				t.Fatalf("got  %s\nwant %s", raised, want)
			}
			if did := imported(t, into, want); did.Talks+did.Turns+did.Notes > 0 {
				t.Fatalf("the second import did %+v", did)
			}
			if again := exported(t, into); again != raised {
				t.Fatalf("the second import changed\n%s\nto\n%s", raised, again)
			}
			emptied(t, from)
			imported(t, from, raised)
			if back := exported(t, from); back != raised {
				t.Fatalf("back again: %s\nwant %s", back, raised)
			}
		})
	})
}

// sameTurns fails unless two stores hold the same talks to the byte.
func sameTurns(t *rapid.T, a, b *Journal) {
	talks, err := a.Talks(t.Context(), 0)
	ok(t, err)
	copied, err := b.Talks(t.Context(), 0)
	ok(t, err)
	if asJSON(t, talks) != asJSON(t, copied) {
		t.Fatalf("got  %v\nwant %v", copied, talks)
	}
	for _, k := range talks {
		want, err := a.Lines(t.Context(), k.ID, 0)
		ok(t, err)
		got, err := b.Lines(t.Context(), k.ID, 0)
		ok(t, err)
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("got  %v\nwant %v", got, want)
		}
	}
}

// numbersOut leaves out the lines of numbers, which notes may raise.
func numbersOut(file string) string {
	lines := strings.Split(file, "\n")
	return strings.Join(slices.DeleteFunc(lines, func(l string) bool { return strings.HasPrefix(l, `{"number"`) }), "\n")
}

func TestSheetOfNotesIsTheSame(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		from := opened(t, where)
		into := opened(t, filepath.Join(t.TempDir(), "copy.db"))
		rapid.Check(t, func(t *rapid.T) {
			emptied(t, from)
			emptied(t, into)
			fill(t, from)
			want, err := from.Notes(t.Context(), Query{})
			ok(t, err)
			file := sheet(t, from)
			imported(t, into, "\ufeff"+file)
			imported(t, into, file)
			got, err := into.Notes(t.Context(), Query{})
			ok(t, err)
			if asJSON(t, got) != asJSON(t, want) {
				t.Fatalf("got  %s\nwant %s", asJSON(t, got), asJSON(t, want))
			}
			if again := sheet(t, into); again != file {
				t.Fatalf("the sheet of it is\n%s\nwant\n%s", again, file)
			}
			noFormula(t, file)
		})
	})
}

func asJSON(t tb, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	ok(t, err)
	return string(text)
}

// noFormula reads a sheet with encoding/csv and fails at a cell that a
// spreadsheet would run. What those are: OWASP, 'CSV Injection'.
func noFormula(t tb, file string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	ok(t, err)
	for _, row := range rows {
		for i, cell := range row {
			if cell != "" && strings.Contains("=+-@\t\r", cell[:1]) {
				t.Fatalf("column %s holds the formula %q", columns[i].name, cell)
			}
		}
	}
}

// RFC 4180, section 2: CRLF ends a line, a quote inside quotes is doubled.
func TestSheetIsOfRFC4180(t *testing.T) {
	j := opened(t, filepath.Join(t.TempDir(), "notebook.db"))
	stands(t, j, 1, note("t/1", talk.NoteMould, func(n *talk.Note) { n.Name, n.Outcome = `the "rope" scar, left`, "=1+1" }))
	want := "id,kind,number,name,label,talk,at,for,place,mould,batch,recipe,parts,room_c,humidity,worn_for,outcome,problem,cause,remedy,helped,facts\r\n" +
		`t/1,mould,0,"the ""rope"" scar, left",,t,2026-02-14T12:00:00.123456Z,,,0,0,,,,,,'=1+1,,,,no,` + "\r\n"
	if got := sheet(t, j); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestATalkGoesOnByImport(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		from := opened(t, filepath.Join(t.TempDir(), "from.db"))
		stands(t, from, 1)
		early := exported(t, from)
		stands(t, from, 2)
		late := exported(t, from)
		into := opened(t, where)
		for _, c := range []struct {
			file string
			want Imported
		}{
			{early, Imported{Talks: 1, Turns: 1}},
			{late, Imported{Turns: 1, Known: 1}},
			{early, Imported{Known: 1}},
		} {
			if did := imported(t, into, c.file); did != c.want {
				t.Errorf("the import did %+v, want %+v", did, c.want)
			}
		}
		ok(t, into.Append(t.Context(), "t", turn(3), time.Time{}, nil))
	})
}

func TestForgottenNotesAreNotImported(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		stands(t, j, 1, note("t/1", talk.NoteMould, func(n *talk.Note) { n.Number = 4 }))
		before := exported(t, j)
		ok(t, j.Forget(t.Context(), "t/1"))
		if did := imported(t, j, before); did != (Imported{Known: 1, Forgotten: 1}) {
			t.Errorf("the import did %+v", did)
		}
		other := opened(t, filepath.Join(t.TempDir(), "other.db"))
		imported(t, other, before)
		if did := imported(t, other, exported(t, j)); did != (Imported{Known: 1, Forgotten: 1}) {
			t.Errorf("the import of what forgot did %+v", did)
		}
		for _, j := range []*Journal{j, other} {
			if got := found(t, j, Query{}); len(got) > 0 {
				t.Errorf("the notes are %v", got)
			}
			if n, err := j.NextNumber(t.Context(), "mould"); err != nil || n != 5 {
				t.Errorf("the next mould is %d, %v, want 5", n, err)
			}
		}
	})
}

func TestWhatCannotBeImported(t *testing.T) {
	const (
		head  = `{"sparehand":"notebook","version":1}` + "\n"
		begun = `{"talk":{"id":"n","begun":"2026-02-14T12:00:00Z"}}` + "\n"
		first = `{"turn":{"talk":"n","turn":1,"ref":"a","asks":"1","at":"2026-02-14T12:00:00Z","say":"","title":"","event":{}}}` + "\n"
		mould = `{"note":{"id":"n/1","kind":"mould","at":"2026-02-14T12:00:00Z"}}` + "\n"
	)
	names := strings.Join(columnNames(), ",") + "\r\n"
	row := func(change func(cells []string)) string {
		cells := make([]string, len(columns))
		cells[0], cells[1] = "n/1", "mould"
		change(cells)
		return strings.Join(cells, ",") + "\r\n"
	}
	good := row(func([]string) {})
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		stands(t, j, 1, note("t/1", talk.NoteMould, nil))
		before := exported(t, j)
		for name, c := range map[string]struct{ file, says string }{
			"nothing":              {"", "nothing"},
			"words":                {"the ferryman's cheek", "line 1"},
			"other JSON":           {`{"a":1}` + "\n", "line 1"},
			"other version":        {`{"sparehand":"notebook","version":7}`, "version is 7"},
			"garbage":              {head + mould + "\x00\xff\n", "line 3"},
			"half a line":          {head + mould[:20], "line 2"},
			"a word too many":      {head + mould[:len(mould)-1] + " 7\n", "line 2"},
			"an unknown field":     {head + `{"note":{"id":"n/1","kind":"mould","at":"2026-02-14T12:00:00Z","colour":"red"}}`, `line 2: it can't be read as JSON of a notebook: json: unknown field "colour"`},
			"a note of no kind":    {head + begun + strings.Replace(mould, "mould", "boat", 1), "line 3"},
			"a line of nothing":    {head + "{}\n", "line 2"},
			"a turn of no talk":    {head + first, "line 2"},
			"a turn twice":         {head + begun + first + first, "line 4"},
			"a talk twice":         {head + begun + begun, "line 3"},
			"a ref twice":          {head + begun + first + strings.Replace(first, `"turn":1`, `"turn":2`, 1), "line 4"},
			"another talk's id":    {head + strings.Replace(begun, `"n"`, `"t"`, 1), `line 2: the talk "t"`},
			"another turn":         {strings.Replace(before, "barnacle", "limpet", 1), `turn 1 of the talk "t"`},
			"another note's id":    {head + mould + strings.Replace(mould, "n/1", "t/1", 1), `line 3: the note "t/1"`},
			"a far time":           {head + strings.Replace(mould, "2026", "0000", 1), "line 2"},
			"a long line":          {head + `{"forgotten":"` + strings.Repeat("a", maxLine) + `"}`, "line 2"},
			"a sheet's other head": {strings.Replace(names, "label", "tag", 1) + good, "line 1"},
			"a short row":          {names + good + "n/2,mould\r\n", "line 3"},
			"an open quote":        {names + good + row(func(c []string) { c[3] = `"rope` }), "line 3"},
			"no number":            {names + row(func(c []string) { c[2] = "four" }), "line 2: column number"},
			"no time":              {names + row(func(c []string) { c[6] = "14/02/2026" }), "line 2: column at"},
			"no JSON":              {names + row(func(c []string) { c[21] = "{a}" }), "line 2: column facts"},
			"neither yes nor no":   {names + row(func(c []string) { c[20] = "maybe" }), "line 2: column helped"},
			"infinite":             {names + row(func(c []string) { c[13] = "Inf" }), "line 2"},
			"a sheet's note twice": {names + good + row(func(c []string) { c[3] = "rope" }), `line 3: the note "n/1"`},
			"a long row":           {names + row(func(c []string) { c[3] = strings.Repeat("a", maxLine) }), "line 2"},
		} {
			did, err := j.Import(t.Context(), strings.NewReader(c.file))
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%s: the error is %.200v, want one that says %s", name, err, c.says)
			}
			if did != (Imported{}) {
				t.Errorf("%s: it did %+v", name, did)
			}
		}
		if after := exported(t, j); after != before {
			t.Errorf("the notebook was\n%s\nand is\n%s", before, after)
		}
	})
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, fmt.Errorf("the line was cut") }

func TestExportToABrokenLine(t *testing.T) {
	j := opened(t, filepath.Join(t.TempDir(), "notebook.db"))
	for name, err := range map[string]error{"export": j.Export(t.Context(), broken{}), "sheet": j.ExportCSV(t.Context(), broken{}), "page": j.Page(t.Context(), broken{})} {
		if err == nil || !strings.Contains(err.Error(), "the line was cut") {
			t.Errorf("%s: the error is %v", name, err)
		}
	}
}
