package voicetrial

import (
	"math"
	"math/rand/v2"

	"sparehand/internal/voice"
)

// Noise is a sound that nobody says, made by a formula: no recordings are
// among what the distributions carry.
type Noise struct {
	Name string
	make func(n int, r *rand.Rand) []float64
}

// Noises of a workshop.
var Noises = []Noise{
	{"cough", cough}, {"knock", knocks}, {"motor", motor}, {"running water", water},
	{"clatter", clatter}, {"scrape", scrape}, {"tap drip", drips}, {"hum", hum},
}

// Sound gives some seconds of it, as loud as speech.
func (n Noise) Sound(seconds float64, r *rand.Rand) []int16 {
	x := n.make(int(seconds*voice.Rate), r)
	out := make([]int16, len(x))
	for i, s := range x {
		out[i] = clip(s * 8000)
	}
	if loud := Level(out); loud > 0 {
		for i, s := range x {
			out[i] = clip(s * 8000 * speechLevel / loud)
		}
	}
	return out
}

func at(seconds float64) int { return int(seconds * voice.Rate) }

// band passes noise through a resonance at a frequency with a width, in Hz.
type band struct{ a, b, g, y1, y2 float64 }

func newBand(freq, width float64) *band {
	r := math.Exp(-math.Pi * width / voice.Rate)
	return &band{a: 2 * r * math.Cos(2*math.Pi*freq/voice.Rate), b: -r * r, g: 1 - r}
}

func (f *band) pass(x float64) float64 {
	y := f.g*x + f.a*f.y1 + f.b*f.y2
	f.y1, f.y2 = y, f.y1
	return y
}

// cough: one to three bursts of breath, each with a sharp start, through the
// resonances of an open mouth.
func cough(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	low, high := newBand(500+200*r.Float64(), 200), newBand(1500+400*r.Float64(), 400)
	burst := 0
	for i := range out {
		if i == burst {
			burst += at(0.35 + 0.3*r.Float64())
		}
		since := float64(burst-i) / at64(0.4)
		env := math.Exp(-6 * (1 - since))
		x := r.NormFloat64()
		out[i] = env * (low.pass(x) + high.pass(x) + 0.1*x)
	}
	return out
}

func at64(seconds float64) float64 { return seconds * voice.Rate }

// knocks: short thuds on wood.
func knocks(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	for from := at(0.05); from < n; from += at(0.15 + 0.4*r.Float64()) {
		f, loud := 120+300*r.Float64(), 0.5+r.Float64()
		for i := 0; i < at(0.15) && from+i < n; i++ {
			t := float64(i) / voice.Rate
			out[from+i] += loud * (math.Exp(-t*45)*math.Sin(2*math.Pi*f*t) + 0.5*math.Exp(-t*300)*r.NormFloat64())
		}
	}
	return out
}

// motor: a drill or a mixer, harmonics of a speed that wavers.
func motor(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	f, phase := 80+120*r.Float64(), 0.0
	for i := range out {
		phase += f * (1 + 0.03*math.Sin(2*math.Pi*2*float64(i)/voice.Rate)) / voice.Rate
		for h := 1.0; h <= 12; h++ {
			out[i] += math.Sin(2*math.Pi*h*phase) / h
		}
		out[i] += 0.3 * r.NormFloat64()
	}
	return out
}

// water running from a tap: hiss, with gurgles.
func water(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	gurgle := newBand(400, 150)
	for i := range out {
		x := r.NormFloat64()
		if i%400 == 0 {
			*gurgle = band{a: newBand(300+700*r.Float64(), 150).a, b: gurgle.b, g: gurgle.g, y1: gurgle.y1, y2: gurgle.y2}
		}
		out[i] = 0.5*x + 2*gurgle.pass(x)
	}
	return out
}

// clatter of tools and bowls: rings of several pitches.
func clatter(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	for from := 0; from < n; from += at(0.05 + 0.3*r.Float64()) {
		loud := r.Float64()
		for range 3 {
			f, dies := 800+4000*r.Float64(), 15+40*r.Float64()
			for i := 0; i < at(0.25) && from+i < n; i++ {
				t := float64(i) / voice.Rate
				out[from+i] += loud * math.Exp(-t*dies) * math.Sin(2*math.Pi*f*t)
			}
		}
	}
	return out
}

// scrape of a tool over plaster: rough noise that swells and falls.
func scrape(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	rough := newBand(2200, 1500)
	for i := range out {
		swell := math.Abs(math.Sin(2 * math.Pi * 1.3 * float64(i) / voice.Rate))
		out[i] = swell * rough.pass(r.NormFloat64())
	}
	return out
}

// drips into a bowl: short rising tones.
func drips(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	for from := at(0.1); from < n; from += at(0.4 + 0.5*r.Float64()) {
		f := 500 + 800*r.Float64()
		for i := 0; i < at(0.08) && from+i < n; i++ {
			t := float64(i) / voice.Rate
			out[from+i] += math.Exp(-t*40) * math.Sin(2*math.Pi*(f+4000*t)*t)
		}
	}
	for i := range out {
		out[i] += 0.01 * r.NormFloat64()
	}
	return out
}

// hum of an oven or a fridge: the mains and its harmonics.
func hum(n int, r *rand.Rand) []float64 {
	out := make([]float64, n)
	for i := range out {
		t := float64(i) / voice.Rate
		out[i] = math.Sin(2*math.Pi*100*t) + 0.5*math.Sin(2*math.Pi*200*t) + 0.3*math.Sin(2*math.Pi*300*t) + 0.05*r.NormFloat64()
	}
	return out
}
