package plan

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/plan/rcpsp"
)

// TestSpreadHasPERTMoments compares draws with the closed form of a PERT time: mean
// (a + 4m + b)/6 (Malcolm, Roseboom, Clark and Fazar, Operations Research 7,
// 1959, from memory). The variance (b − a)²/36 of that paper is exact for a
// likeliest value at a quarter or three quarters only as an approximation; the
// beta distribution with those parameters has (mean − a)(b − mean)/7 (David
// Vose's PERT, from memory), which is what is asserted.
func TestSpreadHasPERTMoments(t *testing.T) {
	for quarter := range 5 {
		s := spread{10, 50, quarter}
		r := rcpsp.NewRandom(1)
		const n = 200_000
		var sum, squares float64
		least, most := s.high, s.low
		for range n {
			v := s.draw(r)
			least, most = min(least, v), max(most, v)
			sum, squares = sum+v, squares+v*v
		}
		assert.GreaterOrEqual(t, least, s.low)
		assert.LessOrEqual(t, most, s.high)
		mean := sum / n
		variance := squares/n - mean*mean
		m := s.low + (s.high-s.low)*float64(quarter)/4
		want := (s.low + 4*m + s.high) / 6
		assert.InDelta(t, want, s.mean(), 1e-9)
		assert.InDelta(t, want, mean, 0.1, "quarter %d", quarter)
		assert.InDelta(t, (want-s.low)*(s.high-want)/7, variance, 0.5, "quarter %d", quarter)
	}
}

// TestOrderStatisticsAreBeta: of five numbers drawn evenly from 0 to 1 the k-th
// smallest is below x with the probability that k or more of five are, which is
// the beta distribution with parameters k and 6 − k. The sum below is that
// binomial tail; it is worked out here and owes nothing to the draw.
func TestOrderStatisticsAreBeta(t *testing.T) {
	choose := [6]float64{1, 5, 10, 10, 5, 1}
	for k := 1; k <= 5; k++ {
		s := spread{0, 1, k - 1}
		r := rcpsp.NewRandom(uint64(k))
		const n = 100_000
		below := [10]int{}
		for range n {
			v := s.draw(r)
			for i := range below {
				if v < float64(i)/10 {
					below[i]++
				}
			}
		}
		for i := range below {
			x, want := float64(i)/10, 0.0
			for j := k; j <= 5; j++ {
				want += choose[j] * math.Pow(x, float64(j)) * math.Pow(1-x, float64(5-j))
			}
			assert.InDelta(t, want, float64(below[i])/n, 0.006, "k %d, x %.1f", k, x)
		}
	}
}

// chain is a plate of so many steps one after the other, each of ten to thirty
// minutes, with so many minutes left behind the last.
func chain(t testing.TB, n, left int) *Plan {
	t.Helper()
	var steps []string
	for range n {
		steps = append(steps, "Do it.; hands: 10–30 min; keep: 2 h room")
	}
	in := cook(t, galley(1, "00:00–24:00"), courses(1, "plate"), map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"1 g salt"}, steps...)})
	pl, err := in.attempt(in.chosen(), 0)
	require.NoError(t, err)
	require.Len(t, pl.project.acts, n)
	leave(pl, left)
	return pl
}

// leave plans all steps of a chain as short as they can be, so that nothing ever
// waits for its time, with so many minutes behind the last.
func leave(pl *Plan, left int) {
	n := len(pl.project.acts)
	for i := range pl.project.acts {
		pl.project.acts[i].dur, pl.project.starts[i] = 10, -left-10*n+10*i
	}
}

// TestChainAgainstClosedForm: a chain of independent steps takes the sum of
// their means, with the sum of their variances; by the central limit theorem it
// is done by its mean in half of the runs, and a deviation later in 84 of 100.
func TestChainAgainstClosedForm(t *testing.T) {
	const n, runs = 16, 4000
	s := spread{10, 30, 2}
	mean := n * (s.low + 4*20 + s.high) / 6
	deviation := math.Sqrt(n * (20.0 - s.low) * (s.high - 20.0) / 7)
	for _, tt := range []struct{ by, share float64 }{{-2, 0.023}, {-1, 0.159}, {0, 0.5}, {1, 0.841}, {2, 0.977}} {
		left := int(mean+tt.by*deviation-grace) - 10*n
		got := chain(t, n, left).Chances(runs, 7).Courses[0]
		// Minutes are whole and the sum is not quite normal.
		assert.InDelta(t, tt.share, got.OnTime, 0.035, "%g deviations", tt.by)
	}
	late := chain(t, n, 0).Chances(runs, 7).Courses[0].Late
	assert.InDelta(t, mean-10*n+1.645*deviation, float64(late), 4, "nineteen runs of twenty are not later")
}

