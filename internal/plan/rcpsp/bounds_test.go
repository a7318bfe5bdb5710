package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Worked out by hand: 12 units of energy at a capacity of 2, closed from 3 to 5,
// are 6 before the break and 6 after it, which ends at 5 + 3.
func TestLowerBoundCountsEnergyAndCalendar(t *testing.T) {
	p := &Problem{Resources: []Resource{{Cap: 2, Changes: []Change{{3, 0}, {5, 2}}}}}
	for range 6 {
		p.Activities = append(p.Activities, Activity{Dur: 2, Needs: []Need{{0, 1, 0}}})
	}
	m, infeasible := compile(p)
	require.Nil(t, infeasible)
	assert.Equal(t, int32(8), m.lowerBound())
	assert.Equal(t, int32(2), m.criticalPath(), "without the others each could end at 2")
}

// Early is charged for at most Span units: 4 of the 10 before At.
func TestSpanLimitsEarliness(t *testing.T) {
	c := Curve{{At: 10, Early: 3, Span: 4}}
	assert.Equal(t, 3*4, c.At(0))
	assert.Equal(t, 3*4, c.At(6))
	assert.Equal(t, 3*3, c.At(7))
	var pieces [][2]int
	c.pieces(0, 12, func(first, last int) bool { pieces = append(pieces, [2]int{first, last}); return true })
	assert.Equal(t, [][2]int{{0, 5}, {6, 9}, {10, 12}}, pieces)
}
