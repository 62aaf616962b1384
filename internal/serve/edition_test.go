package serve

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/talk"
)

// leaks is a book of one trouble. Its first question tells the causes apart,
// and after the answer a remedy is offered.
const leaks = `
stage: mould
facts:
  - {id: place, kind: choice, ask: "Where does it run out?", how_to_check: Look., why: It tells., effort: look,
     options: [{value: under, label: under the wall}, {value: join, label: at a join}, {value: over, label: over the top}]}
  - {id: dry, kind: yesno, ask: "Is the clay dry?", how_to_check: Touch it., why: It tells., effort: touch}
problems:
  - id: leak
    title: The crust's mould leaks
    meaning: Plaster runs out.
    sayings: [plaster runs out, the wall leaks]
    fallback: {try: [Wait.], seek: Ask somebody.}
    causes:
      - id: loose
        title: The wall stands loose
        why: It was not pressed.
        often: common
        signs: [{when: place == "under", points: rules in}]
        remedies:
          - {id: press, say: Press it down., now: [Press it.], saves: yes, minutes: 1, works: mostly, next_time: [Press it first.]}
          - {id: bank, say: Bank it up., now: [Bank it up.], saves: yes, minutes: 1, works: seldom, next_time: [Bank it first.]}
        sources: ["common practice, no source"]
      - id: open
        title: The ends do not meet
        why: They were cut short.
        often: common
        signs: [{when: place == "join", points: rules in}]
        remedies: [{id: plug, say: Plug it., now: [Plug it.], saves: yes, minutes: 1, works: mostly, next_time: [Overlap them.]}]
        sources: ["common practice, no source"]
      - id: low
        title: The wall is low
        why: It was cut low.
        often: common
        signs: [{when: place == "over", points: rules in}]
        remedies: [{id: raise, say: Raise it., now: [Raise it.], saves: yes, minutes: 1, works: mostly, next_time: [Build it higher.]}]
        sources: ["common practice, no source"]
`

// What a maker may change in leaks: each old words and new ones.
var (
	turnedRound = []string{"{value: under, label: under the wall}", "{value: over, label: over the top}", "{value: over, label: over the top}", "{value: under, label: under the wall}"}
	oneMore     = []string{"label: over the top}", "label: over the top}, {value: all, label: everywhere}"}
	relabelled  = []string{"label: under the wall", "label: not under the wall"}
	reworded    = []string{"Where does it run out?", "Where does it not run out?"}
	asksDry     = []string{`place == "under"`, "dry", `place == "join"`, "not dry", `place == "over"`, "not dry"}
	otherRemedy = []string{"works: seldom", "works: mostly", "works: mostly", "works: seldom"}
	otherID     = []string{"id: leak", "id: flood"}
	heardMore   = []string{"[plaster runs out,", "[plaster runs out, the hull is sprung,"}
	retitled    = []string{"The wall stands loose", "The wall was never pressed", "The ends do not meet", "The ends gape"}
)

// bookOf is the book of leaks with changes.
func bookOf(t testing.TB, changes ...string) *book.Book {
	t.Helper()
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(leaks, changes[i]) {
			t.Fatalf("leaks has no %q to change", changes[i])
		}
	}
	text := strings.NewReplacer(changes...).Replace(leaks)
	b, err := book.Load(fstest.MapFS{"leaks.yaml": {Data: []byte(text)}})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func editionOf(t testing.TB, changes ...string) Assistant {
	t.Helper()
	return Talks(talk.New(bookOf(t, changes...)))
}

func servingBook(t testing.TB, a Assistant) *place {
	t.Helper()
	return serving(t, func(c *Config) { c.Assistant = a })
}

// eventsOf looks into the server.
func (p *place) eventsOf(id string) []talk.Event {
	t := p.find(id)
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.session == nil {
		return slices.Clone(t.events)
	}
	return slices.Clone(t.session.Events())
}

