package logic_test

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparehand/internal/logic"
	"sparehand/internal/logic/logictest"
)

// clause is a random condition that can be written in our syntax and in CLIPS'.
type clause struct {
	op   string // and, or, not; else a comparison of fact with option or number
	kids []clause
	fact int
	word string // option, or the number as written
}

func randomClause(r *rand.Rand, facts []logic.Fact, depth int) clause {
	switch p := r.IntN(10); {
	case depth == 0 || p < 2:
		return randomComparison(r, facts)
	case p < 4:
		return clause{op: "not", kids: []clause{randomClause(r, facts, depth-1)}}
	case p < 7:
		return clause{op: "or", kids: []clause{randomClause(r, facts, depth-1), randomClause(r, facts, depth-1)}}
	}
	return clause{op: "and", kids: []clause{randomClause(r, facts, depth-1), randomClause(r, facts, depth-1)}}
}

func randomComparison(r *rand.Rand, facts []logic.Fact) clause {
	i := r.IntN(len(facts))
	f := facts[i]
	switch f.Kind {
	case logic.Choice:
		return clause{op: [...]string{"==", "!="}[r.IntN(2)], fact: i, word: f.Options[r.IntN(len(f.Options))]}
	case logic.Number:
		return clause{op: [...]string{"<", "<=", ">", ">=", "==", "!="}[r.IntN(6)], fact: i, word: fmt.Sprint(5 * r.IntN(20))}
	}
	return clause{op: "yes", fact: i, word: "yes"}
}

// ours writes the clause as a condition of this package.
func (c clause) ours(facts []logic.Fact) string {
	name := facts[c.fact].Name
	switch c.op {
	case "and", "or":
		return "(" + c.kids[0].ours(facts) + " " + c.op + " " + c.kids[1].ours(facts) + ")"
	case "not":
		return "not (" + c.kids[0].ours(facts) + ")"
	case "yes":
		return name
	}
	if facts[c.fact].Kind == logic.Choice {
		return fmt.Sprintf("%s %s %q", name, c.op, c.word)
	}
	return fmt.Sprintf("%s %s %s", name, c.op, c.word)
}

// clipsSign gives CLIPS' functions for our signs, and for their opposites.
var (
	clipsSign  = map[string]string{"<": "<", "<=": "<=", ">": ">", ">=": ">=", "==": "=", "!=": "<>"}
	clipsOther = map[string]string{"<": ">=", "<=": ">", ">": "<=", ">=": "<", "==": "<>", "!=": "="}
)

// test writes the clause as one CLIPS expression over the variables ?x0, ?x1..
// of the facts, and notes which it uses.
func (c clause) test(facts []logic.Fact, used map[int]bool) string {
	switch c.op {
	case "and", "or":
		return fmt.Sprintf("(%s %s %s)", c.op, c.kids[0].test(facts, used), c.kids[1].test(facts, used))
	case "not":
		return "(not " + c.kids[0].test(facts, used) + ")"
	}
	used[c.fact] = true
	sign := clipsSign[c.op]
	if facts[c.fact].Kind != logic.Number {
		sign = map[string]string{"==": "eq", "!=": "neq", "yes": "eq"}[c.op]
	}
	return fmt.Sprintf("(%s ?x%d %s)", sign, c.fact, c.word)
}

// patterns writes the clause, or its negation, as CLIPS patterns in negation
// normal form. A pattern needs its fact to be there, so such a rule fires only
// when the condition is definitely true, whatever is still unanswered.
func (c clause) patterns(facts []logic.Fact, neg bool, count *int) string {
	switch c.op {
	case "not":
		return c.kids[0].patterns(facts, !neg, count)
	case "and", "or":
		op := c.op
		if neg {
			op = map[string]string{"and": "or", "or": "and"}[op]
		}
		return fmt.Sprintf("(%s %s %s)", op, c.kids[0].patterns(facts, neg, count), c.kids[1].patterns(facts, neg, count))
	}
	name := facts[c.fact].Name
	if facts[c.fact].Kind == logic.Number {
		*count++
		sign := clipsSign[c.op]
		if neg {
			sign = clipsOther[c.op]
		}
		return fmt.Sprintf("(%s ?v%d&:(%s ?v%d %s))", name, *count, sign, *count, c.word)
	}
	if (c.op == "!=") != neg {
		return fmt.Sprintf("(%s ~%s)", name, c.word)
	}
	return fmt.Sprintf("(%s %s)", name, c.word)
}

// clipsRule writes rule i in one of the two forms.
func clipsRule(i int, c clause, facts []logic.Fact, asTest bool) string {
	left := ""
	if asTest {
		used := map[int]bool{}
		test := c.test(facts, used)
		for _, f := range slices.Sorted(maps.Keys(used)) {
			left += fmt.Sprintf("(%s ?x%d) ", facts[f].Name, f)
		}
		left += "(test " + test + ")"
	} else {
		left = c.patterns(facts, false, new(int))
	}
	return fmt.Sprintf("(defrule r%d %s => (printout t \"fired %d\" crlf))\n", i, left, i)
}

