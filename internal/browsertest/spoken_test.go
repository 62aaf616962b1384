package browsertest

import (
	"context"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"sparehand/internal/serve"
	"sparehand/internal/talk"
	"sparehand/internal/voice"
	"sparehand/internal/voice/sphinx"
	"sparehand/internal/voicetrial"
	"sparehand/internal/voicetrial/maker"
)

// talker speaks to the page, and reads what the server answers. What it says is
// in the file that the browser plays each time the microphone is opened, so the
// microphone is switched off and on between two utterances, by a pedal's key.
type talker struct {
	*sheet
	voice   voicetrial.Voice
	file    string
	answers chan serve.Message
	reply   talk.Reply
	said    int
	asked   func() (all int, outside []string)
}

var servedAt = regexp.MustCompile(`sparehand is at (http://127\.0\.0\.1:\d+/)`)

// startTalker opens the page of the program itself, with real ears.
func startTalker(t *testing.T, v voicetrial.Voice) *talker {
	t.Helper()
	if !v.Installed() {
		needed(t, v.Package)
	}
	if _, err := sphinx.Find(); err != nil {
		needed(t, "libpocketsphinx3 and pocketsphinx-en-us")
	}
	path := chromium()
	if path == "" {
		needed(t, "chromium")
	}
	url := ""
	lines, log := startProgram(t, "serve", "--address", "127.0.0.1:0", "--store", "none")
	for url == "" && lines.Scan() {
		if found := servedAt.FindStringSubmatch(lines.Text()); found != nil {
			url = found[1]
		}
	}
	if url == "" {
		t.Fatalf("it did not say where it is\n%s", log)
	}
	k := &talker{voice: v, file: filepath.Join(t.TempDir(), "mic.wav"), answers: make(chan serve.Message, 100)}
	ctx := newBrowser(t, path,
		chromedp.Flag("use-fake-device-for-media-stream", true),
		chromedp.Flag("use-fake-ui-for-media-stream", true),
		chromedp.Flag("use-file-for-fake-audio-capture", k.file+"%noloop"),
	)
	k.sheet = openSheetIn(t, ctx, url, phone, "light", "")
	k.asked = k.addresses(strings.TrimSuffix(url, "/"))
	if err := chromedp.Listen(k.ctx, k.take); err != nil {
		t.Fatal(err)
	}
	k.do(chromedp.Reload()) // so that the socket is opened while it is listened to
	k.answer("opened")
	k.until("the opening words", `document.body.dataset.turn === "0"`)
	return k
}

func (k *talker) take(event any) {
	frame, ok := event.(*network.EventWebSocketFrameReceived)
	if !ok {
		return
	}
	var m serve.Message
	if json.Unmarshal([]byte(frame.Response.PayloadData), &m) == nil {
		select {
		case k.answers <- m:
		default:
		}
	}
}

// answer waits for a message of one of the kinds.
func (k *talker) answer(kinds ...string) serve.Message {
	k.t.Helper()
	late := time.After(patience)
	for {
		select {
		case m := <-k.answers:
			if m.Kind == "fault" {
				k.t.Fatalf("fault: %s", m.Fault)
			}
			if m.Reply != nil {
				k.reply = *m.Reply
			}
			if slices.Contains(kinds, m.Kind) {
				return m
			}
		case <-late:
			k.t.Fatalf("the server sends no %s\n%s", strings.Join(kinds, " or "), k.state())
		}
	}
}

// says speaks into the microphone and gives what came of it.
func (k *talker) says(text string) serve.Message {
	k.t.Helper()
	k.said++
	ctx, cancel := context.WithTimeout(k.t.Context(), patience)
	defer cancel()
	pcm, err := k.voice.Say(ctx, text)
	if err != nil {
		k.t.Fatal(err)
	}
	pcm = voicetrial.InRoom(pcm, math.Inf(1), voice.Rate, 4*voice.Rate, rand.New(rand.NewPCG(1, uint64(k.said))))
	sound := make([]float64, len(pcm))
	for i, v := range pcm {
		sound[i] = float64(v) / (1 << 15)
	}
	if err := os.WriteFile(k.file, wav(voice.Rate, sound), 0o600); err != nil {
		k.t.Fatal(err)
	}
	if k.shown("#strip") {
		k.keys(kb.F8)
		k.until("the microphone to be off", `document.getElementById("strip").hidden`)
	}
	for len(k.answers) > 0 { // such as a timer's
		<-k.answers
	}
	k.keys(kb.F8)
	m := k.answer("turn", "unheard")
	k.t.Logf("%s: %q was heard as %q: %s", k.voice.Name, text, m.Said, k.reply.Say)
	return m
}

// stays ends a talk: nothing was asked for elsewhere.
func (k *talker) stays() {
	k.t.Helper()
	if all, outside := k.asked(); all < 10 || len(outside) > 0 {
		k.t.Errorf("the page asked for %d addresses, of these elsewhere %q", all, outside)
	}
}

// A whole diagnosis, spoken only, through the browser's microphone: from the
// first sentence to what to do, by a voice of each program.
func TestLeakBySpeechAlone(t *testing.T) {
	for _, v := range []voicetrial.Voice{voicetrial.Scored[0], voicetrial.Scored[1], voicetrial.Scored[2]} {
		t.Run(v.Name, func(t *testing.T) {
			k, m := startTalker(t, v), maker.Leaking{}
			for k.said < 40 && len(k.reply.Remedies) == 0 {
				k.says(m.Says(k.reply))
			}
			if k.reply.Problem != "dam-leaks" || len(k.reply.Remedies) == 0 {
				t.Fatalf("after %d utterances it is at %q, with %d remedies: %s", k.said, k.reply.Problem, len(k.reply.Remedies), k.reply.Say)
			}
			if got := k.text(".job"); got != "Plaster leaks from the wall" {
				t.Errorf("the sheet is headed %q", got)
			}
			t.Logf("%d utterances", k.said)
			k.stays()
		})
	}
}

// A timer is set by speech, and rings; a step of a build is said again.
func TestTimerAndStepBySpeech(t *testing.T) {
	k := startTalker(t, voicetrial.Scored[1])
	k.says("set a timer for six seconds")
	if q := k.reply.Question; q != nil && q.Fact == "meaning" {
		k.says("yes")
	}
	if len(k.reply.Timers) != 1 {
		t.Fatalf("timers are %+v: %s", k.reply.Timers, k.reply.Say)
	}
	k.until("the ring", `!document.getElementById("ring").hidden && document.getElementById("urgent").textContent !== ""`)
	k.says("guide me")
	for n := 0; n < 6 && k.reply.Phase != "building" && k.reply.Question != nil; n++ {
		k.says("not sure")
	}
	before := k.reply
	k.says("repeat that")
	if before.Build == nil || k.reply.Build == nil || k.reply.Build.Step != before.Build.Step || k.reply.Say == "" {
		t.Errorf("asked to say %q again it says %q", before.Say, k.reply.Say)
	}
	k.stays()
}
