//go:build !race

package diagnose

const underRace = false