// wantEvents: the same ones still, in what was done and how it was taken.
func (p *place) wantEvents(t *testing.T, id string, want []talk.Event) {
	t.Helper()
	if got := p.eventsOf(id); fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", want) {
		t.Errorf("the talk has\n%+v\nwant\n%+v", got, want)
	}
}

func (p *place) sendToSleep(t *testing.T, id string) {
	t.Helper()
	p.idle(p.clock.forward(3 * time.Minute))
	if !p.asleep(id) {
		t.Fatal("the talk is awake")
	}
}

// A talk goes on with another book: its events are the same, and the reply is
// worked out afresh from them.
func TestEditionGoesOn(t *testing.T) {
	for _, sleeps := range []bool{false, true} {
		t.Run(fmt.Sprint("sleeps=", sleeps), func(t *testing.T) {
			p := servingBook(t, editionOf(t))
			c, opened := p.join(t, "", 0)
			asks := []Request{
				{Kind: "say", Ref: "1", Text: "plaster runs out"},
				{Kind: "pick", Ref: "2", N: 2},
				{Kind: "correct", Ref: "3", Fact: "place", Value: "under"},
				{Kind: "pick", Ref: "4", N: 2},
				{Kind: "undo", Ref: "5"},
			}
			var was Message
			for i, r := range asks {
				if was = c.ask(r); was.Kind != "turn" || was.Turn != i+1 {
					t.Fatalf("%+v brings %s", r, show(was))
				}
			}
			before := p.eventsOf(opened.Talk)
			if sleeps {
				p.sendToSleep(t, opened.Talk)
			}
			changed := editionOf(t, slices.Concat(retitled, heardMore, otherRemedy)...)
			p.Use(changed)
			now := changed.Resume(slices.Clone(before))

			again, m := p.join(t, opened.Talk, 0)
			wantReply(t, m, now.Reply())
			if m.Turn != 5 || len(m.Log) != 5 || m.Reply.Causes[0].Title != "The wall was never pressed" || was.Reply.Causes[0].Title == m.Reply.Causes[0].Title {
				t.Errorf("with the other book opened is %s", show(m))
			}
			p.wantEvents(t, opened.Talk, before)
			again.ws.Close()
			eventually(t, "the second client to leave", func() bool { return p.followersOf(opened.Talk) == 1 })

			m = c.ask(asks[2]) // a turn sent again is worked out by the book in use
			wantReply(t, m, changed.Resume(slices.Clone(before[:3])).Reply())
			p.wantEvents(t, opened.Talk, before)
			m = c.say("6", "the hull is sprung")
			wantReply(t, m, now.Hear("the hull is sprung", p.clock.Now()))
			if m.Turn != 6 || m.Reply.Problem != "leak" {
				t.Errorf("the sixth turn brings %s", show(m))
			}
			p.wantEvents(t, opened.Talk, now.Events())
			_, fresh := p.join(t, "", 0)
			wantReply(t, fresh, changed.Open().Reply())
		})
	}
}

// editionPicks are picks of an answer that were seen with one book and come
// when another is in use.
var editionPicks = []struct {
	name    string
	picks   []int // before the change
	changes []string
	n       int
	refused bool
}{
	{"saying added", nil, heardMore, 1, false},
	{"cause retitled", nil, retitled, 1, false},
	{"option turned round", nil, turnedRound, 1, true},
	{"option in its place", nil, turnedRound, 2, false},
	{"not sure of the same", nil, turnedRound, 0, false},
	{"option added", nil, oneMore, 3, false},
	{"the option that was added", nil, oneMore, 4, true},
	{"option relabelled", nil, relabelled, 1, true},
	{"other option relabelled", nil, relabelled, 2, false},
	{"question reworded", nil, reworded, 1, true},
	{"not sure of a question reworded", nil, reworded, 0, true},
	{"other question", nil, asksDry, 1, true},
	{"not sure of another question", nil, asksDry, 0, true},
	{"nothing asked", nil, otherID, 1, true},
	{"the same remedy did it", []int{1}, retitled, 1, false},
	{"another remedy did it", []int{1}, otherRemedy, 1, true},
	{"another remedy did not", []int{1}, otherRemedy, 2, true},
}

