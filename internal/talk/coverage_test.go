package talk

import (
	"slices"
	"testing"
	"testing/fstest"

	"sparehand/internal/book"
)

const coverageBook = `stage: mould
facts:
  - {id: pressed, kind: yesno, ask: 'Pressed?', how_to_check: Look., why: It tells., effort: look}
  - {id: over, kind: yesno, ask: 'Over?', how_to_check: Look., why: It tells., effort: test}
  - {id: faint, kind: yesno, ask: 'Faint?', how_to_check: Look., why: It tells., effort: test}
  - {id: unused, kind: yesno, ask: 'Unused?', how_to_check: Look., why: It tells., effort: look}
problems:
  - id: leak
    title: It leaks
    meaning: Plaster runs out.
    sayings: [the wall leaks, plaster runs out of it]
    fallback: {try: [Wait.], seek: Ask.}
    causes:
      - {id: loose, title: Loose, why: Moved., often: usual, sources: [from memory],
         signs: [{when: not pressed, points: rules in}, {when: not over, points: for}, {when: faint, points: slightly for}],
         remedies: [{id: press, say: Press it., now: [Press.], next_time: [Press.], saves: "yes", minutes: 1, works: mostly}]}
      - {id: low, title: Low, why: Cut low., often: rare, sources: [from memory],
         signs: [{when: pressed, points: rules in}, {when: over, points: for}],
         remedies: [{id: raise, say: Raise it., now: [Raise.], next_time: [Raise.], saves: "yes", minutes: 1, works: mostly}]}
cases:
  - {name: loose, say: [the wall leaks], answers: {pressed: "no"}, expect: {cause: loose}}
  - {name: not sure, say: [the wall leaks], answers: {pressed: not sure}, expect: {}}
`

// TestNeverAsked: a fact that the signs weigh is listed where no case and no
// simulated maker is asked for it; a fact that no sign weighs never is.
func TestNeverAsked(t *testing.T) {
	b, err := book.Load(fstest.MapFS{"a.yaml": {Data: []byte(coverageBook)}})
	if err != nil {
		t.Fatal(err)
	}
	cover := NewCoverage(b)
	want := []string{"a.yaml:5:5: nobody is ever asked faint, which leak weighs"}
	if got := cover.NeverAsked(func(string) bool { return true }); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := NewCoverage(b).NeverAsked(func(p string) bool { return p != "leak" }); got != nil {
		t.Errorf("of other problems: %q", got)
	}
}
