package rcpsp

import "sort"

// scores holds the variable activity of each activity: how often it took part in
// conflicts, with recent conflicts counting more (VSIDS). Instead of lowering all
// scores after a conflict, the increment grows.
type scores struct {
	of        []float64 // by activity
	increment float64
}

// growth is the factor by which a conflict counts more than the one before it, and
// rescaleAt is the increment at which all scores are scaled down.
const (
	growth    = 1.05
	rescaleAt = 1e100
)

func newScores(n int) scores { return scores{of: make([]float64, n), increment: 1} }

// bump raises the score of the activity of a view.
func (s *scores) bump(view int32) { s.of[activityOf(view)] += s.increment }

// decay makes later conflicts count more.
func (s *scores) decay() {
	s.increment *= growth
	if s.increment > rescaleAt {
		for i := range s.of {
			s.of[i] *= 1 / rescaleAt
		}
		s.increment *= 1 / rescaleAt
	}
}

// highest returns up to a number of activities, the highest scores first, without
// those that took part in no conflict.
func (s *scores) highest(most int) []int {
	var out []int
	for i, score := range s.of {
		if score > 0 {
			out = append(out, i)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return s.of[out[a]] > s.of[out[b]] })
	return out[:min(most, len(out))]
}
