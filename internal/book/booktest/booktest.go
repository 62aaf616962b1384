// Package booktest makes books of any size for measuring: the facts and
// conditions of logictest, as YAML with causes, remedies and sayings.
package booktest

import (
	"fmt"
	"strings"
	"testing/fstest"

	"sparehand/internal/logic"
	"sparehand/internal/logic/logictest"
)

// Causes of a problem, and signs of a cause, in a made-up book.
const (
	causesEach = 10
	signsEach  = 10
)

var points = []string{"rules in", "strongly for", "for", "slightly for", "against", "strongly against"}

// Files makes a book with so many rules (signs), a hundred to a problem. The
// same number and start give the same book.
func Files(rules int, start uint64) fstest.MapFS {
	facts, conditions := decidable(rules, start)
	files := fstest.MapFS{"facts.yaml": {Data: []byte(factsYAML(facts))}}
	for n := 0; len(conditions) > 0; n++ {
		take := min(len(conditions), causesEach*signsEach)
		files[fmt.Sprintf("problem-%d.yaml", n)] = &fstest.MapFile{Data: []byte(problemYAML(n, conditions[:take]))}
		conditions = conditions[take:]
	}
	return files
}

// decidable leaves out the random conditions that no answers could make true:
// a book refuses them.
func decidable(n int, start uint64) (facts []logic.Fact, conditions []string) {
	facts, all := logictest.Workload(n+n/20+10, start)
	builder, err := logic.NewBuilder(facts, nil)
	if err != nil {
		panic(err) // the workload is ours
	}
	for i, text := range all {
		if i%2 == 0 {
			all[i] = firstPart(text)
		}
		builder.Add(all[i])
	}
	base := builder.Build()
	for i, text := range all {
		if base.Constant(logic.Cond(i)) == logic.Unknown && len(conditions) < n {
			conditions = append(conditions, text)
		}
	}
	return facts, conditions
}

// firstPart cuts a condition to its first part, which speaks of one fact
// mostly: a sign that has to wait for four answers moves no belief.
func firstPart(text string) string {
	part, _, _ := strings.Cut(text, " and ")
	if strings.Count(part, "(") != strings.Count(part, ")") {
		return text
	}
	return part
}

func factsYAML(facts []logic.Fact) string {
	var b strings.Builder
	b.WriteString("stage: bench\nfacts:\n")
	for _, f := range facts {
		fmt.Fprintf(&b, "  - id: %s\n    ask: What is %s like?\n    how_to_check: Look at it.\n    why: It tells causes apart.\n    effort: look\n", f.Name, f.Name)
		switch f.Kind {
		case logic.Choice:
			b.WriteString("    kind: choice\n    options:\n")
			for i, o := range f.Options {
				fmt.Fprintf(&b, "      - {value: %s, label: %s answer %d, says: [%s is like %d]}\n", o, f.Name, i, f.Name, i)
			}
		case logic.Number:
			b.WriteString("    kind: number\n    unit: mm\n    from: 0\n    to: 100\n")
		default:
			b.WriteString("    kind: yesno\n")
		}
	}
	return b.String()
}

func problemYAML(n int, conditions []string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "stage: cast\nproblems:\n  - id: trouble-%d\n    title: Trouble %d\n    meaning: Thing %d went wrong.\n", n, n, n)
	fmt.Fprintf(&b, "    sayings: [thing %d went wrong, number %d is broken, it is trouble %d again]\n", n, n, n)
	b.WriteString("    fallback: {try: [Wait.], seek: Ask somebody.}\n    causes:\n")
	for c := 0; len(conditions) > 0; c++ {
		take := min(len(conditions), signsEach)
		fmt.Fprintf(&b, "      - id: cause-%d-%d\n        title: Cause %d of %d\n        why: It happens.\n        often: common\n        sources: [made up]\n", n, c, c, n)
		b.WriteString("        signs:\n")
		for i, cond := range conditions[:take] {
			fmt.Fprintf(&b, "          - when: %s\n            points: %s\n", cond, points[(c+i)%len(points)])
		}
		fmt.Fprintf(&b, "        remedies:\n          - {id: remedy-%d-%d, say: Do it., now: [Do it.], saves: yes, minutes: %d, works: mostly, next_time: [Take care.]}\n", n, c, 5+c)
		conditions = conditions[take:]
	}
	return b.String()
}
