package house

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestEveryTableIsWrittenInOnePlace: encoding/csv writes cells as they are, formulas
// too. Tables for people are made of monitor.CSVRow, which guards them.
func TestEveryTableIsWrittenInOnePlace(t *testing.T) {
	for _, p := range packages(t) {
		if !slices.Contains(impure, p.dir) {
			assert.NotContains(t, p.imports(), "encoding/csv", "%s: write rows with monitor.CSVRow", p.dir)
		}
	}
}
