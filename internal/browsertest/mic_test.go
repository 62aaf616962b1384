package browsertest

import (
	"context"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
)

const micRate = 48000 // Hz, of the files that stand for a microphone

// micBrowser starts a browser whose microphone plays the sound once.
func micBrowser(t *testing.T, sound []float64) context.Context {
	t.Helper()
	path := chromium()
	if path == "" {
		needed(t, "chromium")
	}
	file := filepath.Join(t.TempDir(), "mic.wav")
	if err := os.WriteFile(file, wav(micRate, sound), 0o600); err != nil {
		t.Fatal(err)
	}
	return newBrowser(t, path,
		chromedp.Flag("use-fake-device-for-media-stream", true),
		chromedp.Flag("use-fake-ui-for-media-stream", true),
		chromedp.Flag("use-file-for-fake-audio-capture", file+"%noloop"),
		chromedp.Flag("autoplay-policy", "no-user-gesture-required"),
	)
}

// newBrowser starts a browser that ends with the test.
func newBrowser(t *testing.T, path string, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	life, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	allocated, cancelAllocator := chromedp.NewExecAllocator(life, append(browserOptions(path), more...)...)
	ctx, cancelBrowser := chromedp.NewContext(allocated)
	t.Cleanup(func() {
		closing, stop := context.WithTimeout(ctx, 10*time.Second)
		_ = chromedp.Cancel(closing)
		stop()
		cancelBrowser()
		cancelAllocator()
		cancel()
	})
	if err := chromedp.Do(ctx); err != nil {
		t.Fatalf("cannot start %s: %v", path, err)
	}
	return ctx
}

