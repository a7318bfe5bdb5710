package hub_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain makes the long run long: thousands of histories.
func TestMain(m *testing.M) {
	flag.Parse()
	if os.Getenv("HOBSIDE_LONG") != "" {
		flag.Set("rapid.checks", "3000")
	}
	os.Exit(m.Run())
}
