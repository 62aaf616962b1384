package serve

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"os"
	"strings"
	"testing"

	"sparehand/internal/voice"
)

// fakeSpeaker gives the words back, but for those at which it fails.
type fakeSpeaker map[string]error

func (f fakeSpeaker) Say(_ context.Context, text string, pace voice.Pace) ([]byte, error) {
	return []byte(string(pace) + ": " + text), f[text]
}

// askAloud has something said, as the page does but for what change changes.
func (p *place) askAloud(t *testing.T, body string, change func(*http.Request)) (answer *http.Response, content string) {
	t.Helper()
	answer = p.do(t, "POST", "/aloud", func(r *http.Request) {
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("Origin", p.http.URL)
		r.Body, r.ContentLength = io.NopCloser(strings.NewReader(body)), int64(len(body))
		if change != nil {
			change(r)
		}
	})
	b, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer, string(b)
}

func TestAloud(t *testing.T) {
	header := func(name, value string) func(*http.Request) {
		return func(r *http.Request) { r.Header.Set(name, value) }
	}
	var log bytes.Buffer
	p := serving(t, func(c *Config) {
		c.Logger = slog.New(slog.NewTextHandler(&log, &slog.HandlerOptions{Level: slog.LevelDebug}))
		c.Speaker = fakeSpeaker{
			"": voice.Unsayable("there is nothing to say"), "rope, rope": voice.ErrSpeaking, "tarred rope": errors.New("espeak-ng could not say that"),
		}
	})
	for what, c := range map[string]struct {
		body   string
		change func(*http.Request)
		status int
		want   string
	}{
		"said":           {`{"text":"rope","pace":"slow"}`, nil, 200, "slow: rope"},
		"no pace":        {`{"text":"rope"}`, header("Content-Type", "Application/JSON; charset=utf-8"), 200, "plain: rope"},
		"a program":      {`{"text":"rope"}`, func(r *http.Request) { r.Header.Del("Origin") }, 200, "plain: rope"},
		"garbage":        {`{"text":"rope"`, nil, 400, "what to say can't be read"},
		"more than one":  {`{"text":"rope"}{}`, nil, 400, "what to say can't be read"},
		"another kind":   {`{"text":7}`, nil, 400, "what to say can't be read"},
		"huge":           {`{"text":"` + strings.Repeat("x", aloudBytes) + `"}`, nil, 413, "that is too much to say"},
		"a form":         {`text=rope`, header("Content-Type", "application/x-www-form-urlencoded"), 415, "what to say comes as application/json"},
		"plain text":     {`{"text":"rope"}`, header("Content-Type", "text/plain"), 415, "what to say comes as application/json"},
		"no kind":        {`{"text":"rope"}`, func(r *http.Request) { r.Header.Del("Content-Type") }, 415, "what to say comes as application/json"},
		"a foreign page": {`{"text":"rope"}`, header("Origin", "http://rope.example"), 403, "another page"},
		"no page at all": {`{"text":"rope"}`, header("Origin", "null"), 403, "another page"},
		"a foreign name": {`{"text":"rope"}`, func(r *http.Request) { r.Host = "rope.example" }, 421, "this server is not called that"},
		"refused":        {`{}`, nil, 422, "there is nothing to say"},
		"too many":       {`{"text":"rope, rope"}`, nil, 503, "too much is being said at once"},
		"a broken mouth": {`{"text":"tarred rope"}`, nil, 500, "espeak-ng could not say that"},
	} {
		got, content := p.askAloud(t, c.body, c.change)
		if got.StatusCode != c.status || !strings.HasPrefix(content, c.want) {
			t.Errorf("%s: %s, %q; want %d, %q", what, got.Status, content, c.status, c.want)
		}
		checkHeaders(t, what, got.Header)
		if said := got.StatusCode == 200; said != (got.Header.Get("Content-Type") == "audio/wav") || said != (got.Header.Get("Cache-Control") == "no-store") {
			t.Errorf("%s: headers %v", what, got.Header)
		}
	}
	if got := p.get(t, "/aloud"); got.StatusCode != 404 {
		t.Errorf("GET /aloud: %s", got.Status)
	}
	if strings.Contains(log.String(), "rope") {
		t.Errorf("the log tells what was said: %s", log.String())
	}
}

func TestAloudWithoutMouth(t *testing.T) {
	for _, missing := range []string{"", "No mouth here."} {
		t.Run(missing, func(t *testing.T) {
			p := serving(t, func(c *Config) { c.Voice.MouthMissing = missing })
			want := cmp.Or(missing, voice.NoSpeaker)
			if got, why := p.askAloud(t, `{"text":"rope"}`, nil); got.StatusCode != 503 || why != want+"\n" {
				t.Errorf("%s, %q; want 503, %q", got.Status, why, want)
			}
		})
	}
}

// The sound of the machine's own program comes whole: its header tells its
// length (as in the tests of voice, by which SoX reads it).
func TestAloudInEarnest(t *testing.T) {
	speaker := voice.NewSpeaker()
	switch {
	case speaker == nil && os.Getenv("SPAREHAND_TEST_ALL") == "1":
		t.Fatal("neither espeak-ng nor flite is installed and SPAREHAND_TEST_ALL=1")
	case speaker == nil:
		t.Skip("neither espeak-ng nor flite is installed: no sound is made")
	}
	p := serving(t, func(c *Config) { c.Speaker = speaker })
	got, wav := p.askAloud(t, `{"text":"Dam the leak with clay. Then pour again.","pace":"quick"}`, nil)
	if got.StatusCode != 200 || len(wav) < 10_000 || wav[:4] != "RIFF" || wav[8:12] != "WAVE" || int64(len(wav)) != got.ContentLength {
		t.Fatalf("%s, %d bytes of %d", got.Status, len(wav), got.ContentLength)
	}
	if told := int(wav[4]) | int(wav[5])<<8 | int(wav[6])<<16 | int(wav[7])<<24; told != len(wav)-8 {
		t.Errorf("the header tells of %d bytes, and %d are there", told+8, len(wav))
	}
	if got, why := p.askAloud(t, `{"text":"rope","pace":"hasty"}`, nil); got.StatusCode != 422 || !strings.Contains(why, "hasty") {
		t.Errorf("an unknown pace: %s, %q", got.Status, why)
	}
}
