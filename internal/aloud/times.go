package aloud

import (
	"regexp"
	"strconv"
	"strings"
	"time"
)

var (
	isoDate   = regexp.MustCompile(`^(\d{4})-(\d\d)-(\d\d)`)
	dayMonth  = regexp.MustCompile(`^(\d{1,2}) (` + monthNames() + `)((?: \d{4})?)`)
	clockTime = regexp.MustCompile(`^(\d{1,2}):(\d\d)(?: ?([ap])\.?m\b)?`)
	inARow    = regexp.MustCompile(`^(\d{1,12})(?:st|nd|rd|th)`)
)

func monthNames() string {
	var names []string
	for m := time.January; m <= time.December; m++ {
		names = append(names, m.String())
	}
	return strings.Join(names, "|")
}

// momentAt reads a date, a time of day or a place in a row that text begins
// with, and how long it is there; 0 for none. before is what was said so far.
func momentAt(text, before string) (said string, used int) {
	for _, form := range []struct {
		at  *regexp.Regexp
		say func(m []string) string
	}{
		{isoDate, func(m []string) string { return day(m[3], atoi(m[2]), m[1]) }},
		{dayMonth, func(m []string) string {
			t, _ := time.Parse("January", m[2]) // the form has only names of months
			return day(m[1], int(t.Month()), strings.TrimSpace(m[3]))
		}},
		{clockTime, clock},
		{inARow, func(m []string) string { return ordinal(atoi(m[1])) }},
	} {
		m := form.at.FindStringSubmatch(text)
		if m == nil || wordGoesOn(text[len(m[0]):]) || followed(text[len(m[0]):], ":") {
			continue
		}
		if said = form.say(m); said == "" {
			continue
		}
		if strings.HasSuffix(before, "the ") {
			said = strings.TrimPrefix(said, "the ")
		}
		return said, len(m[0])
	}
	return "", 0
}

// day says a date: "the thirtieth of November", with the year where it is
// given; "" for none.
func day(d string, month int, y string) string {
	if n := atoi(d); n < 1 || n > 31 || month < 1 || month > 12 {
		return ""
	}
	said := "the " + ordinal(atoi(d)) + " of " + time.Month(month).String()
	if y != "" {
		said += " " + year(atoi(y))
	}
	return said
}

// year says a year in pairs, but for the years in which nobody does.
func year(y int) string {
	switch high, low := y/100, y%100; {
	case y < 1100 || 2000 <= y && y < 2010:
		return Cardinal(y)
	case low == 0:
		return Cardinal(high) + " hundred"
	case low < 10:
		return Cardinal(high) + " oh " + Cardinal(low)
	default:
		return Cardinal(high) + " " + Cardinal(low)
	}
}

// clock says a time of day: "six twenty-four in the morning", "two in the
// afternoon". Replies have 24 hours, people say twelve, so the part of the day is
// said: a plan runs through the night, and a timer's end must not be taken for
// the one twelve hours off. One digit before the colon is no clock but a ratio,
// unless am or pm stands after it.
func clock(m []string) string {
	hour, minute, half := atoi(m[1]), atoi(m[2]), m[3]
	switch {
	case hour > 23 || minute > 59 || len(m[1]) < 2 && half == "":
		return ""
	case half != "" && (hour < 1 || hour > 12):
		return ""
	case half != "":
		hour = hour % 12
		if half == "p" {
			hour += 12
		}
	}
	switch {
	case minute == 0 && hour == 0:
		return "midnight"
	case minute == 0 && hour == 12:
		return "noon"
	}
	said := Cardinal((hour+11)%12 + 1)
	switch {
	case minute > 9:
		said += " " + Cardinal(minute)
	case minute > 0:
		said += " oh " + Cardinal(minute)
	}
	return said + " " + partOfDay(hour)
}

func partOfDay(hour int) string {
	switch {
	case 1 <= hour && hour < 12:
		return "in the morning"
	case 12 <= hour && hour < 18:
		return "in the afternoon"
	case 18 <= hour && hour < 22:
		return "in the evening"
	}
	return "at night"
}

// atoi reads digits that a form has found.
func atoi(digits string) int {
	n, _ := strconv.Atoi(digits)
	return n
}
