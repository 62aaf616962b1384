//go:build race

package serve

const underRace = true
