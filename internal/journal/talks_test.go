package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestTurnsAreKeptAsTheyWere(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		ok(t, j.Begin(t.Context(), "t", noon))
		want := []Line{turn(1), turn(2), turn(3)}
		want[1].Say = "½ of “it” \u2028 <b>&"
		want[2].Event = []byte(`{"text":"< & \u0000 \u2028 ½"}`)
		want[2].Title = ""
		for _, l := range want {
			ok(t, j.Append(t.Context(), "t", l, time.Time{}, nil))
		}
		got, err := j.Lines(t.Context(), "t", 0)
		ok(t, err)
		if !reflect.DeepEqual(got, want) {
			t.Errorf("got  %v\nwant %v", got, want)
		}
		got, err = j.Lines(t.Context(), "t", 2)
		ok(t, err)
		if !reflect.DeepEqual(got, want[2:]) {
			t.Errorf("after turn 2: got %v, want %v", got, want[2:])
		}
		talks, err := j.Talks(t.Context(), 0)
		ok(t, err)
		if w := []Talk{{"t", 3, noon, want[2].At, turn(1).Title, time.Time{}}}; !reflect.DeepEqual(talks, w) {
			t.Errorf("the list shows %v, want %v", talks, w)
		}
	})
}

func TestWhatCannotBeAppended(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		ok(t, j.Begin(t.Context(), "t", noon))
		wants(t, j.Begin(t.Context(), "t", noon), ErrBegun)
		ok(t, j.Append(t.Context(), "t", turn(1), time.Time{}, nil))
		ok(t, j.Append(t.Context(), "t", turn(2), noon, nil))
		_, err := j.Lines(t.Context(), "other", 0)
		wants(t, err, ErrNoTalk)
		with := func(change func(*Line)) Line {
			l := turn(3)
			change(&l)
			return l
		}
		for name, c := range map[string]struct {
			id   string
			line Line
			want []error
		}{
			"no talk":       {"other", turn(1), []error{ErrNoTalk}},
			"behind":        {"t", with(func(l *Line) { l.Turn = 2 }), []error{ErrBehind}},
			"used":          {"t", with(func(l *Line) { l.Ref = "r1" }), []error{ErrUsed}},
			"both":          {"t", turn(2), []error{ErrBehind, ErrUsed}},
			"a gap":         {"t", with(func(l *Line) { l.Turn = 4 }), nil},
			"turn 0":        {"t", with(func(l *Line) { l.Turn = 0 }), nil},
			"no event":      {"t", with(func(l *Line) { l.Event = nil }), nil},
			"half an event": {"t", with(func(l *Line) { l.Event = []byte(`{"a":`) }), nil},
			"too long":      {"t", with(func(l *Line) { l.Say = strings.Repeat("a", maxLine) }), nil},
			"a NUL in ref":  {"t", with(func(l *Line) { l.Ref = "a\x00" }), nil},
			"a far time":    {"t", with(func(l *Line) { l.At = time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC) }), nil},
		} {
			err := j.Append(t.Context(), c.id, c.line, noon.Add(time.Hour), nil)
			if err == nil {
				t.Errorf("%s: it was kept", name)
			}
			for _, sentinel := range []error{ErrNoTalk, ErrBehind, ErrUsed} {
				if errors.Is(err, sentinel) != slices.Contains(c.want, sentinel) {
					t.Errorf("%s: the error is %v, want %v", name, err, c.want)
				}
			}
		}
		lines, err := j.Lines(t.Context(), "t", 0)
		ok(t, err)
		due, err := j.NextDue(t.Context())
		ok(t, err)
		if len(lines) != 2 || !due.Equal(noon) {
			t.Errorf("what failed left a trace: %d turns, due %v", len(lines), due)
		}
	})
}

func TestTurnsWithoutRefMayBeMany(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		ok(t, j.Begin(t.Context(), "t", noon))
		for n := 1; n <= 2; n++ {
			l := turn(n)
			l.Ref = ""
			ok(t, j.Append(t.Context(), "t", l, time.Time{}, nil))
		}
	})
}