// A pick of an answer that meant something else in the question as it was
// seen is refused with the reply in force, and adds nothing to the talk; one
// that means the same is taken.
func TestEditionPick(t *testing.T) {
	for _, k := range editionPicks {
		for _, sleeps := range []string{"never", "before", "after"} {
			t.Run(k.name+", sleeps "+sleeps, func(t *testing.T) {
				p := servingBook(t, editionOf(t))
				c, opened := p.join(t, "", 0)
				seen := c.say("1", "plaster runs out")
				for i, n := range k.picks {
					seen = c.ask(Request{Kind: "pick", Ref: fmt.Sprint("pick ", i), N: n})
				}
				if seen.Reply.Question == nil || seen.Turn != 1+len(k.picks) {
					t.Fatalf("nothing to pick: %s", show(seen))
				}
				before := p.eventsOf(opened.Talk)
				if sleeps == "before" {
					p.sendToSleep(t, opened.Talk)
				}
				changed := editionOf(t, k.changes...)
				p.Use(changed)
				if sleeps == "after" {
					p.sendToSleep(t, opened.Talk)
				}
				m := c.ask(Request{Kind: "pick", Ref: "late", N: k.n})
				if !k.refused {
					p.wantTaken(t, m, before, changed, k.n)
					return
				}
				p.wantStale(t, m, opened.Talk, before, changed)
				now := changed.Resume(slices.Clone(before))
				m = c.ask(Request{Kind: "pick", Ref: "looked again", N: k.n})
				if want, err := now.Pick(k.n, p.clock.Now()); err == nil {
					wantReply(t, m, want)
				} else {
					wantFault(t, m, err.Error())
				}
				p.wantEvents(t, opened.Talk, now.Events())
			})
		}
	}
}

func (p *place) wantTaken(t *testing.T, m Message, before []talk.Event, a Assistant, n int) {
	t.Helper()
	s := a.Resume(slices.Clone(before))
	want, err := s.Pick(n, p.clock.Now())
	if err != nil {
		t.Fatal(err)
	}
	if m.Kind != "turn" || m.Turn != len(before)+1 {
		t.Fatalf("got %s, want turn %d", show(m), len(before)+1)
	}
	wantReply(t, m, want)
}

func (p *place) wantStale(t *testing.T, m Message, id string, before []talk.Event, a Assistant) {
	t.Helper()
	if m.Kind != "fault" || m.Turn != len(before) || !strings.Contains(m.Fault, "the book was changed") || m.Reply == nil {
		t.Fatalf("got %s, want a fault with the reply in force", show(m))
	}
	wantReply(t, m, a.Resume(slices.Clone(before)).Reply())
	p.wantEvents(t, id, before)
}

