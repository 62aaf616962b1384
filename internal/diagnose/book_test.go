package diagnose

import "testing/fstest"

// testBook is small enough to work out by hand.
var testBook = fstest.MapFS{"book.yaml": {Data: []byte(`
stage: mould
facts:
  - {id: place, kind: choice, ask: Where is it, how_to_check: Look., why: It tells., effort: look,
     options: [{value: under, label: under it}, {value: over, label: over it}]}
problems:
  - id: leak
    title: It leaks
    meaning: Plaster runs out.
    sayings: [it leaks]
    fallback: {try: [Wait.], seek: Ask somebody.}
    causes:
      - id: loose
        title: The wall is loose
        why: It was not pressed.
        often: usual
        signs: [{when: place == "under", points: strongly for}]
        remedies: [{id: press, say: Press it., now: [Press it.], saves: yes, minutes: 1, works: mostly, next_time: [Press it.]}]
        sources: ["common practice, no source"]
      - id: low
        title: The wall is low
        why: It was cut low.
        often: rare
        signs: [{when: place == "over", points: for}]
        remedies: [{id: raise, say: Raise it., now: [Raise it.], saves: partly, minutes: 5, works: often, next_time: [Higher.]}]
        sources: ["common practice, no source"]
`)}}
