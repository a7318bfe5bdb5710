// Package instances reads the public test instances of project scheduling as
// problems of package [hobside/internal/plan/rcpsp]: [SM] reads the single-mode
// files of PSPLIB, [Sch] the files of ProGen/max with minimum and maximum time
// lags.
//
// The formats are described where the instances are stored (README.md of
// testdata/psplib and testdata/rcpspmax); PSPLIB's is that of R. Kolisch and
// A. Sprecher, European Journal of Operational Research 96 (1997) 205-216, of which
// only the citation was read.
//
// The readers take bytes and not files. For any input they return a valid problem,
// or an error that names the line.
package instances

import (
	"fmt"
	"strconv"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// The largest published instances have 500 activities. A file beyond these limits
// is taken for a damaged one, so that it cannot use up the memory.
const (
	maxJobs      = 10_000
	maxResources = 64
)

// parseInts returns the whole numbers of a line, which are separated by spaces.
func parseInts(line string) ([]int, error) {
	var out []int
	for _, f := range strings.Fields(line) {
		v, err := strconv.Atoi(f)
		if err != nil {
			return nil, fmt.Errorf("%q is not a whole number", f)
		}
		out = append(out, v)
	}
	return out, nil
}

// needs returns the needs of an activity from its demands, one for each resource.
func needs(demands []int) []rcpsp.Need {
	var out []rcpsp.Need
	for k, v := range demands {
		if v != 0 {
			out = append(out, rcpsp.Need{Resource: k, Amount: v})
		}
	}
	return out
}
