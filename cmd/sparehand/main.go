// Command sparehand is a workshop assistant for makers of gelatin appliances.
// Without a command it serves its page on this machine.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/alecthomas/kong"
)

// Exit codes: 0 done, 1 a fault in what was given, 2 a command that can't be
// read.
const (
	exitFault = 1
	exitUsage = 2
)

type commands struct {
	Serve serveCmd `cmd:"" default:"withargs" help:"Serve the page and the websocket (the default)."`
	Talk  talkCmd  `cmd:"" help:"Talk in the terminal."`
	Mix   mixCmd   `cmd:"" help:"Work out a mix, or another sum, from sizes and what you have."`
	Plan  planCmd  `cmd:"" help:"Write the plan of a build with its shopping list and safety sheet, or for a calendar."`
	Notes notesCmd `cmd:"" help:"The notebook: list it, print it, export, import, back it up."`
	Hear  hearCmd  `cmd:"" help:"Show what words are taken to mean, as JSON."`
	Check checkCmd `cmd:"" help:"Check the rules and run their cases."`
	Trial trialCmd `cmd:"" hidden:"" help:"Measure how well speech is recognised, with synthetic voices."`
	Ear   earCmd   `cmd:"" hidden:"" help:"The recogniser's own process, started by serve."`
}

// streams are what a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

func main() { os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr})) }

// run is the whole program, for tests too.
func run(args []string, std streams) int {
	var cmds commands
	exit := -1
	parser, err := kong.New(&cmds,
		kong.Name("sparehand"),
		kong.Description("A spare hand at the bench: say what goes wrong with a gelatin appliance, and it asks back, works out why and says what to do."),
		kong.Writers(std.out, std.err),
		kong.Exit(func(code int) { exit = code }),
		kong.UsageOnError(),
	)
	if err != nil {
		fmt.Fprintln(std.err, "sparehand:", err)
		return exitUsage
	}
	ctx, err := parser.Parse(args)
	if exit >= 0 { // help was asked for
		return exit
	}
	if err != nil {
		fmt.Fprintf(std.err, "sparehand: %v\nhint: sparehand --help lists the commands\n", err)
		return exitUsage
	}
	if err := ctx.Run(std); err != nil {
		var quiet silent
		if !errors.As(err, &quiet) {
			fmt.Fprintln(std.err, "sparehand:", err)
		}
		return exitFault
	}
	return 0
}

// silent is a fault that has been reported already.
type silent struct{}

func (silent) Error() string { return "already reported" }
