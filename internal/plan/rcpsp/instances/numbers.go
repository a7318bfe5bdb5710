package instances

import (
	"fmt"
	"strconv"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// The largest published instances have 500 activities; files beyond these
// bounds are taken for damaged ones.
const (
	maxJobs      = 10_000
	maxResources = 64
)

func ints(line string) ([]int, error) {
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

func needs(amounts []int) []rcpsp.Need {
	var out []rcpsp.Need
	for k, v := range amounts {
		if v != 0 {
			out = append(out, rcpsp.Need{Resource: k, Amount: v})
		}
	}
	return out
}
