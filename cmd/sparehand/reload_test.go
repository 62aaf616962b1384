package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"net"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"sparehand/internal/book"
	"sparehand/internal/journal"
	"sparehand/internal/serve"
	"sparehand/internal/talk"
	"sparehand/rules"
)

// The load of TestReloadUnderLoad. Two turns of every talk go with each change:
// one while it is being made, and one when it has had its effect.
const (
	reloadTalks = 50
	reloadTurns = 20
	reloadTime  = 20 * time.Second // for the whole test
	reloadStart = 8417
)

// syncBuffer takes a server's log, which is read meanwhile.
type syncBuffer struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (b *syncBuffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.Write(p)
}

func (b *syncBuffer) lines() []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return slices.Collect(strings.Lines(b.text.String()))
}

// recorder looks over the shoulder of every session: which books talks were
// opened by, and each talk's events, by the words of the first.
type recorder struct {
	mu     sync.Mutex
	books  int
	events map[string][]talk.Event
}

// record takes the recorder in until the test ends.
func record(t *testing.T) *recorder {
	r := &recorder{events: map[string][]talk.Event{}}
	plain := assistantOf
	assistantOf = func(b *book.Book, j *journal.Journal) serve.Assistant {
		r.mu.Lock()
		r.books++
		r.mu.Unlock()
		return recordedAssistant{plain(b, j), r}
	}
	t.Cleanup(func() { assistantOf = plain })
	return r
}

func (r *recorder) of(first string) []talk.Event {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.events[first]
}

type recordedAssistant struct {
	serve.Assistant
	recorder *recorder
}

func (a recordedAssistant) Open() serve.Session {
	return &recordedSession{a.Assistant.Open(), a.recorder}
}

func (a recordedAssistant) Resume(events []talk.Event) serve.Session {
	return &recordedSession{a.Assistant.Resume(events), a.recorder}
}

type recordedSession struct {
	serve.Session
	recorder *recorder
}

func (s *recordedSession) note() {
	events := slices.Clone(s.Events())
	s.recorder.mu.Lock()
	defer s.recorder.mu.Unlock()
	s.recorder.events[events[0].Text] = events
}

func (s *recordedSession) Hear(text string, at time.Time) talk.Reply {
	defer s.note()
	return s.Session.Hear(text, at)
}

func (s *recordedSession) Undo(at time.Time) talk.Reply {
	defer s.note()
	return s.Session.Undo(at)
}

func (s *recordedSession) Pick(n int, at time.Time) (talk.Reply, error) {
	r, err := s.Session.Pick(n, at)
	if err == nil {
		s.note()
	}
	return r, err
}

func (s *recordedSession) Correct(fact, value string, at time.Time) (talk.Reply, error) {
	r, err := s.Session.Correct(fact, value, at)
	if err == nil {
		s.note()
	}
	return r, err
}

// reloading is a server that goes by a maker's folder.
type reloading struct {
	t        *testing.T
	folder   string
	log      *syncBuffer
	address  string
	deadline time.Time
	end      func()
}

// startReloading serves the folder as the serve command does, on loopback. If
// meanwhile is not nil, it is done after the book was read, and before it is
// served.
func startReloading(t *testing.T, flags rulesFlag, deadline time.Time, meanwhile func()) *reloading {
	t.Helper()
	usual := lookEvery
	lookEvery = 10 * time.Millisecond
	t.Cleanup(func() { lookEvery = usual })
	cmd := serveCmd{rulesFlag: flags, Address: "127.0.0.1:0"}
	first, err := cmd.loadStamped()
	if err != nil {
		t.Fatal(err)
	}
	if meanwhile != nil {
		meanwhile()
	}
	listener, err := net.Listen("tcp", cmd.Address)
	if err != nil {
		t.Fatal(err)
	}
	s := &reloading{t: t, folder: flags.Rules, log: &syncBuffer{}, address: listener.Addr().String(), deadline: deadline}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() {
		ended <- cmd.serve(ctx, listener, first, nil, streams{strings.NewReader(""), &bytes.Buffer{}, s.log})
	}()
	s.end = sync.OnceFunc(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Errorf("serving: %v", err)
		}
	})
	t.Cleanup(s.end)
	return s
}