// A reply that another device got when it joined does not count for this one,
// nor does one that came with a connection made anew: a client that had shown
// the turn already does not show it again, and sends what was not answered.
func TestEditionPickStaysLate(t *testing.T) {
	others := map[string]func(t *testing.T, p *place, id string, phone *client) *client{
		"another device joins": func(t *testing.T, p *place, id string, phone *client) *client {
			p.join(t, id, 0)
			return phone
		},
		"a pick that neither book has": func(t *testing.T, _ *place, _ string, phone *client) *client {
			wantFault(t, phone.ask(Request{Kind: "pick", Ref: "nine", N: 9}), "no answer 9")
			return phone
		},
		"a turn is sent again": func(t *testing.T, _ *place, _ string, phone *client) *client {
			if m := phone.say("1", "plaster runs out"); m.Turn != 1 {
				t.Fatalf("the phone gets %s", show(m))
			}
			return phone
		},
		"the phone comes back": func(t *testing.T, p *place, id string, phone *client) *client {
			phone.cut()
			phone, _ = p.join(t, id, 1)
			return phone
		},
		"the phone comes back twice": func(t *testing.T, p *place, id string, phone *client) *client {
			for range 2 {
				phone.cut()
				phone, _ = p.join(t, id, 1)
			}
			return phone
		},
	}
	for name, happens := range others {
		t.Run(name, func(t *testing.T) {
			p := servingBook(t, editionOf(t))
			phone, opened := p.join(t, "", 0)
			phone.say("1", "plaster runs out")
			before := p.eventsOf(opened.Talk)
			changed := editionOf(t, turnedRound...)
			p.Use(changed)
			phone = happens(t, p, opened.Talk, phone)
			p.wantStale(t, phone.ask(Request{Kind: "pick", Ref: "late", N: 1}), opened.Talk, before, changed)
			p.wantTaken(t, phone.ask(Request{Kind: "pick", Ref: "looked again", N: 1}), before, changed, 1)
		})
	}
}

// twoDevices is one talk on a phone and a laptop, with a question in force.
func twoDevices(t *testing.T) (p *place, phone, laptop *client, opened Message) {
	t.Helper()
	p = servingBook(t, editionOf(t))
	phone, opened = p.join(t, "", 0)
	laptop, _ = p.join(t, opened.Talk, 0)
	phone.say("1", "plaster runs out")
	laptop.read()
	return p, phone, laptop, opened
}

// A turn brings the question of the book in use to every device.
func TestEditionPickFromTheNewReply(t *testing.T) {
	p, phone, laptop, opened := twoDevices(t)
	changed := editionOf(t, turnedRound...)
	p.Use(changed)
	laptop.say("2", "hello there")
	if m := phone.read(); m.Turn != 2 || m.Reply.Question.Options[0].Value != "over" {
		t.Fatalf("the phone gets %s", show(m))
	}
	p.wantTaken(t, phone.ask(Request{Kind: "pick", Ref: "3", N: 1}), p.eventsOf(opened.Talk)[:2], changed, 1)
}

// A book that is no longer in use is let go, though clients stay that were
// asked by it, and talks that have slept since.
func TestEditionLetsGo(t *testing.T) {
	old := bookOf(t)
	var left atomic.Int32
	left.Store(2)
	runtime.AddCleanup(old, func(struct{}) { left.Add(-1) }, struct{}{})
	runtime.AddCleanup(&old.Facts[0], func(struct{}) { left.Add(-1) }, struct{}{})
	p := servingBook(t, Talks(talk.New(old)))
	old = nil
	var ids []string
	for i := range 4 {
		c, opened := p.join(t, "", 0)
		c.say("1", "plaster runs out")
		if i%2 == 0 {
			c.ask(Request{Kind: "pick", Ref: "2", N: 1})
		}
		ids = append(ids, opened.Talk)
	}
	runtime.GC()
	if left.Load() != 2 {
		t.Fatal("the book is let go while it is in use")
	}
	p.Use(editionOf(t, retitled...))
	for _, id := range ids {
		p.sendToSleep(t, id)
	}
	eventually(t, "the old book to be let go", func() bool {
		runtime.GC()
		return left.Load() == 0
	})
}

// raceClient talks at random, and knows what it should find in its talk.
type raceClient struct {
	*client
	rand  *rand.Rand
	id    string
	reply *talk.Reply
	said  []string
	stale int
}

func (c *raceClient) request(i int) Request {
	ref := fmt.Sprint("turn ", i)
	if q := c.reply.Question; q != nil && c.rand.IntN(10) < 6 {
		return Request{Kind: "pick", Ref: ref, N: 1 + c.rand.IntN(len(q.Options))}
	}
	switch c.rand.IntN(4) {
	case 0:
		return Request{Kind: "undo", Ref: ref}
	case 1:
		return Request{Kind: "correct", Ref: ref, Fact: "place", Value: "under"}
	default:
		return Request{Kind: "say", Ref: ref, Text: "plaster runs out"}
	}
}

