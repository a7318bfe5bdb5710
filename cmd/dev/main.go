// Command dev is everything a developer does, with nothing but Go:
//
//	go run ./cmd/dev build          the phone's engine and one self-contained binary, bin/hobside
//	go run ./cmd/dev serve [flags]  build, then serve the demo dinner (flags go to hobside serve)
//	go run ./cmd/dev test [-long]   every test, the browser's included
//	go run ./cmd/dev types          the page's types of what the engine takes and answers, static/app/engine.d.ts
//	go run ./cmd/dev bench [NAME]   the table of budgets, or one bench by name
//
// It imports the standard library, brotli for the engine's compressed form, and
// the room that measures the planner's solver.
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, os.Args[1:]); err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			os.Exit(exit.ExitCode()) // the command has said what was wrong
		}
		fmt.Fprintln(os.Stderr, "dev:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, args []string) error {
	if err := toRoot(); err != nil {
		return err
	}
	if len(args) == 0 {
		return errors.New("say what to do: build, serve, test, bench or types")
	}
	switch args[0] {
	case "build":
		return build(ctx)
	case "serve":
		return serve(ctx, args[1:])
	case "test":
		return test(ctx, args[1:])
	case "bench":
		return bench(ctx, args[1:])
	case "types":
		return writeTypes()
	}
	return fmt.Errorf("unknown command %q: build, serve, test, bench or types", args[0])
}

// toRoot goes to the folder that holds go.mod, so that dev works from anywhere
// in the tree.
func toRoot() error {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return fmt.Errorf("go env GOMOD: %w", err)
	}
	mod := string(out)
	for len(mod) > 0 && (mod[len(mod)-1] == '\n' || mod[len(mod)-1] == '\r') {
		mod = mod[:len(mod)-1]
	}
	if mod == "" || mod == os.DevNull {
		return errors.New("no go.mod here or above: run this inside the project")
	}
	return os.Chdir(mod[:len(mod)-len("/go.mod")])
}

// command prepares a child that shares our terminal and ends with us.
func command(ctx context.Context, name string, args ...string) *exec.Cmd {
	c := exec.CommandContext(ctx, name, args...)
	c.Stdout, c.Stderr, c.Stdin = os.Stdout, os.Stderr, os.Stdin
	c.Cancel = func() error { return c.Process.Signal(os.Interrupt) }
	return c
}