func TestDueTalks(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		next, err := j.NextDue(t.Context())
		ok(t, err)
		if !next.IsZero() {
			t.Errorf("the empty store has something due at %v", next)
		}
		for id, due := range map[string]time.Time{"a": noon.Add(2 * time.Minute), "b": noon.Add(time.Minute), "c": {}, "d": noon.Add(time.Hour)} {
			ok(t, j.Begin(t.Context(), id, noon))
			ok(t, j.Append(t.Context(), id, turn(1), due, nil))
		}
		for _, c := range []struct {
			by   time.Duration
			most int
			want []string
		}{
			{0, 0, nil},
			{time.Minute - time.Microsecond, 0, nil},
			{time.Minute, 0, []string{"b"}},
			{10 * time.Minute, 0, []string{"b", "a"}},
			{10 * time.Hour, 2, []string{"b", "a"}},
		} {
			got, err := j.Due(t.Context(), noon.Add(c.by), c.most)
			ok(t, err)
			if !slices.Equal(got, c.want) {
				t.Errorf("due after %v: %v, want %v", c.by, got, c.want)
			}
		}
		ok(t, j.Append(t.Context(), "b", turn(2), time.Time{}, nil))
		next, err = j.NextDue(t.Context())
		ok(t, err)
		if want := noon.Add(2 * time.Minute); !next.Equal(want) {
			t.Errorf("the next is due at %v, want %v", next, want)
		}
	})
}

func TestNewerTalks(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		told := map[string]int{"nowhere": 3}
		for n := range askAtOnce { // two queries' worth, with nowhere
			told[fmt.Sprint("n", n)] = 0
		}
		for _, id := range []string{"a", "b"} {
			ok(t, j.Begin(t.Context(), id, noon))
			ok(t, j.Append(t.Context(), id, turn(1), time.Time{}, nil))
		}
		told["a"], told["b"] = 0, 1
		got, err := j.Newer(t.Context(), told)
		ok(t, err)
		if !slices.Equal(got, []string{"a"}) {
			t.Errorf("newer are %v, want a", got)
		}
		got, err = j.Newer(t.Context(), nil)
		if ok(t, err); got != nil {
			t.Errorf("of none, newer are %v", got)
		}
	})
}

func TestLastUsedTalkComesFirst(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		for n, id := range []string{"a", "b", "c"} {
			ok(t, j.Begin(t.Context(), id, noon.Add(time.Duration(n)*time.Second)))
		}
		ok(t, j.Append(t.Context(), "a", turn(1), time.Time{}, nil))
		talks, err := j.Talks(t.Context(), 2)
		ok(t, err)
		if len(talks) != 2 || talks[0].ID != "a" || talks[1].ID != "c" {
			t.Errorf("the list is %v, want a and c", talks)
		}
	})
}

func TestOneOfTwoServersTakesATurn(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		servers := []*Journal{opened(t, where), opened(t, where)}
		ok(t, servers[0].Begin(t.Context(), "t", noon))
		const turns = 30
		var wins [2]int
		for n := 1; n <= turns; n++ {
			var errs [2]error
			var both sync.WaitGroup
			for i, j := range servers {
				both.Go(func() {
					l := turn(n)
					l.Ref += fmt.Sprint("of", i)
					l.Event = json.RawMessage(fmt.Sprint(i))
					errs[i] = j.Append(t.Context(), "t", l, time.Time{}, nil)
				})
			}
			both.Wait()
			winner := 0
			if errs[0] != nil {
				winner = 1
			}
			ok(t, errs[winner])
			wants(t, errs[1-winner], ErrBehind)
			wins[winner]++
			lines, err := servers[0].Lines(t.Context(), "t", n-1)
			ok(t, err)
			if len(lines) != 1 || string(lines[0].Event) != fmt.Sprint(winner) {
				t.Fatalf("turn %d is %v, and server %d was told that it is its own", n, lines, winner)
			}
		}
		t.Logf("turns taken: %v", wins)
	})
}

func TestNumbersAreGivenOnce(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		servers := []*Journal{opened(t, where), opened(t, where)}
		const each = 25
		var mu sync.Mutex
		given := map[int]int{}
		var all sync.WaitGroup
		for i := range 4 {
			all.Go(func() {
				for range each {
					n, err := servers[i%2].NextNumber(t.Context(), "mould")
					if err != nil {
						t.Error(err)
					}
					mu.Lock()
					given[n]++
					mu.Unlock()
				}
			})
		}
		all.Wait()
		for n := 1; n <= 4*each; n++ {
			if given[n] != 1 {
				t.Errorf("number %d was given %d times", n, given[n])
			}
		}
		if n, err := servers[0].NextNumber(t.Context(), "batch"); err != nil || n != 1 {
			t.Errorf("the first batch is %d, %v", n, err)
		}
	})
}
