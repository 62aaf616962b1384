package guide

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	ics "github.com/arran4/golang-ical"
)

var (
	callTime = time.Date(2031, 3, 14, 18, 30, 0, 0, time.FixedZone("", 3600))
	madeTime = time.Date(2031, 3, 13, 9, 15, 20, 0, time.UTC)
)

func ferryEntries() []Entry {
	return []Entry{
		{ID: "pour-1", Title: "Pour the mould, barnacle crust; ferryman", Start: callTime.Add(-28 * time.Hour), End: callTime.Add(-27 * time.Hour),
			Notes: []string{`925 g of plaster, 650 g of water; stir slowly`, "back\\slash \\n, and\ntwo lines\r\nthree", "", "Krähenfüße größer wählen — naïve 縄の跡"}},
		{ID: "dry-1", Title: "Ready?", Start: callTime.Add(-90 * time.Minute), End: callTime.Add(-90 * time.Minute), Warn: 10 * time.Minute},
		{ID: "call", Title: strings.Repeat("Würgemal am Hals der Mannschaft ", 12), Start: callTime, End: callTime.Add(150 * time.Second), Warn: 36*time.Hour + 5*time.Second,
			Notes: []string{strings.Repeat("縄", 200), strings.Repeat(" ", 200) + "end", strings.Repeat(",;\\", 100)}},
	}
}

// checkLines wants CRLF at the end of every line and nowhere else, at most 75
// octets in it, and whole characters (RFC 5545, section 3.1).
func checkLines(t *testing.T, stream []byte) {
	t.Helper()
	rest, ok := bytes.CutSuffix(stream, []byte("\r\n"))
	if !ok {
		t.Fatal("does not end with CRLF")
	}
	for _, line := range bytes.Split(rest, []byte("\r\n")) {
		if len(line) > 75 || len(line) == 0 || !utf8.Valid(line) || bytes.ContainsAny(line, "\r\n") {
			t.Errorf("line of %d octets: %q", len(line), line)
		}
	}
}

// readBack reads the stream with a parser that shares no code with the writer.
// It puts an entry's end at its start where the stream gives none.
func readBack(t *testing.T, stream []byte) (name string, made time.Time, entries []Entry) {
	t.Helper()
	cal, err := ics.ParseCalendar(bytes.NewReader(stream))
	if err != nil {
		t.Fatalf("%v in\n%s", err, stream)
	}
	for _, p := range cal.CalendarProperties {
		if p.IANAToken == "NAME" {
			name = p.Value
		}
	}
	for _, event := range cal.Events() {
		text := func(p ics.ComponentProperty) string {
			if prop := event.GetProperty(p); prop != nil {
				return prop.Value
			}
			return ""
		}
		e := Entry{ID: text(ics.ComponentPropertyUniqueId), Title: text(ics.ComponentPropertySummary)}
		if e.Start, err = event.GetStartAt(); err != nil {
			t.Fatal(err)
		}
		e.End = e.Start
		if event.HasProperty(ics.ComponentPropertyDtEnd) {
			if e.End, err = event.GetEndAt(); err != nil {
				t.Fatal(err)
			}
		}
		if made, err = event.GetDtStampTime(); err != nil {
			t.Fatal(err)
		}
		if event.HasProperty(ics.ComponentPropertyDescription) {
			e.Notes = strings.Split(text(ics.ComponentPropertyDescription), "\n")
		}
		for _, alarm := range event.Alarms() {
			seconds := strings.TrimPrefix(alarm.GetProperty(ics.ComponentPropertyTrigger).Value, "-PT")
			if e.Warn, err = time.ParseDuration(strings.ToLower(seconds)); err != nil {
				t.Fatal(err)
			}
			if action := alarm.GetProperty(ics.ComponentPropertyAction).Value; action != "DISPLAY" {
				t.Errorf("alarm does %s", action)
			}
			if said := alarm.GetProperty(ics.ComponentPropertyDescription).Value; said != e.Title {
				t.Errorf("alarm says %q, title is %q", said, e.Title)
			}
		}
		entries = append(entries, e)
	}
	return name, made, entries
}

