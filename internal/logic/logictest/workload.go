// Package logictest makes rule bases of any size for measuring.
package logictest

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"sparehand/internal/logic"
)

// The make-up of a workload: 30 choices of 3 to 6 options, 15 numbers from 0 to
// 99.9, 15 yes/no facts.
const (
	choices = 30
	numbers = 15
	yesNos  = 15
)

// Workload returns 60 facts and n conditions over them, the same for the same
// n and start. A condition joins 2 to 4 parts: 70% a plain comparison, 12% (a or
// b), 12% not (a), 6% not (a and b); numbers are compared with a grid of 5.
func Workload(n int, start uint64) (facts []logic.Fact, rules []string) {
	r := rand.New(rand.NewPCG(start, 60))
	facts = makeFacts(r)
	rules = make([]string, n)
	for i := range rules {
		parts := make([]string, 2+r.IntN(3))
		for j := range parts {
			parts[j] = part(r, facts)
		}
		rules[i] = strings.Join(parts, " and ")
	}
	return facts, rules
}

func makeFacts(r *rand.Rand) []logic.Fact {
	var facts []logic.Fact
	for i := range choices {
		options := make([]string, 3+r.IntN(4))
		for j := range options {
			options[j] = fmt.Sprintf("answer_%d", j)
		}
		facts = append(facts, logic.Fact{Name: fmt.Sprintf("pick_%d", i), Kind: logic.Choice, Options: options})
	}
	for i := range numbers {
		facts = append(facts, logic.Fact{Name: fmt.Sprintf("amount_%d", i), Kind: logic.Number})
	}
	for i := range yesNos {
		facts = append(facts, logic.Fact{Name: fmt.Sprintf("seen_%d", i), Kind: logic.YesNo})
	}
	return facts
}

func part(r *rand.Rand, facts []logic.Fact) string {
	switch p := r.IntN(100); {
	case p < 70:
		return comparison(r, facts)
	case p < 82:
		return "(" + comparison(r, facts) + " or " + comparison(r, facts) + ")"
	case p < 94:
		return "not (" + comparison(r, facts) + ")"
	}
	return "not (" + comparison(r, facts) + " and " + comparison(r, facts) + ")"
}

func comparison(r *rand.Rand, facts []logic.Fact) string {
	f := facts[r.IntN(len(facts))]
	switch f.Kind {
	case logic.Choice:
		sign := [...]string{"==", "!="}[r.IntN(2)]
		return fmt.Sprintf("%s %s %q", f.Name, sign, f.Options[r.IntN(len(f.Options))])
	case logic.Number:
		sign := [...]string{"<", "<=", ">", ">="}[r.IntN(4)]
		return fmt.Sprintf("%s %s %d", f.Name, sign, 5*(1+r.IntN(19)))
	}
	return f.Name
}

// Answer returns a random answer to f: numbers have one decimal, below 100.
func Answer(r *rand.Rand, f logic.Fact) logic.Value {
	switch f.Kind {
	case logic.Choice:
		return logic.Option(r.IntN(len(f.Options)))
	case logic.Number:
		return logic.Num(float64(r.IntN(1000)) / 10)
	}
	return logic.Yes(r.IntN(2) == 0)
}
