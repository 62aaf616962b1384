//go:build race

package diagnose

// underRace: the race detector makes these long calculations ten times slower,
// and one goroutine has no race to find; a part of them will do then.
const underRace = true