// spokenWords are words spoken by espeak-ng, in the middle of faint noise.
func spokenWords(t *testing.T, before, after time.Duration, words string) []float64 {
	t.Helper()
	path, err := exec.LookPath("espeak-ng")
	if err != nil {
		needed(t, "espeak-ng")
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	file, err := exec.CommandContext(ctx, path, "-v", "en-gb", "--stdout", words).Output()
	if err != nil || len(file) < 1000 {
		t.Fatalf("espeak-ng gave %d bytes: %v", len(file), err)
	}
	rate, samples := float64(binary.LittleEndian.Uint32(file[24:])), file[44:]
	n := int(float64(len(samples)/2-1) * micRate / rate)
	sound := noise(before + after + time.Duration(float64(n)/micRate*float64(time.Second)))
	from := int(before.Seconds() * micRate)
	for i := range n {
		x := float64(i) * rate / micRate
		k := int(x)
		a := float64(int16(binary.LittleEndian.Uint16(samples[2*k:])))
		b := float64(int16(binary.LittleEndian.Uint16(samples[2*k+2:])))
		sound[from+i] += 0.5 * (a + (b-a)*(x-float64(k))) / 32768
	}
	return sound
}

// noise is faint and white, always the same.
func noise(long time.Duration) []float64 {
	random := rand.New(rand.NewPCG(1, 2))
	samples := make([]float64, int(long.Seconds()*micRate))
	for i := range samples {
		samples[i] = 0.002 * (2*random.Float64() - 1)
	}
	return samples
}

// brown is noise as of running water; motor is a hum with its overtones, as of
// a drill or a mixer.
func brown(long time.Duration) []float64 {
	samples, random, y := noise(long), rand.New(rand.NewPCG(3, 4)), 0.0
	for i := range samples {
		y = 0.998*y + 0.02*(2*random.Float64()-1)
		samples[i] += y
	}
	return samples
}

func motor(long time.Duration) []float64 {
	samples := noise(long)
	for i := range samples {
		at := float64(i) / micRate
		for k := 1.0; k < 20; k++ {
			samples[i] += 0.06 * (1 + 0.2*math.Sin(20*at)) / k * math.Sin(2*math.Pi*97*k*at+k)
		}
	}
	return samples
}

// voiceNotes counts the tracks that are opened and ended, and what the screen
// is asked.
const voiceNotes = `(() => {
	window.tracks = [];
	const real = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
	navigator.mediaDevices.getUserMedia = async (wish) => {
		window.wish = wish;
		const stream = await real(wish);
		tracks.push(...stream.getTracks());
		return stream;
	};
	window.locks = [];
	Object.defineProperty(navigator, "wakeLock", {value: {request: async (kind) => {
		const lock = new EventTarget();
		lock.release = () => { locks.splice(locks.indexOf(kind), 1); lock.dispatchEvent(new Event("release")); };
		locks.push(kind);
		window.lastLock = lock;
		return lock;
	}}});
})()`

const listens = `document.getElementById("doing").textContent`

func (s *sheet) number(script string) (n float64) {
	s.t.Helper()
	s.eval(script, &n)
	return n
}

// One utterance goes out once, in frames of the right shape, and only between
// the two presses of the switch; what was heard stands large on the page.
func TestMicrophoneSendsWhatIsSaid(t *testing.T) {
	t.Parallel()
	w, _ := startVoiceServer(t)
	ctx := micBrowser(t, spokenWords(t, 3*time.Second, 30*time.Second, "plaster is running out under the wall"))
	s := openSheetIn(t, ctx, w.url(), phone, "light", standIn+";"+voiceNotes)
	asked := s.addresses(w.url())
	time.Sleep(300 * time.Millisecond)
	if n := s.number(`tracks.length + ear.frames.length + ear.sent.length`); n != 0 || s.shown("#strip") {
		t.Fatalf("before the switch is pressed %g things have happened, the strip is shown: %t", n, s.shown("#strip"))
	}
	s.do(chromedp.Click(chromedp.CSS("#mic")))
	s.until("the strip", `document.getElementById("strip").getClientRects().length > 0`)
	s.wantMic()
	s.until("the meter to move", `Number(document.getElementById("meter").style.getPropertyValue("--share")) > 0`)
	s.until("the utterance", `ear.sent.some(m => m.kind === "listen")`)
	s.until("its end", listens+` === "Thinking"`)
	s.wantFrames()
	s.eval(`ear.tell({kind: "hearing", said: "plaster is running"})`, nil)
	if got := s.text("#heard p"); got != "I hear: plaster is running" {
		t.Errorf("of the words so far the page shows %q", got)
	}
	s.next(func() { s.eval(`ear.heard("plaster is running out under the wall")`, nil) })
	s.wantHeard("plaster is running out under the wall")
	s.next(func() { s.do(chromedp.Click(chromedp.CSS("#wrong"))) })
	if said := s.texts("#lines .said"); said[len(said)-1] != "“wrong”" {
		t.Errorf("Wrong was taken as %q", said[len(said)-1])
	}
	s.do(chromedp.Click(chromedp.CSS("#mic-stop")))
	before := s.number(`ear.frames.length`)
	time.Sleep(300 * time.Millisecond)
	var title string
	s.eval(`document.title`, &title)
	if after := s.number(`ear.frames.length`); after != before || s.shown("#strip") || strings.HasPrefix(title, "●") {
		t.Errorf("after the switch: %g frames more, strip shown: %t, title %q", after-before, s.shown("#strip"), title)
	}
	if live := s.number(`tracks.filter(track => track.readyState !== "ended").length + locks.length`); live != 0 {
		t.Errorf("after the switch %g tracks or locks of the screen are still held", live)
	}
	if n := s.number(`ear.sent.filter(m => m.kind === "listen").length`); n != 1 {
		t.Errorf("one utterance was sent as %g", n)
	}
	all, outside := asked()
	if all < 2 || len(outside) > 0 {
		t.Errorf("the page asked for %d addresses, of these elsewhere %q", all, outside)
	}
}

func (s *sheet) wantMic() {
	s.t.Helper()
	s.until("the microphone", `tracks.length === 1 && locks.length === 1`)
	var title string
	s.eval(`document.title`, &title)
	if !strings.HasPrefix(title, "● Listening") {
		s.t.Errorf("the title is %q", title)
	}
	var wish map[string]map[string]any
	s.eval(`window.wish`, &wish)
	for _, name := range []string{"echoCancellation", "noiseSuppression", "autoGainControl"} {
		if wish["audio"][name] != true {
			s.t.Errorf("the microphone was asked for with %v", wish)
		}
	}
}

// wantFrames checks the frames against the wire: a flag and 640 bytes, 20 ms at
// 16 kHz; sound from before the speech, and both kinds of flag.
func (s *sheet) wantFrames() {
	s.t.Helper()
	var frames []struct {
		Ref   string
		Flag  int
		Bytes int
	}
	s.eval(`ear.frames`, &frames)
	flags := map[int]int{}
	for i, f := range frames {
		if f.Bytes != 641 || f.Flag > 1 || f.Ref == "" {
			s.t.Fatalf("frame %d is %+v, want 641 bytes and a flag", i, f)
		}
		flags[f.Flag]++
	}
	if flags[1] < 40 || flags[0] < 40 {
		s.t.Errorf("frames by flag: %v, want at least 40 of each", flags)
	}
	for i := range 8 {
		if frames[i].Flag != 0 {
			s.t.Errorf("frame %d is flagged as speech: the sound from before is missing", i)
		}
	}
}

func (s *sheet) wantHeard(words string) {
	s.t.Helper()
	if got := s.text("#heard p"); got != "I heard: "+words {
		s.t.Errorf("of what was heard the page shows %q", got)
	}
	if size := s.number(`parseFloat(getComputedStyle(document.getElementById("heard-words")).fontSize)`); size < 20 {
		s.t.Errorf("what was heard is %g pixels large", size)
	}
	if height := s.number(`document.getElementById("wrong").getBoundingClientRect().height`); height < 56 {
		s.t.Errorf("Wrong is %g pixels tall", height)
	}
}

// addresses notes every address that the page asks for from here on, and gives
// how many there were, and those that are not the server's.
func (s *sheet) addresses(origin string) func() (all int, outside []string) {
	s.t.Helper()
	var mu sync.Mutex
	var asked []string
	err := chromedp.Listen(s.ctx, func(event any) {
		mu.Lock()
		defer mu.Unlock()
		switch event := event.(type) {
		case *network.EventRequestWillBeSent:
			asked = append(asked, event.Request.URL)
		case *network.EventWebSocketCreated:
			asked = append(asked, "http"+strings.TrimPrefix(event.URL, "ws"))
		}
	})
	if err == nil {
		_, err = chromedp.Call(s.ctx, network.Enable, network.EnableParams{})
	}
	if err != nil {
		s.t.Fatal(err)
	}
	return func() (int, []string) {
		mu.Lock()
		defer mu.Unlock()
		return len(asked), slices.DeleteFunc(slices.Clone(asked), func(address string) bool {
			return strings.HasPrefix(address, origin) || strings.HasPrefix(address, "data:") || strings.HasPrefix(address, "blob:"+origin)
		})
	}
}

// Noise is not taken for speech.
func TestMicrophoneLetsNoiseBe(t *testing.T) {
	t.Parallel()
	for name, sound := range map[string][]float64{"brown noise": brown(8 * time.Second), "a motor": motor(8 * time.Second)} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			w, _ := startVoiceServer(t)
			s := openSheetIn(t, micBrowser(t, sound), w.url(), laptop, "light", standIn)
			s.do(chromedp.Click(chromedp.CSS("#mic")))
			s.until("the meter to move", `Number(document.getElementById("meter").style.getPropertyValue("--share")) > 0`)
			time.Sleep(5 * time.Second)
			if n := s.number(`ear.sent.length`); n != 0 {
				t.Errorf("%g utterances were made of it", n)
			}
			if doing := s.text("#doing"); doing != "Listening" {
				t.Errorf("the strip says %q", doing)
			}
		})
	}
}