// write puts a file in the place of another all at once, as an editor does.
func (s *reloading) write(name, text string) {
	s.t.Helper()
	fresh := filepath.Join(s.t.TempDir(), "fresh")
	if err := os.WriteFile(fresh, []byte(text), 0o644); err != nil {
		s.t.Fatal(err)
	}
	s.rename(fresh, filepath.Join(s.folder, name))
}

func (s *reloading) rename(from, to string) {
	s.t.Helper()
	if err := os.Rename(from, to); err != nil {
		s.t.Fatal(err)
	}
}

// logged waits for line n of the log, from 0.
func (s *reloading) logged(n int) string {
	s.t.Helper()
	for ; ; time.Sleep(time.Millisecond) {
		if lines := s.log.lines(); len(lines) > n {
			return lines[n]
		}
		if time.Now().After(s.deadline) {
			s.t.Fatalf("waited in vain for line %d of the log, which has\n%s", n+1, strings.Join(s.log.lines(), ""))
		}
	}
}

func (s *reloading) wantUsed(n int) {
	s.t.Helper()
	if line := s.logged(n); !strings.Contains(line, "level=INFO") || !strings.Contains(line, "have changed and are in use") {
		s.t.Fatalf("line %d of the log is %swant the changed rules in use", n+1, line)
	}
}

func (s *reloading) wantRefused(n int, why string) {
	s.t.Helper()
	if line := s.logged(n); !strings.Contains(line, "level=ERROR") || !strings.Contains(line, "the old book stays in use") || !strings.Contains(line, why) {
		s.t.Fatalf("line %d of the log is %swant the old book in use, and %q", n+1, line, why)
	}
}

// reloadClient is one websocket client. Its methods are for one goroutine.
type reloadClient struct {
	s     *reloading
	ws    *websocket.Conn
	talk  string
	shown *talk.Reply
	asks  int
}

// dial opens a talk, "" for a new one.
func (s *reloading) dial(id string) (*reloadClient, serve.Message) {
	s.t.Helper()
	ws, _, err := websocket.DefaultDialer.Dial("ws://"+s.address+"/ws", nil)
	if err != nil {
		s.t.Fatal(err)
	}
	s.t.Cleanup(func() { ws.Close() })
	c := &reloadClient{s: s, ws: ws}
	m, err := c.ask(serve.Request{Kind: "open", Talk: id})
	if err != nil || m.Kind != "opened" || m.Fault != "" || m.Reply == nil {
		s.t.Fatalf("opening a talk: %v, %+v", err, m)
	}
	c.talk, c.shown = m.Talk, m.Reply
	return c, m
}

// ask sends a request and reads its answer: the next message there is.
func (c *reloadClient) ask(r serve.Request) (m serve.Message, err error) {
	c.asks++
	r.V, r.Ref = serve.Version, fmt.Sprint("request ", c.asks)
	_ = c.ws.SetWriteDeadline(c.s.deadline)
	_ = c.ws.SetReadDeadline(c.s.deadline)
	if err := c.ws.WriteJSON(r); err != nil {
		return m, err
	}
	_, text, err := c.ws.ReadMessage()
	if err != nil {
		return m, err
	}
	if bytes.Contains(text, []byte(brokenTitle)) {
		return m, fmt.Errorf("a broken book is in use: %s", text)
	}
	if err := json.Unmarshal(text, &m); err != nil {
		return m, err
	}
	if m.Ref != r.Ref {
		return m, fmt.Errorf("request %q is answered with %s", r.Ref, text)
	}
	return m, nil
}

// hears opens a talk and says whether the words are understood as the leak.
func (s *reloading) hears(words string) bool {
	s.t.Helper()
	c, _ := s.dial("")
	defer c.ws.Close()
	m, err := c.ask(serve.Request{Kind: "say", Text: words})
	if err != nil || m.Kind != "turn" {
		s.t.Fatalf("saying %q: %v, %+v", words, err, m)
	}
	return m.Reply.Problem == "dam-leaks"
}

// wantHeard opens talks to see which sayings are understood: the newest of the
// edition in use, not that of the next one, and never that of a broken file.
func (s *reloading) wantHeard(after bookChange) {
	s.t.Helper()
	if n := after.edition; n > 0 && !s.hears(ownSayings[n-1]) {
		s.t.Errorf("%s: %q is not heard", after.name, ownSayings[n-1])
	}
	if n := after.edition; n < len(ownSayings) && s.hears(ownSayings[n]) {
		s.t.Errorf("%s: %q is heard", after.name, ownSayings[n])
	}
	if s.hears(brokenSaying) {
		s.t.Errorf("%s: the saying of a broken file is heard", after.name)
	}
}

