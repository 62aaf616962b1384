package voicetrial

import (
	"math"
	"math/rand/v2"
)

// resample changes the rate by windowed-sinc interpolation (Hann, 32 zero
// crossings either side), low-passed at the lower rate.
func resample(pcm []int16, from, to int) []int16 {
	if from == to || len(pcm) == 0 {
		return pcm
	}
	ratio := float64(from) / float64(to)
	cut := min(1, 1/ratio) * 0.95
	const crossings = 32
	half := crossings / cut
	out := make([]int16, int(float64(len(pcm))/ratio))
	for i := range out {
		at := float64(i) * ratio
		sum := 0.0
		for j := max(0, int(math.Ceil(at-half))); j <= min(len(pcm)-1, int(at+half)); j++ {
			x := at - float64(j)
			sum += float64(pcm[j]) * cut * sinc(cut*x) * (0.5 + 0.5*math.Cos(math.Pi*x/half))
		}
		out[i] = clip(sum)
	}
	return out
}

func sinc(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Sin(math.Pi*x) / (math.Pi * x)
}

func clip(x float64) int16 {
	return int16(math.Round(max(math.MinInt16, min(math.MaxInt16, x))))
}

// Level is the root mean square of the frames (20 ms) that are louder than a
// tenth of the loudest: how loud the speech is, its pauses left out.
func Level(pcm []int16) float64 {
	const frame = 320
	var powers []float64
	loudest := 0.0
	for i := 0; i+frame <= len(pcm); i += frame {
		p := 0.0
		for _, s := range pcm[i : i+frame] {
			p += float64(s) * float64(s)
		}
		powers = append(powers, p/frame)
		loudest = max(loudest, p/frame)
	}
	sum, n := 0.0, 0
	for _, p := range powers {
		if p > loudest/100 {
			sum, n = sum+p, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(sum / float64(n))
}

// Pink gives noise whose power falls with frequency (1/f), by the sum of
// octave-spaced random steps that Voss and McCartney use; its root mean square
// is 1.
func Pink(n int, r *rand.Rand) []float64 {
	const octaves = 14
	var steps [octaves]float64
	for i := range steps {
		steps[i] = r.NormFloat64()
	}
	out := make([]float64, n)
	power := 0.0
	for i := range out {
		for o := range octaves {
			if i&(1<<o-1) == 0 {
				steps[o] = r.NormFloat64()
			}
			out[i] += steps[o]
		}
		out[i] += r.NormFloat64()
		power += out[i] * out[i]
	}
	scale(out, 1/math.Sqrt(power/float64(n)))
	return out
}

func scale(x []float64, by float64) {
	for i := range x {
		x[i] *= by
	}
}

// speechLevel is what all speech is brought to, of 32768.
const speechLevel = 3000

// roomLevel is the hiss of a quiet room and its microphone, 50 dB under the
// speech: sound before and after speech is never digital silence.
const roomLevel = speechLevel / 316.0

// InRoom puts speech into a room: as loud as all speech here, some sound
// before and after it, and noise that lies snr decibels under the speech; a
// quiet room where snr is infinite.
func InRoom(pcm []int16, snr float64, before, after int, r *rand.Rand) []int16 {
	loud := Level(pcm)
	if loud == 0 {
		loud = 1
	}
	n := before + len(pcm) + after
	noise, hiss := Pink(n, r), Pink(n, r)
	out := make([]int16, n)
	for i := range out {
		x := roomLevel * hiss[i]
		if !math.IsInf(snr, 1) {
			x += noise[i] * speechLevel / math.Pow(10, snr/20)
		}
		if j := i - before; j >= 0 && j < len(pcm) {
			x += float64(pcm[j]) * speechLevel / loud
		}
		out[i] = clip(x)
	}
	return out
}
