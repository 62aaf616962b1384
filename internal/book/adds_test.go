package book_test

import (
	"testing"
	"testing/fstest"

	"sparehand/internal/book"
	"sparehand/rules"
)

// A maker's own cause and sayings stand beside those of the book.
func TestAdds(t *testing.T) {
	own := fstest.MapFS{"mine.yaml": {Data: []byte(`
stage: mould
adds:
  - to: dam-leaks
    sayings: [the moat has sprung a leak]
    causes:
      - id: cat-walked-through
        title: The cat walked through it
        why: Paws go where they like.
        often: rare
        signs: [{when: leak_place == "several", points: rules in}]
        remedies:
          - {id: shut-the-door, say: Shut the door., now: [Shut the door.], next_time: [Shut it first.], saves: partly, minutes: 2, works: mostly,
             also_helps: [{cause: wall-not-seated, works: seldom}]}
        sources: ["common practice, no source"]
`)}}
	plain, err := book.Load(rules.Files)
	if err != nil {
		t.Fatal(err)
	}
	b, err := book.Load(book.Over(own, rules.Files))
	if err != nil {
		t.Fatal(err)
	}
	was, is := plain.ProblemByID("dam-leaks"), b.ProblemByID("dam-leaks")
	if len(is.Sayings) != len(was.Sayings)+1 || len(is.Causes) != len(was.Causes)+1 {
		t.Fatalf("%d sayings and %d causes, before %d and %d", len(is.Sayings), len(is.Causes), len(was.Sayings), len(was.Causes))
	}
	last := is.Causes[len(is.Causes)-1]
	if last.ID != "cat-walked-through" || last.Index != len(is.Causes)-1 || len(last.Remedies[0].AlsoHelps) != 1 {
		t.Errorf("the cause is %+v", last)
	}
	own["mine.yaml"] = &fstest.MapFile{Data: []byte("stage: mould\nadds: [{to: dam-leeks, sayings: [it leaks]}]\n")}
	if _, err := book.Load(book.Over(own, rules.Files)); err == nil {
		t.Error("an addition to a problem that is not there is taken")
	}
}
