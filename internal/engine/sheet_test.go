package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/larder"
)

func TestSheetOfTheDemo(t *testing.T) {
	_, d := demo(t)
	plates := 0
	for _, c := range d.Courses {
		plates += len(c.Plates)
	}
	require.Len(t, d.Sheet, plates)
	for _, s := range d.Sheet {
		for _, list := range [][]dinner.Allergen{s.EU, s.US} {
			for _, a := range list {
				assert.NotEmpty(t, a.Via, "%s: %s", s.Plate, a.Code)
				assert.Contains(t, []larder.Certainty{larder.Always, larder.Usually, larder.Probably, larder.May}, a.Certainty)
			}
		}
		if s.Plate == "Bread, whipped butter, radishes" {
			var names []string
			for _, a := range s.EU {
				names = append(names, a.Name)
			}
			assert.Contains(t, names, "Milk and products thereof (including lactose)")
			assert.Contains(t, names, "Cereals containing gluten, namely: wheat (such as spelt and khorasan wheat), rye, barley, oats or their hybridised strains, and products thereof")
		}
	}
}
