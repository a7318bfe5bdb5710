// Command hobside is the server and the command line. Every command here reads
// its flags, calls a room under internal and prints the answer.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// Exit codes: 1 when a command failed or found errors, 2 for wrong usage.
const (
	exitFailed = 1
	exitUsage  = 2
)

// errUsage marks an error in how the command was called.
var errUsage = errors.New("wrong usage")

// errProblems means that cards have errors, which are already printed.
var errProblems = errors.New("there are errors")

// commands are listed in this order by the help.
var commands = []struct {
	name, args, what string
	run              func(ctx context.Context, args []string, out io.Writer) error
}{
	{"serve", "[--listen 127.0.0.1:8420] [--lan] [--lan-listen :8443] [--cert FILE --key FILE] [--data FILE] [--empty] [--demo-on DATE]",
		"serve the app to a browser on this machine and, with --lan, to phones that are let in", serve},
	{"check", "[--json] FILE|DIR…", "say what is wrong in cards, menus, kitchens and their own foods", check},
	{"card", "FILE [--make AMOUNT] [--of ITEM] [--hundred ITEM,…] [--foods FILE] [--units typed|metric|us|imperial] [--scale 1g] [--format text|json|html|jsonld]",
		"a card scaled to what it is to make, or to what there is of one item", cardPage},
	{"convert", "FILE|DIR|- … [--format card|json] [--out DIR]", "cards of other people's recipes: web pages, e-mails, text, Markdown, tables; what was read as what goes to the error stream", convertFiles},
	{"plan", "--menu FILE [--kitchen FILE] [--covers N] [--serve TIME] [--cards DIR] [--format text|json|ics]", "when each step starts, worked back from the serving time", planCommand},
	{"order", "--menu FILE [--covers N] [--cards DIR] [--units …] [--scale 1g] [--format text|json|csv]", "what to buy for a menu", order},
	{"prep", "--menu FILE [--covers N] [--cards DIR] [--units …] [--scale 1g] [--format text|json]", "what to cut, peel and grate, by day, cook and ingredient", prep},
	{"food", "WORDS [--foods FILE] [--format text|json]", "what the food table knows of an item, each figure with its source", food},
	{"sheet", "--menu FILE [--covers N] [--cards DIR] [--format text|json|html]", "allergens, nutrition and cost of every plate of a menu, to print", sheet},
	{"guests", "--menu FILE [--cards DIR] | WORDS [--foods FILE] [--format text|json]", "what the guests of a menu clash with, or what guests' words are understood as", guests},
	{"backup", "[--data FILE] FILE", "write a whole copy of the data file, while the server runs or not", backup},
	{"restore", "[--data FILE] FILE", "put a backup in the data file's place; what was there is kept aside", restore},
	{"verify", "[--data FILE] [BACKUP]", "check the data file, or a backup, to the last record", verify},
	{"export", "[--data FILE] DIR", "write cards, menus and kitchens as the files they are, and dinners as JSON lines", export},
	{"import", "[--data FILE] DIR", "read such a folder, or any folder of cards; safe to repeat", importDir},
	{"devices", "[--data FILE] [list | code cook|helper | revoke ID | cook ID | helper ID]", "who is let in from the network", devices},
	{"cool", coolArgs, "how long something takes to cool, and whether the stages would be met", cool},
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run runs a command and returns the exit code.
func run(ctx context.Context, args []string, out, problems io.Writer) int {
	if len(args) == 0 || args[0] == "help" || args[0] == "--help" || args[0] == "-h" {
		w := out
		if len(args) == 0 {
			w = problems
		}
		help(w)
		if len(args) == 0 {
			return exitUsage
		}
		return 0
	}
	for _, c := range commands {
		if c.name != args[0] {
			continue
		}
		err := caught(func() error { return c.run(ctx, args[1:], out) })
		if e := new(toldError); errors.As(err, &e) {
			for _, line := range e.lines {
				fmt.Fprintln(problems, line)
			}
			err = e.failed
		}
		switch {
		case err == nil:
			return 0
		case errors.Is(err, errProblems):
			return exitFailed
		case errors.Is(err, errUsage):
			fmt.Fprintf(problems, "hobside %s: %v\nusage: hobside %s %s\n", c.name, err, c.name, c.args)
			return exitUsage
		}
		fmt.Fprintf(problems, "hobside %s: %v\n", c.name, err)
		return exitFailed
	}
	fmt.Fprintf(problems, "hobside: unknown command %q\n", args[0])
	help(problems)
	return exitUsage
}

func help(w io.Writer) {
	fmt.Fprintln(w, "Hobside plans and cooks a dinner from Markdown cards.")
	for _, c := range commands {
		fmt.Fprintf(w, "  hobside %s %s\n        %s\n", c.name, c.args, c.what)
	}
}

// usage returns an error in how the command was called.
func usage(format string, args ...any) error {
	return fmt.Errorf("%w: %s", errUsage, fmt.Sprintf(format, args...))
}
