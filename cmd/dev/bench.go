package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// benches are the rows of the table of budgets: each is one Go benchmark.
var benches = []struct{ name, budget, pattern, room string }{
	{"card", "compile within 1.5 × goldmark's parse", "Compile|Goldmark|Parse", "./internal/card"},
	{"explode", "explode a 25-card dinner: 1 ms", "Explode", "./internal/demand"},
	{"dinner", "open the demo dinner", "Dinner", "./internal/engine"},
	{"find", "find among 10,000 cards: 10 ms", "Find", "./internal/engine"},
	{"plan", "plan the demo dinner: 100 ms native; a re-plan half of it; 50 to 400 steps", "Demo|RePlan|Growth", "./internal/plan"},
	{"growth", "1,000 dinners: size, time to open and to check", "ThousandDinners", "./internal/store"},
}

// bench runs the benchmarks of the table, or the one named.
func bench(ctx context.Context, args []string) error {
	if len(args) > 0 && args[0] == "psplib" {
		return psplib(args[1:], os.Stdout, os.Stderr)
	}
	if len(args) > 0 && args[0] == "sync" {
		return benchSync(ctx)
	}
	if len(args) > 0 && args[0] == "wasm" {
		return benchWasm(ctx)
	}
	if len(args) > 0 && args[0] == "page" {
		return benchPage(ctx)
	}
	names := []string{"psplib", "sync", "wasm", "page"}
	for _, b := range benches {
		names = append(names, b.name)
		if len(args) > 0 && args[0] != b.name {
			continue
		}
		fmt.Printf("dev: %s: %s\n", b.name, b.budget)
		if err := command(ctx, "go", "test", "-run", "^$", "-bench", b.pattern, "-benchmem", b.room).Run(); err != nil {
			return fmt.Errorf("bench %s: %w", b.name, err)
		}
		if len(args) > 0 {
			return nil
		}
	}
	if len(args) > 0 {
		return fmt.Errorf("no bench %q: %s", args[0], strings.Join(names, ", "))
	}
	return nil
}

// benchPage opens and taps the app in a real Chromium, as it is and with the
// processor four times slower.
func benchPage(ctx context.Context) error {
	for _, ready := range []func(context.Context) error{buildEngine, ensureChromium} {
		if err := ready(ctx); err != nil {
			return err
		}
	}
	fmt.Println("dev: page: a tap painted in one frame, a cold open in 500 ms, at a quarter of the speed")
	if err := command(ctx, "go", "test", "-tags", "browser", "-run", "^$", "-bench", "ColdOpen|Tap", "-benchtime", "10x", "./cmd/hobside").Run(); err != nil {
		return fmt.Errorf("bench page: %w", err)
	}
	return nil
}

// benchWasm plans the demo dinner as a phone does: 400 ms. It needs Node to run
// what was built for a browser.
func benchWasm(ctx context.Context) error {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env GOROOT: %w", err)
	}
	runner := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "go_js_wasm_exec")
	args := []string{"test", "-exec", runner, "-run", "^$", "-bench", "Demo|RePlan"}
	for _, pkg := range notInlined {
		args = append(args, "-gcflags="+pkg+"=-l")
	}
	c := command(ctx, "go", append(args, "./internal/plan")...)
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	fmt.Println("dev: wasm: plan the demo dinner: 400 ms; a re-plan half of it")
	if err := c.Run(); err != nil {
		return fmt.Errorf("bench wasm (it needs Node): %w", err)
	}
	return nil
}
