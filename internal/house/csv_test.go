package house

import (
	"go/ast"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestEveryTableIsWrittenInOnePlace: encoding/csv writes cells as they are, formulas
// too. Tables for people are made of monitor.CSVRow, which guards them. Convert reads
// tables with encoding/csv and writes none.
func TestEveryTableIsWrittenInOnePlace(t *testing.T) {
	for _, p := range packages(t) {
		switch {
		case slices.Contains(impure, p.dir):
		case p.dir == "internal/convert":
			for _, f := range p.files {
				ast.Inspect(f, func(n ast.Node) bool {
					if s, ok := n.(*ast.SelectorExpr); ok {
						assert.NotEqual(t, "NewWriter", s.Sel.Name, "%s: it reads tables and writes none", p.dir)
					}
					return true
				})
			}
		default:
			assert.NotContains(t, p.imports(), "encoding/csv", "%s: write rows with monitor.CSVRow", p.dir)
		}
	}
}
