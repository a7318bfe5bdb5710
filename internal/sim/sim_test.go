package sim

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	oneSeed  = flag.Uint64("sim.seed", 0, "make the run of this seed alone, and print what happens in it")
	someRuns = flag.Int("sim.runs", 0, "how many runs to make")
	onlySome = flag.String("sim.faults", "", "the faults that may happen, by commas; empty means the usual ones")
)

// chosen returns the faults that may happen.
func chosen() map[fault]bool {
	if *onlySome == "" {
		return usual
	}
	some := map[fault]bool{}
	for f := range strings.SplitSeq(*onlySome, ",") {
		some[fault(f)] = true
	}
	return some
}

// TestSimulation makes 200 runs, in the long run 10,000. A red one prints its seed.
func TestSimulation(t *testing.T) {
	runs := 200
	if os.Getenv("HOBSIDE_LONG") != "" {
		runs = 10_000
	}
	if *someRuns > 0 {
		runs = *someRuns
	}
	if *oneSeed != 0 {
		w, why := run(*oneSeed, chosen(), nil)
		t.Log(strings.Join(w.trace, "\n"))
		require.Empty(t, why)
		return
	}
	var mu sync.Mutex
	counts, reds, made := map[string]int{}, 0, 0
	next := func() bool {
		mu.Lock()
		defer mu.Unlock()
		made++
		return made <= runs && reds < 3
	}
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for next() {
				seed := rand.Uint64()
				w, why := run(seed, chosen(), nil)
				mu.Lock()
				for what, n := range w.counts {
					counts[what] += n
				}
				if why != "" {
					reds++
					t.Errorf("red: %s\nthe same run again: go test ./internal/sim -run TestSimulation -v -sim.seed %d -sim.faults %s", why, seed, faultList(chosen()))
				}
				mu.Unlock()
			}
		})
	}
	workers.Wait()
	var summary []string
	for _, what := range slices.Sorted(maps.Keys(counts)) {
		summary = append(summary, fmt.Sprintf("%s %d", what, counts[what]))
	}
	t.Logf("%d runs: %s", made-1, strings.Join(summary, ", "))
}

func faultList(on map[fault]bool) string {
	var words []string
	for _, f := range allFaults {
		if on[f] {
			words = append(words, string(f))
		}
	}
	return strings.Join(words, ",")
}

// TestSeedMakesTheSameRunAgain makes runs twice: the same happens in both.
func TestSeedMakesTheSameRunAgain(t *testing.T) {
	for seed := range uint64(5) {
		first, why := run(seed+1, usual, nil)
		second, again := run(seed+1, usual, nil)
		assert.Equal(t, first.trace, second.trace)
		assert.Equal(t, why, again)
		assert.Greater(t, len(first.trace), 20)
	}
}
