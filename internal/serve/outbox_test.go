package serve

import (
	"testing"

	"pgregory.net/rapid"
)

func newFrame(t rapid.TB, turn int) *frame {
	f, err := encode(Message{Kind: "turn", Turn: turn})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// An outbox against a plain model: what is taken out is what was put in, in
// order, until it ends; there is never more than one sender; and every frame
// is let go of exactly once.
func TestOutbox(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		const limit = 3
		var o outbox
		var all, queue []*frame
		var end *reason
		sending, over := false, false
		claim := func(got bool, put bool) {
			if want := put && !sending; got != want {
				r.Fatalf("caller becomes the sender: %v, want %v", got, want)
			}
			sending = sending || put
		}
		r.Repeat(map[string]func(*rapid.T){
			"push": func(r *rapid.T) {
				f := newFrame(r, len(all))
				all = append(all, f)
				open := end == nil && !over
				fits := len(queue) < limit
				if !fits && !sending {
					r.Skip("a full queue has a sender")
				}
				got := o.push(f, limit)
				f.release()
				switch {
				case open && fits:
					queue = append(queue, f)
				case open:
					end, queue = &tooSlow, nil
				}
				claim(got, open && fits)
			},
			"close": func(r *rapid.T) {
				why := rapid.SampledFrom([]*reason{&goingDown, &goneQuiet}).Draw(r, "why")
				open := end == nil && !over
				got := o.close(why)
				if open {
					end = why
					if why.drop {
						queue = nil
					}
				}
				claim(got, open)
			},
			"next": func(r *rapid.T) {
				if !sending || over {
					r.Skip("nobody sends")
				}
				f, why := o.next()
				switch {
				case len(queue) > 0:
					if f != queue[0] || why != nil {
						r.Fatal("the wrong frame")
					}
					queue = queue[1:]
					f.release()
				case end != nil:
					if f != nil || why != end {
						r.Fatalf("ended with %v, want %v", why, end)
					}
					over = true
				case f != nil || why != nil:
					r.Fatal("something from nothing")
				default:
					sending = false
				}
			},
			"fail": func(r *rapid.T) {
				if !sending {
					r.Skip("nobody sends")
				}
				o.fail()
				over, queue = true, nil
			},
			"": func(r *rapid.T) {
				if o.ending() != (end != nil || over) {
					r.Fatalf("ending is %v", o.ending())
				}
			},
		})
		o.fail()
		for _, f := range all {
			if n := f.holders.Load(); n != 0 {
				r.Fatalf("a frame has %d holders at the end", n)
			}
		}
	})
}
