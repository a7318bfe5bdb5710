package main

import (
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// benches are the rows of the table of budgets: each is one Go benchmark.
var benches = []struct{ name, budget, pattern, room string }{
	{"card", "compile within 1.3 × goldmark's parse", "Compile|Goldmark|Parse", "./internal/card"},
	{"food", "find a food by its name in 2 µs", "FindAgainstFields|ReadFoods", "./internal/larder"},
	{"explode", "explode the demo dinner in 0.1 ms, 1,000 cards in 15 ms", "Explode", "./internal/demand"},
	{"dinner", "open the demo dinner", "Dinner", "./internal/engine"},
	{"find", "find among 10,000 cards: 10 ms", "Find", "./internal/library"},
	{"plantime", "plan the demo dinner in 60 ms, re-plan in 30 ms; 400 steps in 0.5 s, 1,000 in 3 s", "Demo|RePlan|HopelesslyLate|Growth", "./internal/plan"},
	{"growth", "1,000 dinners: size, time to open and to check", "ThousandDinners", "./internal/store"},
}

// bench runs the benchmarks of the table, or the one named.
func bench(ctx context.Context, out io.Writer, args []string) error {
	special := map[string]func() error{
		"plan":   func() error { return benchPlan(out) },
		"psplib": func() error { return psplib(args[1:], out, os.Stderr) },
		"sync":   func() error { return benchSync(ctx, out) },
		"wasm":   func() error { return benchWasm(ctx, out) },
		"page":   func() error { return benchPage(ctx, out) },
		"size":   func() error { return benchSize(ctx, out) },
	}
	if len(args) > 0 && special[args[0]] != nil {
		return special[args[0]]()
	}
	names := slices.Collect(maps.Keys(special))
	for _, b := range benches {
		names = append(names, b.name)
		if len(args) > 0 && args[0] != b.name {
			continue
		}
		fmt.Fprintf(out, "dev: %s: %s\n", b.name, b.budget)
		if err := command(ctx, out, "go", "test", "-run", "^$", "-bench", b.pattern, "-benchmem", b.room).Run(); err != nil {
			return fmt.Errorf("bench %s: %w", b.name, err)
		}
		if len(args) > 0 {
			return nil
		}
	}
	if len(args) > 0 {
		slices.Sort(names)
		return fmt.Errorf("no benchmark %q: say one of %s", args[0], strings.Join(names, ", "))
	}
	return nil
}

// benchPage opens and taps the app in Chromium, as it is and with the processor
// four times slower.
func benchPage(ctx context.Context, out io.Writer) error {
	for _, ready := range []func(context.Context, io.Writer) error{buildEngine, needChromium} {
		if err := ready(ctx, out); err != nil {
			return err
		}
	}
	fmt.Fprintln(out, "dev: page: a tap painted in one frame, a cold open in 250 ms, both four times slower")
	if err := command(ctx, out, "go", "test", "-tags", "browser", "-run", "^$", "-bench", "ColdOpen|Tap", "-benchtime", "10x", "./cmd/hobside").Run(); err != nil {
		return fmt.Errorf("bench page: %w", err)
	}
	return nil
}

// benchWasm plans the demo dinner as a phone does, within 250 ms. It needs Node
// to run what was built for a browser.
func benchWasm(ctx context.Context, out io.Writer) error {
	root, err := exec.CommandContext(ctx, "go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env GOROOT: %w", err)
	}
	runner := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "go_js_wasm_exec")
	args := append([]string{"test", "-exec", runner, "-run", "^$", "-bench", "Demo|RePlan|HopelesslyLate"}, inlining()...)
	c := command(ctx, out, "go", append(args, "./internal/plan")...)
	c.Env = append(os.Environ(), forPhone...)
	fmt.Fprintln(out, "dev: wasm: plan the demo dinner in 250 ms; a re-plan in 120 ms")
	if err := c.Run(); err != nil {
		return fmt.Errorf("bench wasm (it needs Node): %w", err)
	}
	return nil
}
