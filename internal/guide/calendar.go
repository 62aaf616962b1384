package guide

import (
	"bytes"
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/emersion/go-ical"
)

// Entry is one thing in the calendar. Its ID has to be unlike that of any other
// entry anywhere; a calendar that is given the same one again replaces the
// entry.
type Entry struct {
	ID, Title  string
	Start, End time.Time     // whole seconds; End may be Start
	Notes      []string      // a line each
	Warn       time.Duration // how long before Start to sound an alarm, 0 for none
}

// Calendar writes the entries as an iCalendar stream (RFC 5545), its name as in
// RFC 7986, section 5.1. Times are in UTC; made is when the plan was made.
// Control characters, which RFC 5545 forbids in texts, become spaces, and bytes
// that are no UTF-8 become U+FFFD.
//
// It is an error if there is no entry, if a name, ID or title is empty or an ID
// is there twice, and if times are unset, out of order or past the year 9999.
func Calendar(name string, entries []Entry, made time.Time) ([]byte, error) {
	if strings.TrimSpace(plain(name)) == "" {
		return nil, fmt.Errorf("calendar has no name")
	}
	if len(entries) == 0 {
		return nil, fmt.Errorf("calendar %q: has no entries", name)
	}
	if err := checkTime(made); err != nil {
		return nil, fmt.Errorf("calendar %q: made: %w", name, err)
	}
	cal := ical.NewCalendar()
	cal.Props.SetText(ical.PropVersion, "2.0")
	cal.Props.SetText(ical.PropProductID, "-//sparehand//guide//EN")
	cal.Props.SetText(ical.PropName, plain(name))
	seen := map[string]bool{}
	for _, e := range entries {
		id := plain(e.ID)
		if seen[id] {
			return nil, fmt.Errorf("calendar %q: entry %q is there twice", name, e.ID)
		}
		seen[id] = true
		if err := e.check(); err != nil {
			return nil, fmt.Errorf("calendar %q: entry %q: %w", name, e.ID, err)
		}
		cal.Children = append(cal.Children, e.event(made))
	}
	var out bytes.Buffer
	if err := ical.NewEncoder(&out).Encode(cal); err != nil {
		return nil, fmt.Errorf("calendar %q: %w", name, err)
	}
	return fold(out.Bytes()), nil
}

func (e Entry) check() error {
	if strings.TrimSpace(plain(e.ID)) == "" {
		return fmt.Errorf("has no ID")
	}
	if strings.TrimSpace(plain(e.Title)) == "" {
		return fmt.Errorf("has no title")
	}
	if err := checkTime(e.Start); err != nil {
		return fmt.Errorf("start: %w", err)
	}
	if err := checkTime(e.End); err != nil {
		return fmt.Errorf("end: %w", err)
	}
	if e.End.Before(e.Start) {
		return fmt.Errorf("ends at %v, before its start at %v", e.End, e.Start)
	}
	if e.Warn < 0 {
		return fmt.Errorf("warns %v before its start: want 0 or more", e.Warn)
	}
	return nil
}

// checkTime refuses what four digits of a year can't hold, and the unset time.
func checkTime(t time.Time) error {
	if year := t.UTC().Year(); year < 1970 || year > 9999 {
		return fmt.Errorf("year %d: want 1970 to 9999", year)
	}
	return nil
}

func (e Entry) event(made time.Time) *ical.Component {
	event := ical.NewEvent()
	event.Props.SetText(ical.PropUID, plain(e.ID))
	event.Props.SetDateTime(ical.PropDateTimeStamp, made.UTC())
	event.Props.SetDateTime(ical.PropDateTimeStart, e.Start.UTC())
	// An end has to be later than the start, and is left out where it is not
	// (RFC 5545, sections 3.6.1 and 3.8.2.2).
	if e.End.Unix() > e.Start.Unix() {
		event.Props.SetDateTime(ical.PropDateTimeEnd, e.End.UTC())
	}
	event.Props.SetText(ical.PropSummary, plain(e.Title))
	if len(e.Notes) > 0 {
		event.Props.SetText(ical.PropDescription, plain(strings.Join(e.Notes, "\n")))
	}
	if e.Warn > 0 {
		event.Children = append(event.Children, e.alarm())
	}
	return event.Component
}

func (e Entry) alarm() *ical.Component {
	alarm := ical.NewComponent(ical.CompAlarm)
	alarm.Props.SetText(ical.PropAction, "DISPLAY")
	alarm.Props.SetText(ical.PropDescription, plain(e.Title))
	trigger := ical.NewProp(ical.PropTrigger)
	trigger.SetDuration(-e.Warn)
	alarm.Props.Set(trigger)
	return alarm
}

var newlines = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// plain makes s fit for a text value (RFC 5545, section 3.3.11). Of a byte that
// is no UTF-8 strings.Map makes U+FFFD.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return ' '
		}
		return r
	}, newlines.Replace(s))
}

// fold breaks lines of more than 75 octets, as go-ical doesn't, between
// characters and never inside one (RFC 5545, section 3.1).
func fold(stream []byte) []byte {
	var out bytes.Buffer
	for line := range bytes.Lines(stream) {
		// The space at its head counts as an octet of a further line.
		for width := 75; len(line) > width+len("\r\n"); width = 74 {
			cut := width
			for !utf8.RuneStart(line[cut]) {
				cut--
			}
			out.Write(line[:cut])
			out.WriteString("\r\n ")
			line = line[cut:]
		}
		out.Write(line)
	}
	return out.Bytes()
}
