package serve

import "testing"

// firstWords open the talk of an idle client.
const firstWords = "plaster is running out under the wall"

// benchPlace is the server that the benchmarks talk to, and what they say.
func benchPlace(b *testing.B) (*place, []Request) {
	script := []Request{
		{Kind: "say", Text: firstWords},
		{Kind: "pick", N: 1}, {Kind: "pick", N: 2}, {Kind: "pick", N: 1},
		{Kind: "correct", Fact: "thickness", Value: "30 mm"},
		{Kind: "pick", N: 1}, {Kind: "undo"}, {Kind: "pick", N: 3},
	}
	return serving(b), script
}