// The maker's file, edition by edition. Each hears one saying more than the one
// before, and turns the answers of the maker's own question round.
const ownFile = "mine.yaml"

var ownSayings = []string{
	"the moat is blethering", "our scuppers went widdershins", "bosun reports a wumpus", "flotsam yammers yonder",
}

func ownText(edition int) string {
	answers := []string{"{value: cook, label: the ship's cook, says: [the galley hand]}", "{value: purser, label: the purser, says: [the quill pusher]}", "{value: nobody, label: no one of the crew}"}
	if edition%2 == 0 {
		slices.Reverse(answers)
	}
	return fmt.Sprintf(`# What the ferryman's crew does to a wall.
stage: mould
facts:
  - id: who_leaned
    kind: choice
    ask: "Who leaned on the wall?"
    how_to_check: Look for a thumb mark.
    why: The crew leans on everything.
    effort: look
    options: [%s]
adds:
  - to: dam-leaks
    sayings: [%s]
    causes:
      - id: crew-leaned
        title: The crew leaned on it (edition %d)
        why: The crew leans on everything.
        often: usual
        signs:
          - {when: who_leaned == "cook", points: rules in}
          - {when: who_leaned == "nobody", points: strongly against}
        remedies:
          - {id: send-away, say: Send the crew away., now: [Send them away.], saves: partly, minutes: %d, works: mostly, next_time: [Lock the door.]}
          - {id: rope-off, say: Rope the bench off., now: [Rope it off.], saves: partly, minutes: %d, works: mostly, next_time: [Rope it off first.]}
        sources: ["common practice, no source"]
`, strings.Join(answers, ", "), strings.Join(ownSayings[:edition], ", "), edition, 1+edition%2, 2-edition%2)
}

// A broken file has a saying and a cause of its own, which nobody may meet.
const (
	brokenSaying = "a barnacle hath hornswoggled us"
	brokenTitle  = "This stands in a broken file"
)

func brokenText(edition int, old, new string) string {
	text := ownText(edition)
	return strings.NewReplacer("sayings: [", "sayings: ["+brokenSaying+", ", "The crew leaned on it", brokenTitle, old, new).Replace(text)
}

// lineOf gives the place of the words in the maker's file, as the log has it.
func lineOf(text, words string) string {
	before, _, found := strings.Cut(text, words)
	if !found {
		return "no " + words
	}
	return fmt.Sprintf("%s:%d:", ownFile, 1+strings.Count(before, "\n"))
}

// kept are the troubles of the embedded book that stay. The others give way to
// empty files of the maker's, its emergencies to one and its shop talk to a
// part: to learn to hear all of them takes seconds, and ten times that under
// the race detector.
var kept = []string{"dam-leaks", "edges-curl"}

const oneEmergency = `
stage: safety
emergencies:
  - id: hot-gelatin
    title: Hot gelatin on skin
    say: Cool it under running water.
    do: [Hold it under cool running water.]
    call: Call the local emergency number if it is larger than a hand.
    source: "common practice, no source"
    ask: Is somebody burnt?
    certain: [{all: [[burnt my hand]]}]
    sayings: [I burnt my hand on the gelatin]
`

// shopTalkKept is how many lines of the shop talk stay.
const shopTalkKept = 200

