package main

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	if _, set := os.LookupEnv("SPAREHAND_STORE"); !set {
		os.Setenv("SPAREHAND_STORE", noStore) // tests leave nothing in anybody's notebook
	}
	testscript.Main(m, map[string]func(){"sparehand": main})
}

// TestScripts runs the whole program as a person or a script would: one story
// a file in testdata.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata",
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"lines": lines,
		},
		UpdateScripts: os.Getenv("SPAREHAND_UPDATE") != "",
	})
}

// lines N: the last command printed N lines.
func lines(ts *testscript.TestScript, _ bool, args []string) {
	out := strings.TrimSuffix(ts.ReadFile("stdout"), "\n")
	if got := len(strings.Split(out, "\n")); len(args) != 1 || args[0] != strconv.Itoa(got) {
		ts.Fatalf("%d lines, wanted %v", got, args)
	}
}