// take takes one turn. A pick that is taken is of the answer that was seen.
func (c *raceClient) take(t *testing.T, i int) {
	r := c.request(i)
	m := c.ask(r)
	switch {
	case m.Kind == "turn" && m.Ref == r.Ref && m.Turn == len(c.said)+1:
		if r.Kind == "pick" && m.Said != c.reply.Question.Options[r.N-1].Label {
			t.Errorf("%q was picked, and %q taken", c.reply.Question.Options[r.N-1].Label, m.Said)
		}
		c.said = append(c.said, m.Said)
	case m.Kind == "fault" && m.Ref == r.Ref && m.Reply != nil && r.Kind == "pick":
		c.stale++
	default:
		t.Errorf("%+v brings %s", r, show(m))
		return
	}
	c.reply = m.Reply
}

// While many clients talk, the book changes and talks are put to sleep. The
// race detector watches.
func TestEditionRace(t *testing.T) {
	const clients, turns = 32, 40
	editions := []Assistant{editionOf(t), editionOf(t, turnedRound...), editionOf(t, asksDry...), editionOf(t, slices.Concat(otherRemedy, retitled)...), editionOf(t, otherID...)}
	p := servingBook(t, editions[0])
	var talking, changing sync.WaitGroup
	done := make(chan struct{})
	uses := 0
	changing.Go(func() {
		for {
			select {
			case <-done:
				return
			default:
			}
			uses++
			p.Use(editions[uses%len(editions)])
			time.Sleep(100 * time.Microsecond) // leaves the machine to the talks
		}
	})
	changing.Go(func() {
		for {
			select {
			case <-done:
				return
			default:
				p.idle(p.clock.Now().Add(3 * time.Minute))
				time.Sleep(time.Millisecond)
			}
		}
	})
	all := make([]raceClient, clients)
	for i := range all {
		c := &all[i]
		var opened Message
		c.client, opened = p.join(t, "", 0)
		c.rand, c.id, c.reply = rand.New(rand.NewPCG(8417, uint64(i))), opened.Talk, opened.Reply
		talking.Go(func() {
			for n := range turns {
				c.take(t, n)
			}
		})
	}
	talking.Wait()
	close(done)
	changing.Wait()
	p.Use(editions[0])
	taken, stale := 0, 0
	for i := range all {
		c := &all[i]
		_, m := p.join(t, c.id, 0)
		wantSaid(t, m.Log, c.said...)
		wantReply(t, m, editions[0].Resume(p.eventsOf(c.id)).Reply())
		taken, stale = taken+len(c.said), stale+c.stale
	}
	if taken+stale != clients*turns {
		t.Errorf("%d turns taken and %d refused, want %d", taken, stale, clients*turns)
	}
	t.Logf("%d turns taken, %d picks refused, %d times another book", taken, stale, uses)
}

// What one device was told of the other book does not count for another.
func TestEditionPickOfEachDevice(t *testing.T) {
	p, phone, laptop, opened := twoDevices(t)
	before := p.eventsOf(opened.Talk)
	changed := editionOf(t, turnedRound...)
	p.Use(changed)
	p.wantStale(t, laptop.ask(Request{Kind: "pick", Ref: "laptop", N: 1}), opened.Talk, before, changed)
	p.wantStale(t, phone.ask(Request{Kind: "pick", Ref: "phone", N: 1}), opened.Talk, before, changed)
	fresh, _ := p.join(t, opened.Talk, 0) // is asked by the book in use from the start
	p.wantTaken(t, fresh.ask(Request{Kind: "pick", Ref: "fresh", N: 1}), before, changed, 1)
}