// makersFolder gives a folder with the maker's own file, and with what makes
// the book small.
func makersFolder(t *testing.T) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "mine")
	put := func(name, text string) {
		name = filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	err := fs.WalkDir(rules.Files, ".", func(name string, e fs.DirEntry, err error) error {
		id, isCases := strings.CutSuffix(strings.TrimSuffix(path.Base(name), ".yaml"), ".cases")
		if err != nil || e.IsDir() || isCases || path.Ext(name) != ".yaml" || slices.Contains(kept, id) {
			return err
		}
		text, err := fs.ReadFile(rules.Files, name)
		switch lines := strings.SplitAfter(string(text), "\n"); {
		case bytes.Contains(text, []byte("\nproblems:")), bytes.Contains(text, []byte("\nguides:")): // these lead to problems
			put(name, "stage: "+path.Dir(name)+"\n")
		case id == "emergencies":
			put(name, oneEmergency)
		case id == "shop-talk":
			put(name, strings.Join(lines[:min(len(lines), shopTalkKept)], ""))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	put(ownFile, ownText(1))
	return folder
}

// bookChange is one thing that happens to the maker's file.
type bookChange struct {
	name    string
	make    func(s *reloading)
	refused string // what the log says, "" where the change is taken
	edition int    // in use afterwards; 0 is the book without the maker's file
}

func bookChanges(s *reloading) []bookChange {
	beside := filepath.Dir(s.folder)
	mine, taken, away := filepath.Join(s.folder, ownFile), filepath.Join(beside, "taken.yaml"), filepath.Join(beside, "away")
	write := func(text string) func(*reloading) {
		return func(s *reloading) { s.write(ownFile, text) }
	}
	badYAML := brokenText(1, "sources: [", "sources: [@")
	badKey := brokenText(2, "how_to_check:", "how_to_chekc:")
	dangling := brokenText(2, "to: dam-leaks", "to: dam-leeks")
	noFact := brokenText(3, `who_leaned == "cook"`, `who_leant == "cook"`)
	return []bookChange{
		{"broken YAML", write(badYAML), lineOf(badYAML, "sources: [@"), 1},
		{"one saying more", write(ownText(2)), "", 2},
		{"file removed", func(s *reloading) { s.rename(mine, taken) }, "", 0},
		{"dangling id", write(dangling), lineOf(dangling, "to: dam-leeks"), 0},
		{"file restored", func(s *reloading) { s.rename(taken, mine) }, "", 2},
		{"unknown key", write(badKey), lineOf(badKey, "how_to_chekc"), 2},
		{"one saying more", write(ownText(3)), "", 3},
		{"unknown fact", write(noFact), lineOf(noFact, "who_leant"), 3},
		{"folder removed", func(s *reloading) { s.rename(s.folder, away) }, "no folder of rules", 3},
		{"folder restored with one saying more", func(s *reloading) {
			s.t.Helper()
			if err := os.WriteFile(filepath.Join(away, ownFile), []byte(ownText(4)), 0o644); err != nil {
				s.t.Fatal(err)
			}
			s.rename(away, s.folder)
		}, "", 4},
	}
}

// maker talks at random, and keeps what the server has acknowledged.
type maker struct {
	*reloadClient
	rand    *rand.Rand
	first   string // words by which the recorder knows the talk
	turns   []acknowledged
	edition int // of the maker's file, as last seen
	faults  map[string]int
}

// acknowledged is a turn that the server has said it took.
type acknowledged struct {
	request serve.Request
	seen    *talk.Reply // when it was asked for
	said    string
	reply   *talk.Reply
}

var makersWords = []string{
	"plaster is running out under the wall", "my dam is leaking", "it comes out at the corner", "the wall is made of clay", "not under the wall",
	"the mould is full of holes", "the edges of the crust curl up", "yes", "no", "not sure", "why?", "what else could it be", "next",
	"the purser leaned on it", "it is 30 mm high", "start again", "we are in a storm", "how much plaster for 10 by 12 cm and 3 cm deep",
	"the moat is blethering", "our scuppers went widdershins", "bosun reports a wumpus", "flotsam yammers yonder",
}

func (m *maker) next() serve.Request {
	switch roll, q := m.rand.IntN(10), m.shown.Question; {
	case len(m.turns) == 0:
		return serve.Request{Kind: "say", Text: m.first}
	case len(m.turns) == 1:
		return serve.Request{Kind: "say", Text: makersWords[m.rand.IntN(2)]}
	case roll < 6 && q != nil && len(q.Options) > 0:
		return serve.Request{Kind: "pick", N: m.rand.IntN(1 + len(q.Options))}
	case roll == 6:
		return serve.Request{Kind: "pick", N: 1 + m.rand.IntN(3)}
	case roll == 7:
		return m.correction()
	case roll == 8:
		return serve.Request{Kind: "undo"}
	}
	return serve.Request{Kind: "say", Text: makersWords[m.rand.IntN(len(makersWords))]}
}

// correction is of something told, of a fact that is not always there, or of
// none.
func (m *maker) correction() serve.Request {
	if told := m.shown.Told; len(told) > 0 && m.rand.IntN(3) > 0 {
		t := told[m.rand.IntN(len(told))]
		if len(t.Options) > 0 && m.rand.IntN(3) > 0 {
			return serve.Request{Kind: "correct", Fact: t.Fact, Value: t.Options[m.rand.IntN(len(t.Options))].Value}
		}
		return serve.Request{Kind: "correct", Fact: t.Fact}
	}
	return serve.Request{Kind: "correct", Fact: []string{"who_leaned", "hull_colour"}[m.rand.IntN(2)], Value: "cook"}
}

// take makes requests until one is acknowledged. A refusal has to be clear: a
// fault in words, and nothing taken.
func (m *maker) take() error {
	for {
		r, seen := m.next(), m.shown
		got, err := m.ask(r)
		switch {
		case err != nil:
			return fmt.Errorf("%+v: %w", r, err)
		case got.Kind == "turn" && got.Fault == "" && got.Reply != nil && got.Turn == len(m.turns)+1:
			m.turns = append(m.turns, acknowledged{r, seen, got.Said, got.Reply})
			m.shown = got.Reply
			return m.look()
		case got.Kind == "fault" && got.Fault != "" && got.Turn == len(m.turns) && r.Kind != "say" && r.Kind != "undo":
			m.faults[faultKind(got.Fault)]++
			if got.Reply != nil {
				m.shown = got.Reply
			}
		default:
			return fmt.Errorf("%+v is answered with %+v", r, got)
		}
	}
}

func faultKind(fault string) string {
	for kind, words := range map[string]string{"picked from the old book": "the book was changed", "nothing asked": "nothing is asked", "no such answer": "there is no answer", "no such fact": "no fact is called"} {
		if strings.Contains(fault, words) {
			return kind
		}
	}
	return "other: " + fault
}

var editionMark = regexp.MustCompile(`\(edition (\d)\)`)

// look checks that no older book comes after a newer.
func (m *maker) look() error {
	for _, c := range m.shown.Causes {
		mark := editionMark.FindStringSubmatch(c.Title)
		if mark == nil {
			continue
		}
		edition, err := strconv.Atoi(mark[1])
		if err != nil || edition < m.edition {
			return fmt.Errorf("edition %d comes after %d", edition, m.edition)
		}
		m.edition = edition
	}
	return nil
}

// Fifty talks go on while the maker's file is changed, broken, removed and
// restored. Every request is answered, every acknowledged turn is kept once and
// in order, no broken book is used, and the newest saying is heard.
func TestReloadUnderLoad(t *testing.T) {
	start := time.Now()
	rec := record(t)
	s := startReloading(t, rulesFlag{Rules: makersFolder(t)}, start.Add(reloadTime), nil)
	changes := bookChanges(s)
	begun, felt := make([]chan struct{}, len(changes)), make([]chan struct{}, len(changes))
	for i := range changes {
		begun[i], felt[i] = make(chan struct{}), make(chan struct{})
	}
	if 2*len(changes) != reloadTurns {
		t.Fatalf("%d turns do not go with %d changes", reloadTurns, len(changes))
	}
	makers := make([]*maker, reloadTalks)
	var talking sync.WaitGroup
	t.Cleanup(talking.Wait) // when the connections are closed
	for i := range makers {
		c, _ := s.dial("")
		m := &maker{reloadClient: c, rand: rand.New(rand.NewPCG(reloadStart, uint64(i))), first: fmt.Sprintf("hail from bench %d", i), faults: map[string]int{}}
		makers[i] = m
		talking.Go(func() {
			for turn := range reloadTurns {
				gate := begun[turn/2]
				if turn%2 == 1 {
					gate = felt[turn/2]
				}
				select {
				case <-gate:
				case <-t.Context().Done():
					return
				}
				err := m.take()
				if err != nil && t.Context().Err() == nil {
					t.Errorf("maker %d, turn %d: %v", i, turn+1, err)
				}
				if err != nil {
					return
				}
			}
		})
	}
	reloads := 0
	for i, change := range changes {
		close(begun[i])
		change.make(s)
		if change.refused == "" {
			s.wantUsed(i)
			reloads++
		} else {
			s.wantRefused(i, change.refused)
		}
		close(felt[i])
		s.wantHeard(change)
	}
	talking.Wait()
	if t.Failed() {
		return
	}
	if rec.books != 1+reloads {
		t.Errorf("%d books were used, want the first and %d others", rec.books, reloads)
	}
	last, err := rulesFlag{Rules: s.folder}.load()
	if err != nil {
		t.Fatal(err)
	}
	assistant := talk.New(last)
	turns, faults := 0, map[string]int{}
	for _, m := range makers {
		turns += len(m.turns)
		for kind, n := range m.faults {
			faults[kind] += n
		}
		m.wantKept(rec.of(m.first), assistant)
	}
	s.end()
	if lines := s.log.lines(); len(lines) != len(changes) {
		t.Errorf("the log has\n%s\nwant a line for each of %d changes", strings.Join(lines, ""), len(changes))
	}
	if turns != reloadTalks*reloadTurns || faults["picked from the old book"] == 0 {
		t.Errorf("%d turns and %v: that is not the load that was meant", turns, faults)
	}
	took := time.Since(start)
	t.Logf("%d turns of %d talks, %d changes, %d of them used, faults %v, in %s", turns, reloadTalks, len(changes), reloads, faults, took.Round(time.Millisecond))
	if took > reloadTime {
		t.Errorf("took %s, and %s is the most", took, reloadTime)
	}
}

// wantKept compares what the server acknowledged with the log, with the events,
// and with a talk resumed from the events.
func (m *maker) wantKept(events []talk.Event, last *talk.Assistant) {
	t := m.s.t
	t.Helper()
	c, opened := m.s.dial(m.talk)
	defer c.ws.Close()
	defer m.ws.Close()
	if opened.Turn != len(m.turns) || len(opened.Log) != len(m.turns) || len(events) != len(m.turns) {
		t.Fatalf("%s: %d turns were acknowledged; the talk has %d, its log %d and its events %d", m.first, len(m.turns), opened.Turn, len(opened.Log), len(events))
	}
	for i, turn := range m.turns {
		want := serve.LogLine{Turn: i + 1, Said: turn.said, Say: turn.reply.Say, Title: turn.reply.Title}
		if opened.Log[i] != want || events[i].Text != turn.said {
			t.Errorf("%s: the log has %+v and the events %q, want %+v", m.first, opened.Log[i], events[i].Text, want)
		}
		if why := turn.differs(events[i]); why != "" {
			t.Errorf("%s, turn %d: %s", m.first, i+1, why)
		}
	}
	if got, want := asJSON(t, opened.Reply), asJSON(t, last.Resume(events).Reply()); got != want {
		t.Errorf("%s: the talk goes on with\n%s\nand resumed from its events with\n%s", m.first, got, want)
	}
}

// differs says how an event is not what the maker asked for, going by what the
// maker saw.
func (a acknowledged) differs(e talk.Event) string {
	if a.request.Kind == "say" && e.Text != a.request.Text {
		return fmt.Sprintf("%q was said, and %q taken", a.request.Text, e.Text)
	}
	if a.request.Kind != "pick" || a.request.N == 0 {
		return ""
	}
	option := a.seen.Question.Options[a.request.N-1]
	if e.Text != option.Label {
		return fmt.Sprintf("%q was picked, and %q taken", option.Label, e.Text)
	}
	act := e.Acts[0]
	if act.Do == "tell" && (act.Fact != a.seen.Question.Fact || act.Value != option.Value) {
		return fmt.Sprintf("%s of %s was picked, and %+v taken", option.Value, a.seen.Question.Fact, act)
	}
	if a.seen.Question.Fact == "did_it_work" && act.ID != a.seen.Remedies[0].ID {
		return fmt.Sprintf("%s was answered for %s, and %+v taken", option.Value, a.seen.Remedies[0].ID, act)
	}
	return ""
}

func asJSON(t *testing.T, r any) string {
	t.Helper()
	text, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// tinyBook is a whole book of one trouble, to be used alone.
const tinyBook = oneEmergency + `
facts:
  - {id: pressed, kind: yesno, ask: "Was the wall pressed down?", how_to_check: Push it., why: It tells., effort: touch}
problems:
  - id: dam-leaks
    title: It leaks
    meaning: Plaster runs out.
    sayings: [plaster runs out]
    fallback: {try: [Wait.], seek: Ask somebody.}
    causes:
      - {id: loose, title: It is loose, why: It was not pressed., often: usual, signs: [{when: not pressed, points: for}], sources: ["common practice, no source"],
         remedies: [{id: press, say: Press it., now: [Press it.], saves: yes, minutes: 1, works: mostly, next_time: [Press it.]}]}
      - {id: thin, title: It is thin, why: It was cut thin., often: rare, signs: [{when: pressed, points: for}], sources: ["common practice, no source"],
         remedies: [{id: thicken, say: Thicken it., now: [Thicken it.], saves: yes, minutes: 1, works: mostly, next_time: [Cut it thick.]}]}
`

// retitled is the tiny book with another title for its trouble.
var retitled = strings.Replace(tinyBook, "It leaks", "The moat is breached", 1)

// leakTitle opens a talk to see what the leak is called.
func (s *reloading) leakTitle() string {
	s.t.Helper()
	c, _ := s.dial("")
	defer c.ws.Close()
	m, err := c.ask(serve.Request{Kind: "say", Text: "plaster runs out"})
	if err != nil || m.Kind != "turn" {
		s.t.Fatalf("%v, %+v", err, m)
	}
	return m.Reply.Title
}

// tinyFolder is a folder with the tiny book, and another folder beside it.
func tinyFolder(t *testing.T) (folder, beside string) {
	t.Helper()
	folder, beside = t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, ownFile), []byte(tinyBook), 0o644); err != nil {
		t.Fatal(err)
	}
	return folder, beside
}

// What is changed while the book is being read and made ready, before anybody
// looks at the folder, is noticed too.
func TestReloadOfAnEarlyChange(t *testing.T) {
	folder, _ := tinyFolder(t)
	s := startReloading(t, rulesFlag{Rules: folder, Alone: true}, time.Now().Add(reloadTime), func() {
		if err := os.WriteFile(filepath.Join(folder, ownFile), []byte(retitled), 0o644); err != nil {
			t.Fatal(err)
		}
	})
	s.wantUsed(0)
	if got := s.leakTitle(); got != "The moat is breached" {
		t.Errorf("the leak is called %q", got)
	}
}

// A change of a file that the folder only has a link to is noticed.
func TestReloadThroughALink(t *testing.T) {
	folder, beside := tinyFolder(t)
	mine, real := filepath.Join(folder, ownFile), filepath.Join(beside, "real.yaml")
	if err := os.Rename(mine, real); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, mine); err != nil {
		t.Skip(err) // not every system lets everybody make links
	}
	s := startReloading(t, rulesFlag{Rules: folder, Alone: true}, time.Now().Add(reloadTime), nil)
	if got := s.leakTitle(); got != "It leaks" {
		t.Fatalf("the leak is called %q before the change", got)
	}
	if err := os.WriteFile(real, []byte(retitled), 0o644); err != nil {
		t.Fatal(err)
	}
	s.wantUsed(0)
	if got := s.leakTitle(); got != "The moat is breached" {
		t.Errorf("the leak is called %q", got)
	}
}

// A file that could not be read, and was then made readable, is a change.
func TestReloadOfAMode(t *testing.T) {
	folder, _ := tinyFolder(t)
	own := os.DirFS(folder)
	before := stamp(own)
	if stamp(own) != before {
		t.Error("another stamp without a change")
	}
	if err := os.Chmod(filepath.Join(folder, ownFile), 0o400); err != nil {
		t.Fatal(err)
	}
	if stamp(own) == before {
		t.Error("the same stamp with another mode")
	}
}

// A folder that is emptied of troubles is a book as well: it takes no talk
// down.
func TestReloadWithoutTroubles(t *testing.T) {
	folder, _ := tinyFolder(t)
	s := startReloading(t, rulesFlag{Rules: folder, Alone: true}, time.Now().Add(reloadTime), nil)
	c, _ := s.dial("")
	if m, err := c.ask(serve.Request{Kind: "say", Text: "plaster runs out"}); err != nil || m.Reply == nil || m.Reply.Problem != "dam-leaks" {
		t.Fatalf("%v, %+v", err, m)
	}
	s.write(ownFile, oneEmergency)
	s.wantUsed(0)
	m, err := c.ask(serve.Request{Kind: "pick", N: 1})
	if err != nil || m.Kind != "fault" || m.Reply == nil || m.Reply.Question != nil {
		t.Errorf("%v, %+v", err, m)
	}
	m, err = c.ask(serve.Request{Kind: "say", Text: "plaster runs out"})
	if err != nil || m.Kind != "turn" || m.Turn != 2 {
		t.Errorf("%v, %+v", err, m)
	}
	s.write(ownFile, tinyBook)
	s.wantUsed(1)
	m, err = c.ask(serve.Request{Kind: "say", Text: "plaster runs out"})
	if err != nil || m.Kind != "turn" || m.Turn != 3 || m.Reply.Problem != "dam-leaks" {
		t.Errorf("%v, %+v", err, m)
	}
}