func sameEntry(a, b Entry) bool {
	lines := func(e Entry) string { return strings.ReplaceAll(strings.Join(e.Notes, "\n"), "\r\n", "\n") }
	return a.ID == b.ID && a.Title == b.Title && a.Start.Equal(b.Start) && a.End.Equal(b.End) && a.Warn == b.Warn && lines(a) == lines(b)
}

func TestCalendarReadBack(t *testing.T) {
	const title = "Shipwreck, crew; the ferryman’s crust"
	want := ferryEntries()
	stream, err := Calendar(title, want, madeTime)
	if err != nil {
		t.Fatal(err)
	}
	checkLines(t, stream)
	if n := bytes.Count(stream, []byte("DTEND:")); n != 2 {
		t.Errorf("%d entries have an end, and 2 end after their start", n)
	}
	name, made, got := readBack(t, stream)
	if name != title || !made.Equal(madeTime) {
		t.Errorf("name %q, made %v", name, made)
	}
	if !slices.EqualFunc(got, want, sameEntry) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

// The bytes themselves, by the grammar of RFC 5545, sections 3.3.5, 3.3.6,
// 3.3.11, 3.6.1 and 3.6.6.
func TestCalendarBytes(t *testing.T) {
	entry := Entry{ID: "dry-1", Title: "Trim, then\nglue", Start: callTime, End: callTime.Add(time.Hour), Notes: []string{"a;b", `c\d`}, Warn: time.Minute}
	got, err := Calendar("Crew", []Entry{entry}, madeTime)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.Join([]string{
		"BEGIN:VCALENDAR", "NAME:Crew", "PRODID:-//sparehand//guide//EN", "VERSION:2.0",
		"BEGIN:VEVENT", `DESCRIPTION:a\;b\nc\\d`, "DTEND:20310314T183000Z", "DTSTAMP:20310313T091520Z",
		"DTSTART:20310314T173000Z", `SUMMARY:Trim\, then\nglue`, "UID:dry-1",
		"BEGIN:VALARM", "ACTION:DISPLAY", `DESCRIPTION:Trim\, then\nglue`, "TRIGGER:-PT60S", "END:VALARM",
		"END:VEVENT", "END:VCALENDAR", ""}, "\r\n")
	if string(got) != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestFoldAtEveryWidth(t *testing.T) {
	for _, letter := range []string{"a", "ü", "縄", "🪢"} {
		for n := range 160 {
			line := "X:" + strings.Repeat("b", n%5) + strings.Repeat(letter, n)
			folded := fold([]byte(line + "\r\n"))
			checkLines(t, folded)
			if got := strings.ReplaceAll(string(folded), "\r\n ", ""); got != line+"\r\n" {
				t.Errorf("%q became %q", line, got)
			}
		}
	}
	if short := fold([]byte("X:" + strings.Repeat("b", 73) + "\r\n")); bytes.Contains(short, []byte("\r\n ")) {
		t.Error("a line of 75 octets is folded")
	}
}

func TestCalendarErrors(t *testing.T) {
	with := func(change func(*Entry)) []Entry {
		e := Entry{ID: "pour", Title: "Pour", Start: callTime, End: callTime}
		change(&e)
		return []Entry{e}
	}
	fine := with(func(*Entry) {})
	tests := []struct {
		name    string
		entries []Entry
		made    time.Time
		want    string
	}{
		{"", fine, madeTime, "calendar has no name"},
		{"Crew", nil, madeTime, `calendar "Crew": has no entries`},
		{"Crew", fine, time.Time{}, `calendar "Crew": made: year 1: want 1970 to 9999`},
		{"Crew", append(fine, fine...), madeTime, `entry "pour" is there twice`},
		{"Crew", with(func(e *Entry) { e.ID = " " }), madeTime, `entry " ": has no ID`},
		{"Crew", with(func(e *Entry) { e.Title = "\x00" }), madeTime, `entry "pour": has no title`},
		{"Crew", with(func(e *Entry) { e.Start = time.Time{} }), madeTime, `entry "pour": start: year 1:`},
		{"Crew", with(func(e *Entry) { e.End = callTime.AddDate(9000, 0, 0) }), madeTime, `entry "pour": end: year 11031:`},
		{"Crew", with(func(e *Entry) { e.End = callTime.Add(-time.Minute) }), madeTime, `before its start`},
		{"Crew", with(func(e *Entry) { e.Warn = -time.Minute }), madeTime, `entry "pour": warns -1m0s before its start`},
	}
	for _, test := range tests {
		if _, err := Calendar(test.name, test.entries, test.made); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("got %v, want %s", err, test.want)
		}
	}
}

func FuzzCalendar(f *testing.F) {
	f.Add("Crew", "pour", "Pour, then; wait", "two\nlines \\n", uint32(60))
	f.Add("Mannschaft", "ä", "\tü ", strings.Repeat("縄 ", 60), uint32(0))
	f.Add("\xff", "a\x7fb", "c\r\nd\re", "\u0085\u2028", uint32(7))
	f.Fuzz(func(t *testing.T, name, id, title, note string, seconds uint32) {
		length := time.Duration(seconds) * time.Second
		want := Entry{ID: id, Title: title, Start: callTime, End: callTime.Add(length), Notes: []string{note}, Warn: length}
		stream, err := Calendar(name, []Entry{want}, madeTime)
		if err != nil {
			if strings.TrimFunc(name, blank) != "" && strings.TrimFunc(id, blank) != "" && strings.TrimFunc(title, blank) != "" {
				t.Fatal(err)
			}
			return
		}
		checkLines(t, stream)
		gotName, _, entries := readBack(t, stream)
		if len(entries) != 1 {
			t.Fatalf("%d entries in\n%s", len(entries), stream)
		}
		got := entries[0]
		sameText(t, gotName, name)
		sameText(t, got.ID, id)
		sameText(t, got.Title, title)
		sameText(t, strings.Join(got.Notes, "\n"), note)
		if !got.End.Equal(want.End) || got.Warn != want.Warn {
			t.Errorf("ends %v, warns %v; want %v, %v", got.End, got.Warn, want.End, want.Warn)
		}
	})
}

func blank(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }

// sameText wants a text back as it was, but for what a calendar can't hold.
func sameText(t *testing.T, got, sent string) {
	t.Helper()
	want := []rune(strings.ReplaceAll(sent, "\r\n", "\n")) // makes U+FFFD of each bad byte
	for i, r := range want {
		switch {
		case r == '\r':
			want[i] = '\n'
		case r != '\n' && r != '\t' && unicode.IsControl(r):
			want[i] = ' '
		}
	}
	if got != string(want) {
		t.Errorf("%q came back as %q", sent, got)
	}
}

// readInPython lists what Python's icalendar module finds in a stream.
const readInPython = `
import json, sys
from icalendar import Calendar
out = []
for e in Calendar.from_ical(sys.stdin.buffer.read()).walk('VEVENT'):
    end = e.get('DTEND', e['DTSTART']).dt
    out.append({'ID': e['UID'], 'Title': e['SUMMARY'],
                'Start': e['DTSTART'].dt.isoformat(), 'End': end.isoformat(),
                'Notes': e['DESCRIPTION'].split('\n') if 'DESCRIPTION' in e else [],
                'Warn': sum(int(-a['TRIGGER'].dt.total_seconds()) for a in e.walk('VALARM')) * 10**9})
json.dump(out, sys.stdout)
`

// pythonWith finds a python that has a module, the distribution's after the
// one in the path; "" for none.
func pythonWith(ctx context.Context, module string) string {
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.CommandContext(ctx, python, "-c", "import "+module).Run() == nil {
			return python
		}
	}
	return ""
}

func TestCalendarReadBackInPython(t *testing.T) {
	ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
	defer cancel()
	python := pythonWith(ctx, "icalendar")
	if python == "" {
		if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
			t.Fatal("python3 has no icalendar module and SPAREHAND_TEST_ALL=1")
		}
		t.Skip("python3 has no icalendar module: the check against it is skipped")
	}
	want := ferryEntries()
	for i := range want {
		for k, note := range want[i].Notes {
			// Release 4.0 of the module reads a backslash before n as a new line.
			want[i].Notes[k] = strings.ReplaceAll(note, `\`, "/")
		}
	}
	stream, err := Calendar("Crew", want, madeTime)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(ctx, python, "-c", readInPython)
	cmd.Stdin = bytes.NewReader(stream)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var got []Entry
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	if !slices.EqualFunc(got, want, sameEntry) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}
