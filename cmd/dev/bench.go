package main

import (
	"context"
	"fmt"
	"os"
	"strings"
)

// benches are the rows of the table of budgets: each is one Go benchmark.
var benches = []struct{ name, budget, pattern, room string }{
	{"card", "compile within 1.5 × goldmark's parse", "Compile|Goldmark|Parse", "./internal/card"},
	{"explode", "explode a 25-card dinner: 1 ms", "Explode", "./internal/demand"},
	{"dinner", "open the demo dinner", "Dinner", "./internal/engine"},
	{"growth", "1,000 sittings: size, time to open and to check", "ThousandSittings", "./internal/store"},
}

// bench runs the benchmarks of the table, or the one named.
func bench(ctx context.Context, args []string) error {
	if len(args) > 0 && args[0] == "psplib" {
		return psplib(args[1:], os.Stdout, os.Stderr)
	}
	if len(args) > 0 && args[0] == "sync" {
		return benchSync(ctx)
	}
	names := []string{"psplib", "sync"}
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
