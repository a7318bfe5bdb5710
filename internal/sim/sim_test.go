package sim

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
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
		w, why := run(t, *oneSeed, chosen(), modelBrains, true)
		t.Log(strings.Join(w.trace, "\n"))
		require.Empty(t, why)
		return
	}
	counts, reds, made := map[string]int{}, 0, 0
	for ; made < runs && reds < 3; made++ {
		seed := rand.Uint64()
		w, why := run(t, seed, chosen(), modelBrains, false)
		for what, n := range w.counts {
			counts[what] += n
		}
		if why != "" {
			reds++
			t.Errorf("red: %s\nthe same run again: go test ./internal/sim -run TestSimulation -v -sim.seed %d -sim.faults %s\nthe data files are in %s", why, seed, faultList(chosen()), w.dir)
		}
	}
	var summary []string
	for _, what := range slices.Sorted(maps.Keys(counts)) {
		summary = append(summary, fmt.Sprintf("%s %d", what, counts[what]))
	}
	t.Logf("%d runs: %s", made, strings.Join(summary, ", "))
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
		first, why := run(t, seed+1, usual, modelBrains, true)
		second, again := run(t, seed+1, usual, modelBrains, true)
		assert.Equal(t, first.trace, second.trace)
		assert.Equal(t, why, again)
		assert.Greater(t, len(first.trace), 20)
	}
}
