package browsertest

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// The gate's decisions, each from stretches of [ms, chance, dB, speaking].
// Wanted are the events and when they come, to a frame.
func TestVoiceGate(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	const quiet, talk = `[1000, 0.05, -55, 0]`, `[500, 0.95, -25, 0]`
	for _, c := range []struct{ name, stretches, want string }{
		{"quiet", quiet, ""},
		{"speech", quiet + "," + talk + ",[1500, 0.05, -55, 0]", "1060 open, 2400 close"},
		{"a cough of 40 ms", quiet + ",[40, 0.95, -25, 0]," + quiet, ""},
		{"likely but no louder than the room", quiet + ",[1000, 0.95, -50, 0]", ""},
		{"loud but no voice", quiet + ",[1000, 0.1, -25, 0]", ""},
		{"a motor that sounds like a voice", "[4000, 1, -25, 0]", ""},
		{"a motor that starts is let in once", quiet + ",[9000, 1, -25, 0]", "1060 open, 3880 close"},
		{"a pause between words", quiet + "," + talk + ",[600, 0.05, -55, 0]," + talk + ",[1500, 0.05, -55, 0]", "1060 open, 3500 close"},
		{"the level alone", "[1000, null, -55, 0],[300, null, -25, 0],[1500, null, -55, 0]", "1060 open, 2200 close"},
		{"our own voice", "[3000, 0.9, -30, 1]", ""},
		{"begun before the reply", quiet + ",[40, 0.95, -25, 0],[400, 0.95, -25, 1]", "1060 open"},
		{"our own voice in a room that rings, and a second reply", "[1500, 0.9, -30, 1],[60, 0.9, -35, 0],[1500, 0.9, -30, 1]", ""},
		{"over our own voice", "[1500, 0.9, -30, 1],[500, 0.95, -15, 1]", "1760 open"},
		{"a short sound over our own voice", "[1500, 0.9, -30, 1],[160, 0.95, -15, 1],[1500, 0.9, -30, 1]", ""},
		{"no louder than our own voice", "[1500, 0.9, -30, 1],[1000, 0.95, -27, 1]", ""},
	} {
		var got []string
		s.eval(fmt.Sprintf(`import("/js/voice-gate.js").then(({SHUT, step}) => {
			let gate = SHUT, at = 0;
			const events = [];
			for (const [ms, chance, level, speaking] of [%s]) for (let end = at + ms; at < end;) {
				gate = step(gate, {chance, level}, speaking === 1);
				at += 20;
				if (gate.event) events.push(at + " " + gate.event);
			}
			return events;
		})`, c.stretches), &got)
		if joined := strings.Join(got, ", "); joined != c.want {
			t.Errorf("%s: %q, want %q", c.name, joined, c.want)
		}
	}
}

// After an answer speech that goes on is not taken for new, and speech that
// began after a pause is.
func TestVoiceGateAfterAnAnswer(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	for _, c := range []struct {
		name, before, after string
		want                []string
	}{
		{"goes on", "[1000, .05, -55],[2000, .95, -25]", "[1000, .95, -28]", nil},
		{"goes on, then anew", "[1000, .05, -55],[2000, .95, -25]", "[500, .95, -25],[300, .05, -55],[200, .95, -25]", []string{"860"}},
		{"began after a pause", "[1000, .05, -55],[800, .95, -25],[300, .05, -55],[200, .95, -25]", "[200, .95, -25]", []string{"60"}},
		{"is over", "[1000, .05, -55],[800, .95, -25],[300, .05, -55]", "[500, .05, -55]", nil},
	} {
		var got []string
		s.eval(fmt.Sprintf(`import("/js/voice-gate.js").then(({SHUT, step, answered}) => {
			let gate = SHUT, at = 0;
			const opened = [];
			const run = (stretches) => { for (const [ms, chance, level] of stretches) for (let i = 0; i < ms; i += 20) {
				gate = step(gate, {chance, level}, false);
				at += 20;
				if (gate.event === "open") opened.push(String(at));
			} };
			run([%s]);
			gate = answered(gate);
			at = 0;
			opened.length = 0;
			run([%s]);
			return opened;
		})`, c.before, c.after), &got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: opened at %q, want %q", c.name, got, c.want)
		}
	}
}

// What is under 6.6 kHz passes, and what would come back as something else at
// 16 kHz is gone. Source: the sampling theorem, half of 16 kHz; the window's
// 74 dB from Oppenheim and Schafer, Discrete-Time Signal Processing, section 7.5.
func TestDecimator(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	for _, rate := range []int{16000, 44100, 48000, 96000} {
		for _, pitch := range []int{50, 1000, 3000, 6600, 8100, 9000, 12000, 20000} {
			if 2*pitch > rate {
				continue
			}
			var got struct {
				Samples int
				Level   float64
			}
			s.eval(fmt.Sprintf(`import("/js/decimate.js").then(({Decimator}) => {
				const rate = %d, pitch = %d, decimator = new Decimator(rate), out = [];
				for (let n = 0; n < rate; n += 128) {
					out.push(...decimator.push(Float32Array.from({length: 128}, (_, i) => Math.sin(2 * Math.PI * pitch * (n + i) / rate))));
				}
				const steady = out.slice(1000, 15000);
				return {samples: out.length, level: 10 * Math.log10(2 * steady.reduce((sum, x) => sum + x * x, 0) / steady.length + 1e-20)};
			})`, rate, pitch), &got)
			if got.Samples < 15990 || got.Samples > 16060 {
				t.Errorf("%d Hz: a second makes %d samples", rate, got.Samples)
			}
			if pitch <= 6600 && (got.Level < -0.1 || got.Level > 0.1) {
				t.Errorf("%d Hz: %d Hz comes through with %.2f dB", rate, pitch, got.Level)
			}
			if pitch > 8000 && got.Level > -70 {
				t.Errorf("%d Hz: %d Hz comes through with %.1f dB, want -70 or less", rate, pitch, got.Level)
			}
		}
	}
}
