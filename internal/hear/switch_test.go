package hear

import "testing"

// Whatever answers a question of the open trouble, asked or not, says nothing
// of another trouble: none of the book's own answers changes the subject.
func TestAnswersDoNotChangeTheSubject(t *testing.T) {
	b := realBook(t)
	h := New(b)
	said, switched := 0, 0
	for _, p := range b.Problems {
		for id := range h.factsOf[p.ID] {
			f := &b.Facts[id]
			for _, o := range f.Options {
				for _, words := range o.Says {
					said++
					if m := h.Hear(Context{Problem: p}, words); m.Problem != "" && m.Problem != p.ID {
						switched++
						t.Logf("%s: %q (%s=%s) opens %s", p.ID, words, f.Name, o.Value, m.Problem)
					}
				}
			}
		}
	}
	t.Logf("%d of %d answers change the subject", switched, said)
	if switched > 0 {
		t.Errorf("%d of %d answers change the subject", switched, said)
	}
}