// TestSameSeedGivesSameChances also checks that another seed gives nearly the
// same.
func TestSameSeedGivesSameChances(t *testing.T) {
	pl, err := Make(supper(t, 18))
	require.NoError(t, err)
	one := pl.Chances(300, 42)
	assert.Equal(t, one, pl.Chances(300, 42))
	other := pl.Chances(300, 43)
	for i := range one.Courses {
		assert.InDelta(t, one.Courses[i].OnTime, other.Courses[i].OnTime, 0.1)
		assert.Equal(t, pl.Courses[i].Name, one.Courses[i].Name)
	}
	for _, d := range one.Decide {
		assert.GreaterOrEqual(t, d.Helped, d.Before, "ten minutes more never hurt")
	}
	assert.Equal(t, Chances{Courses: []CourseChance{{"Bread", 1, 0}, {"Soup", 1, 0}, {"Trout", 1, 0}, {"Lamb", 1, 0}, {"Strawberries", 1, 0}}}, pl.Chances(0, 1))
}

// TestMoreSlackNeverLowersChances: the more minutes lie behind the last step, the likelier
// the course is on time.
func TestMoreSlackNeverLowersChances(t *testing.T) {
	plans := map[int]*Plan{}
	for n := 1; n <= 6; n++ {
		plans[n] = chain(t, n, 0)
	}
	rapid.Check(t, func(r *rapid.T) {
		n, seed := rapid.IntRange(1, 6).Draw(r, "steps"), rapid.Uint64().Draw(r, "seed")
		before := -1.0
		for left := 0; left <= 20*n; left += 5 {
			leave(plans[n], left)
			got := plans[n].Chances(40, seed).Courses[0].OnTime
			if got < before {
				r.Fatalf("%d minutes in hand: %g, with five fewer %g", left, got, before)
			}
			before = got
		}
		if before != 1 {
			r.Fatalf("with all the time it may take it is on time in %g", before)
		}
	})
}

// TestDecidersAreNamedAndHelp checks that the step that makes a course late is
// named, and that more time for it helps.
func TestDecidersAreNamedAndHelp(t *testing.T) {
	in := cook(t, galley(2, "00:00–24:00", "oven: 1"), courses(1, "plate"), map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"1 g salt"},
		"Bake.; oven: 200 °C; hands: 5 min; wait: 20–60 min; keep: straight on", "Send.; hands: 5 min; serve")})
	pl, err := in.attempt(in.chosen(), 0)
	require.NoError(t, err)
	got := pl.Chances(400, 1)
	require.NotEmpty(t, got.Decide)
	assert.Equal(t, Step{"plate", 1, 1}, got.Decide[0].Step, fmt.Sprint(got.Decide))
	assert.Greater(t, got.Decide[0].Share, 0.9)
	assert.Less(t, got.Courses[0].OnTime, 1.0)
	assert.Greater(t, got.Decide[0].Helped, got.Decide[0].Before)
}

// TestCollisionsAreNamed has two cooks who bake one after the other in an oven with one
// shelf: where the first bake may take longer, they meet there as often as it does.
func TestCollisionsAreNamed(t *testing.T) {
	for _, tt := range []struct {
		wait string
		meet bool
	}{{"20–60 min", true}, {"20 min", false}} {
		in := cook(t, galley(2, "00:00–24:00", "oven: 1, 1 shelf"), courses(1, "a", "b 27 min"), map[string]string{
			"a": recipe("A", "makes: 1 plate", []string{"1 g salt"}, "Bake.; oven: 200 °C; hands: 1 min; wait: "+tt.wait+"; serve"),
			"b": recipe("B", "makes: 1 plate", []string{"1 g salt"}, "Bake.; oven: 200 °C; hands: 1 min; wait: 25 min; serve")})
		pl, err := in.attempt(in.chosen(), 0)
		require.NoError(t, err)
		require.Len(t, pl.Tasks, 2)
		got := pl.Chances(400, 1)
		if !tt.meet {
			assert.Empty(t, got.Collide)
			continue
		}
		require.Len(t, got.Collide, 1)
		c := got.Collide[0]
		assert.Equal(t, Collision{Step{"a", 1, 1}, Step{"b", 1, 1}, "oven", c.Share}, c)
		late := 0 // the same runs, counted by the time that the first bake takes
		g := newGame(pl)
		first := pl.project.spans[Step{"a", 1, 1}].last
		for run := range 400 {
			g.play(1, run, -1)
			if g.begin[first]+g.took[first] > float64(pl.project.starts[pl.project.spans[Step{"b", 1, 1}].first]+grace) {
				late++
			}
		}
		assert.InDelta(t, float64(late)/400, c.Share, 1e-9)
		assert.Greater(t, c.Share, 0.02)
		assert.Contains(t, pl.CollisionText(c), "A, step 1 and B, step 1 want the same place at the oven in ")
	}
}
