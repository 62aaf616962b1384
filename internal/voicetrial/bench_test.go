package voicetrial

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
	"time"

	"sparehand/internal/serve"
	"sparehand/internal/voice"
)

// BenchmarkSpokenReply measures from the last frame of speech to the reply on
// the wire, the silence that ends the utterance included: the sound is sent as
// fast as it would be spoken. It prints the median in milliseconds.
func BenchmarkSpokenReply(b *testing.B) {
	for _, talkers := range []int{1, 4} {
		b.Run(fmt.Sprint("talkers=", talkers), func(b *testing.B) {
			var mu sync.Mutex
			var waits []float64
			for range b.N {
				var all sync.WaitGroup
				for i := range talkers {
					c := call(b, Scored[1])
					c.says("plaster is leaking out under the wall")
					c.says("yes")
					all.Go(func() {
						wait := c.slowly("at a join or corner", i)
						mu.Lock()
						waits = append(waits, float64(wait.Milliseconds()))
						mu.Unlock()
					})
				}
				all.Wait()
			}
			slices.Sort(waits)
			b.ReportMetric(waits[len(waits)/2], "median-ms")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// slowly speaks as people do, and gives the time from the end of speech to the
// reply.
func (c *caller) slowly(text string, nth int) time.Duration {
	pcm := InRoom(say(c.t, c.voice, text), math.Inf(1), edge, voice.Rate, rand.New(rand.NewPCG(2, uint64(nth))))
	c.send(serve.Request{Kind: "listen", Ref: "slowly"})
	const frame = voice.Rate / 50
	replied := make(chan time.Time, 1)
	go func() {
		c.read("turn", "unheard")
		replied <- time.Now()
	}()
	tick := time.NewTicker(20 * time.Millisecond)
	defer tick.Stop()
	var ended time.Time
	for at := 0; at < len(pcm); at += frame {
		<-tick.C
		speech := at < len(pcm)-voice.Rate
		if !speech && ended.IsZero() {
			ended = time.Now()
		}
		c.sound(pcm[at:min(at+frame, len(pcm))], speech)
		select {
		case t := <-replied:
			return t.Sub(ended)
		default:
		}
	}
	return (<-replied).Sub(ended)
}