// round is one set of answers; a missing fact is unanswered.
type round map[int]logic.Value

func (a round) clips(facts []logic.Fact) string {
	out := "(reset)\n"
	for _, i := range slices.Sorted(maps.Keys(a)) {
		word := ""
		switch f := facts[i]; f.Kind {
		case logic.Choice:
			word = f.Options[a[i].Index()]
		case logic.Number:
			word = fmt.Sprint(a[i].Number())
		default:
			word = map[bool]string{true: "yes", false: "no"}[a[i].Bool()]
		}
		out += fmt.Sprintf("(assert (%s %s))\n", facts[i].Name, word)
	}
	return out + "(printout t \"round\" crlf)\n(run)\n"
}

// TestClips gives the same rules and answers to CLIPS, the general-purpose
// expert system shell (Debian package clips; NASA's C Language Integrated
// Production System), and to a State. What fires there must be what is true
// here. Rules in the (test ..) form need all answers; those in patterns also
// decide with some missing.
func TestClips(t *testing.T) {
	clips := program(t, "clips")
	for _, asTest := range []bool{true, false} {
		t.Run(fmt.Sprintf("test=%v", asTest), func(t *testing.T) {
			r := rand.New(rand.NewPCG(7, 11))
			all, _ := logictest.Workload(0, 5)
			facts := slices.Concat(all[:6], all[30:34], all[45:49])
			clauses := make([]clause, 300)
			script, texts := "", make([]string, len(clauses))
			for i := range clauses {
				clauses[i] = randomClause(r, facts, 3)
				texts[i] = clauses[i].ours(facts)
				script += clipsRule(i, clauses[i], facts, asTest)
			}
			rounds := make([]round, 12)
			for k := range rounds {
				rounds[k] = randomRound(r, facts, asTest)
				script += rounds[k].clips(facts)
			}
			fired := runClips(t, clips, script+"(exit)\n", len(rounds))
			compareFired(t, build(t, facts, texts), facts, rounds, fired)
		})
	}
}

func randomRound(r *rand.Rand, facts []logic.Fact, all bool) round {
	a := round{}
	for i, f := range facts {
		if all || r.IntN(3) > 0 {
			a[i] = logictest.Answer(r, f)
			if f.Kind == logic.Number && r.IntN(2) == 0 {
				a[i] = logic.Num(float64(5 * r.IntN(20))) // on a threshold
			}
		}
	}
	return a
}

// runClips returns the set of rules fired in each round.
func runClips(t *testing.T, clips, script string, rounds int) []map[int]bool {
	t.Helper()
	path := filepath.Join(t.TempDir(), "rules.clp")
	if err := os.WriteFile(path, []byte(script), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(context.Background(), time.Minute)
	defer stop()
	out, err := exec.CommandContext(ctx, clips, "-f2", path).CombinedOutput()
	if err != nil {
		t.Fatalf("clips: %v\n%.2000s", err, out)
	}
	var fired []map[int]bool
	for line := range bytes.Lines(out) {
		var i int
		switch text := strings.TrimSpace(string(line)); {
		case text == "round":
			fired = append(fired, map[int]bool{})
		case strings.HasPrefix(text, "fired "):
			if _, err := fmt.Sscanf(text, "fired %d", &i); err != nil {
				t.Fatalf("clips said %q", text)
			}
			fired[len(fired)-1][i] = true
		case strings.Contains(text, "ERR"):
			t.Fatalf("clips refused the rules: %.2000s", out)
		}
	}
	if len(fired) != rounds {
		t.Fatalf("clips ran %d rounds, want %d: %.2000s", len(fired), rounds, out)
	}
	return fired
}

// compareFired moves one State from round to round, so that what one round
// leaves behind would show in the next.
func compareFired(t *testing.T, base *logic.Base, facts []logic.Fact, rounds []round, fired []map[int]bool) {
	t.Helper()
	s := base.NewState()
	sum := 0
	for k, a := range rounds {
		for i := range facts {
			if v, ok := a[i]; ok {
				set(t, s, answer{logic.FactID(i), v})
			} else {
				s.Clear(logic.FactID(i))
			}
		}
		for c := range base.Conds() {
			if got := s.Truth(logic.Cond(c)) == logic.True; got != fired[k][c] {
				t.Errorf("round %d: %s is %v, fired in clips: %v", k, base.Text(logic.Cond(c)), s.Truth(logic.Cond(c)), fired[k][c])
			}
		}
		sum += len(fired[k])
	}
	if n := base.Conds() * len(rounds); sum < n/20 || sum > n*19/20 {
		t.Errorf("%d of %d fired: the rules are too lopsided to show anything", sum, n)
	}
	t.Logf("%d conditions, %d rounds, %d fired", base.Conds(), len(rounds), sum)
}

// program returns the path of an outside program, or skips the test; where all
// tests are asked for, a missing program fails it.
func program(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("SPAREHAND_TEST_ALL") == "1" {
		t.Fatalf("%s is not installed", name)
	}
	t.Skipf("%s is not installed", name)
	return ""
}
