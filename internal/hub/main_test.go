package hub_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain sets the number of runs of the random tests: 3,000 in the long run,
// else 60, because each run opens several data files.
func TestMain(m *testing.M) {
	flag.Parse()
	if os.Getenv("HOBSIDE_LONG") != "" {
		flag.Set("rapid.checks", "3000")
	} else if flag.Lookup("rapid.checks").Value.String() == flag.Lookup("rapid.checks").DefValue {
		flag.Set("rapid.checks", "60")
	}
	os.Exit(m.Run())
}
