package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Worked by hand: fish for the day of serving, used first on the day before it by a cure
// two days ahead; flour that keeps; salad that does not.
func TestDeliveriesAreAsFewAsKeepingAllows(t *testing.T) {
	lines := []Fresh{{Line: 0, By: -2, Keeps: 1, Last: -2}, {Line: 1, By: -1, Keeps: 365, Last: 0}, {Line: 2, By: 0, Keeps: 2, Last: 0}, {Line: 3, By: -2, Keeps: 2, Last: 0}}
	assert.Equal(t, []Delivery{{Day: -2, Lines: []int{0, 1, 2, 3}}}, Deliveries(lines, nil))
	lines[2].Keeps = 1
	assert.Equal(t, []Delivery{{Day: -2, Lines: []int{0, 1, 3}}, {Day: 0, Lines: []int{2}}}, Deliveries(lines, nil))
	// Deliveries on day -3 only: what does not keep so long is marked.
	got := Deliveries(lines, func(day int) bool { return day == -3 })
	assert.Equal(t, []Delivery{{Day: -3, Lines: []int{0, 1, 2, 3}, Stale: []int{2, 3}}}, got)
	assert.Equal(t, []Delivery{{Day: 0, Lines: []int{0}, Stale: []int{0}}}, Deliveries([]Fresh{{By: 0}}, func(int) bool { return false }), "a kitchen without deliveries")
	assert.Nil(t, Deliveries(nil, nil))
}

// Every line comes once, in time, and while it keeps, unless it is marked. With every day
// allowed, no number of deliveries below ours can do: the marks of the greedy choice are
// lines of which no two can share a day.
func TestDeliveriesCoverEveryLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(t, "lines")
		var lines []Fresh
		for i := range n {
			by := rapid.IntRange(-5, 0).Draw(t, "by")
			lines = append(lines, Fresh{Line: i, By: by, Last: by + rapid.IntRange(0, 2).Draw(t, "span"), Keeps: rapid.IntRange(2, 9).Draw(t, "keeps")})
		}
		out := Deliveries(lines, nil)
		seen := map[int]int{}
		for _, d := range out {
			assert.Empty(t, d.Stale)
			for _, l := range d.Lines {
				seen[l]++
				assert.LessOrEqual(t, d.Day, lines[l].By)
				assert.GreaterOrEqual(t, d.Day+lines[l].Keeps, lines[l].Last)
			}
		}
		assert.Len(t, seen, n)
		apart, last := 0, -100
		for _, d := range out {
			first := 100
			for _, l := range d.Lines {
				first = min(first, lines[l].By)
			}
			if first > last {
				apart, last = apart+1, first
			}
		}
		assert.Equal(t, len(out), apart)
	})
}
