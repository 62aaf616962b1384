package browsertest

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io/fs"
	"math"
	"net/http"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"sparehand/web"
)

// standIn takes the place of the server's ears: it keeps what the page sends of
// an utterance, and answers when a test says what was heard. All else goes to
// the real server.
const standIn = `(() => {
	const more = {};
	window.ear = {
		voice: {ears: "stand-in", missing: "", mouth: "", mouth_missing: "The test has no voice."},
		frames: [], sent: [], ref: "", socket: null,
		tell(m) { ear.socket.give({data: JSON.stringify({v: 1, ref: ear.ref, ...m})}); },
		heard(text, reply = {}) {
			more[ear.ref] = {voice: {words: text, sure: 0.9}, ...reply};
			ear.socket.pass(JSON.stringify({v: 1, kind: "say", ref: ear.ref, text}));
		},
	};
	const Real = WebSocket;
	window.WebSocket = class extends Real {
		constructor(url) { super(url); ear.socket = this; }
		pass(data) { super.send(data); }
		send(data) {
			if (typeof data !== "string") { ear.frames.push({ref: ear.ref, flag: data[0], bytes: data.byteLength}); return; }
			const m = JSON.parse(data);
			if (!["listen", "hush", "spoken"].includes(m.kind)) { super.send(data); return; }
			ear.sent.push(m);
			if (m.kind !== "hush") ear.ref = m.ref;
			if (m.kind === "spoken") ear.heard(m.text);
		}
		get onmessage() { return super.onmessage; }
		set onmessage(f) {
			this.give = f;
			super.onmessage = f && (e => {
				const m = JSON.parse(e.data);
				if (m.kind === "opened") m.voice = ear.voice;
				if (m.reply && more[m.ref]) Object.assign(m.reply, more[m.ref]);
				f({data: JSON.stringify(m)});
			});
		}
	};
})()`

// spokenSounds counts the replies that the stand-in for the server's voice has
// spoken.
type spokenSounds struct{ n atomic.Int64 }

// startVoiceServer runs the real server with a voice before it that hums, and
// with the module of the voice detection.
func startVoiceServer(t *testing.T) (*wire, *spokenSounds) {
	t.Helper()
	spoken := &spokenSounds{}
	w := startServerBehind(t, func(real http.Handler) http.Handler {
		mux := http.NewServeMux()
		mux.Handle("/", real)
		mux.HandleFunc("POST /aloud", func(w http.ResponseWriter, r *http.Request) {
			spoken.n.Add(1)
			w.Header().Set("Content-Type", "audio/wav")
			_, _ = w.Write(wav(16000, tone(16000, 220, 3*time.Second)))
		})
		mux.HandleFunc("GET /wasm/rnnoise.wasm", func(w http.ResponseWriter, r *http.Request) {
			module, err := fs.ReadFile(web.Files, "wasm/rnnoise.wasm")
			if err != nil {
				t.Error(err)
			}
			w.Header().Set("Content-Type", "application/wasm")
			_, _ = w.Write(module)
		})
		return mux
	})
	return w, spoken
}

// tone is a sine of that many Hz at a tenth of full scale.
func tone(rate int, pitch float64, long time.Duration) []float64 {
	samples := make([]float64, int(long.Seconds()*float64(rate)))
	for i := range samples {
		samples[i] = 0.1 * math.Sin(2*math.Pi*pitch*float64(i)/float64(rate))
	}
	return samples
}

// wav is mono sound, -1 to 1, as 16-bit RIFF. Source: Multimedia Programming
// Interface and Data Specifications 1.0, 1991.
func wav(rate int, samples []float64) []byte {
	var b bytes.Buffer
	size := uint32(2 * len(samples))
	b.WriteString("RIFF")
	write := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) }
	write(36 + size)
	b.WriteString("WAVEfmt ")
	write([]uint32{16, 1 | 1<<16, uint32(rate), uint32(2 * rate), 2 | 16<<16})
	b.WriteString("data")
	write(size)
	for _, x := range samples {
		write(int16(math.Round(32767 * max(-1, min(1, x)))))
	}
	return b.Bytes()
}

// pretendMic is a microphone without a device: mic.talk(ms) makes it hear
// something that comes and goes like syllables.
const pretendMic = `(() => {
	window.mic = {tracks: [], quietFrom: 0};
	navigator.mediaDevices.getUserMedia = async () => {
		const context = new AudioContext();
		const out = context.createMediaStreamDestination();
		const voice = new OscillatorNode(context, {type: "sawtooth", frequency: 140});
		const loud = new GainNode(context, {gain: 0.001});
		voice.connect(loud).connect(out);
		voice.start();
		mic.talk = (ms) => {
			for (let at = 0; at < ms; at += 200) {
				loud.gain.setTargetAtTime(0.3, context.currentTime + at / 1000, 0.01);
				loud.gain.setTargetAtTime(0.001, context.currentTime + at / 1000 + 0.15, 0.01);
			}
			mic.quietFrom = performance.now() + ms + 500;
		};
		mic.tracks = out.stream.getTracks();
		return out.stream;
	};
})()`

// listenUp switches the microphone on and waits until it hears.
func (s *sheet) listenUp() {
	s.t.Helper()
	s.do(chromedp.Click(chromedp.CSS("#mic")))
	s.until("the meter", `document.getElementById("meter").style.getPropertyValue("--share") !== ""`)
	s.eval(`new Promise(done => setTimeout(done, 900))`, nil) // the noise has to be learnt
}

// utter speaks into the pretended microphone until the page has let it through.
func (s *sheet) utter() {
	s.t.Helper()
	before := s.number(`ear.sent.filter(m => m.kind === "listen").length`)
	s.untilQuiet()
	s.eval(`mic.talk(1400)`, nil)
	s.until("the utterance", fmt.Sprintf(`ear.sent.filter(m => m.kind === "listen").length > %g`, before))
}

// untilQuiet waits until nothing more is said into the pretended microphone.
func (s *sheet) untilQuiet() {
	s.t.Helper()
	s.eval(`new Promise(done => setTimeout(done, mic.quietFrom - performance.now()))`, nil)
}
