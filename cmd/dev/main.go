// Command dev is everything a developer of Hobside does:
//
//	go run ./cmd/dev build          the phone's engine and one self-contained binary, bin/hobside
//	go run ./cmd/dev serve [flags]  the demo dinner; what you save is built and shown (flags go to hobside serve)
//	go run ./cmd/dev test [-long]   every check and every test, in browsers too
//	go run ./cmd/dev format         format the Go code and the page's JavaScript, CSS and HTML
//	go run ./cmd/dev types          the page's types of what the engine takes and answers, static/app/engine.d.ts
//	go run ./cmd/dev bench [NAME]   the table of budgets, or one benchmark by name
//
// build and serve need Go alone. test needs the programs listed in programs.go,
// and installs them where it may.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, os.Stdout, os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "dev:", err)
		os.Exit(1)
	}
}

// commands are what dev can be told to do.
var commands = map[string]func(ctx context.Context, out io.Writer, args []string) error{
	"build":  func(ctx context.Context, out io.Writer, _ []string) error { return build(ctx, out) },
	"serve":  serve,
	"test":   test,
	"format": func(ctx context.Context, out io.Writer, _ []string) error { return format(ctx, out) },
	"types":  func(context.Context, io.Writer, []string) error { return writeTypes() },
	"bench":  bench,
}

func run(ctx context.Context, out io.Writer, args []string) error {
	if err := toRoot(); err != nil {
		return err
	}
	if len(args) == 0 {
		return errors.New("say what to do: build, serve, test, format, types or bench")
	}
	do := commands[args[0]]
	if do == nil {
		return fmt.Errorf("unknown command %q: say build, serve, test, format, types or bench", args[0])
	}
	return do(ctx, out, args[1:])
}

// toRoot goes to the folder that holds go.mod, so that dev works from anywhere
// in the tree.
func toRoot() error {
	printed, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return fmt.Errorf("go env GOMOD: %w", err)
	}
	mod := strings.TrimSpace(string(printed))
	if mod == "" || mod == os.DevNull {
		return errors.New("no go.mod here or above: run this inside the project")
	}
	return os.Chdir(filepath.Dir(mod))
}

// command prepares a program that writes to out and is interrupted when ctx ends.
func command(ctx context.Context, out io.Writer, name string, args ...string) *exec.Cmd {
	c := exec.CommandContext(ctx, name, args...)
	c.Stdout, c.Stderr, c.Stdin = out, out, os.Stdin
	c.Cancel = func() error { return c.Process.Signal(os.Interrupt) }
	return c
}
