package document

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestGasMarks reads marks of a gas oven. testdata/reference/units.csv, from GNU
// Units 2.22: from mark 1 up F = 25(n−1) + 275, below it F = 25 log2(n) + 275; marks
// ¼, ½, 1, 4 and 9 are 225, 250, 275, 350 and 475 °F.
func TestGasMarks(t *testing.T) {
	for in, fahrenheit := range map[string]float64{
		"gas mark 1": 275, "gas mark 4": 350, "Gas Mark 6": 400, "gas 6": 400, "gas mk 9": 475, "gas mark ½": 250, "gas mark 1/2": 250, "gas mark ¼": 225,
		"gas mark 6, 2 shelves": 400, "gas mark 3½": 337.5,
	} {
		c, ok := Temperature(in)
		if assert.True(t, ok, in) {
			assert.InDelta(t, (fahrenheit-32)*5/9, c, 1e-9, in)
		}
	}
	for _, in := range []string{"gas mark 12", "gas", "gas mark", "gas mark 0", "over gas", "gasket 6"} {
		_, ok := Temperature(in)
		assert.False(t, ok, in)
	}
	c, ok := Temperature("gas oven, 180 °C")
	assert.True(t, ok)
	assert.Equal(t, 180.0, c)
}
