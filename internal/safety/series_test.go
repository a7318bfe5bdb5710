package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestRootsMatchPublishedTable: Cengel and Ghajar, Heat and Mass Transfer, Table 4-2, row by
// row: the first root and coefficient at 30 Biot numbers for the three shapes.
func TestRootsMatchPublishedTable(t *testing.T) {
	shapes := []struct {
		s    shape
		name string
	}{{wall, "wall"}, {cylinder, "cyl"}, {ball, "sph"}}
	for _, r := range rows(t, "one_term.csv") {
		if r["Bi"] == "inf" || r["Bi"] == "" {
			continue
		}
		for _, s := range shapes {
			got := solve(s.s, num(t, r["Bi"]))
			assert.InDelta(t, num(t, r[s.name+"_zeta1"]), math.Sqrt(got.zeta2[0]), 0.00016, "%s, Bi %s", s.name, r["Bi"])
			assert.InDelta(t, num(t, r[s.name+"_C1"]), got.c[0], 0.00016, "%s, Bi %s", s.name, r["Bi"])
			assert.InDelta(t, num(t, r[s.name+"_zeta1_exact"]), math.Sqrt(got.zeta2[0]), 1e-6, "%s, Bi %s", s.name, r["Bi"])
			assert.InDelta(t, num(t, r[s.name+"_C1_exact"]), got.c[0], 1e-6, "%s, Bi %s", s.name, r["Bi"])
		}
	}
}

// TestNoRootIsLeftOut: each root solves its equation and they rise by about pi;
// a root left out would leave a gap of two.
func TestNoRootIsLeftOut(t *testing.T) {
	for _, s := range []shape{wall, cylinder, ball} {
		for _, biot := range []float64{0.001, 0.1, 1, 7, 100, 1e5} {
			got := solve(s, biot)
			for i := range terms {
				z := math.Sqrt(got.zeta2[i])
				switch s {
				case wall:
					assert.InDelta(t, 0, z*math.Sin(z)-biot*math.Cos(z), 1e-8*(1+biot))
				case cylinder:
					assert.InDelta(t, 0, z*math.J1(z)-biot*math.J0(z), 1e-8*(1+biot))
				case ball:
					assert.InDelta(t, 0, (1-biot)*math.Sin(z)-z*math.Cos(z), 1e-8*(1+biot))
				}
				if i > 0 {
					step := z - math.Sqrt(got.zeta2[i-1])
					assert.True(t, step > 2 && step < 4.6, "shape %d, Bi %v, root %d: a step of %v", s, biot, i, step)
				}
			}
		}
	}
}

// TestSeriesMatchesWorkedExamples: textbook problems with the answers of the whole series.
func TestSeriesMatchesWorkedExamples(t *testing.T) {
	tests := []struct {
		name                       string
		h, l, k, alpha, from, m, c float64
		want, within               float64 // seconds, and the share it may differ by
	}{
		{"Cengel, Example 4-4: a 5 cm egg; published 865 s, from memory", 1200, 0.025, 0.627, 1.51e-7, 5, 95, 70, 865, 0.006},
		{"the same, 60 terms, computed", 1200, 0.025, 0.627, 1.51e-7, 5, 95, 70, 861.5, 0.0002},
		{"Cengel and Ghajar 5e, Problem 4-70, read; 60 terms, computed", 800, 0.0275, 0.607, 1.46e-7, 8, 100, 60, 839.0, 0.0002},
		{"the same to 74 °C, computed", 800, 0.0275, 0.607, 1.46e-7, 4.3, 100, 74, 1104.5, 0.0002},
		{"Cengel, Thermal-Fluid Sciences, an egg, read; 60 terms, computed", 1400, 0.0275, 0.6, 1.4e-7, 8, 97, 70, 1062.5, 0.0002},
		{"Singh and Heldman, Example 4.26: an apple, read; 60 terms, computed", 50, 0.03, 0.355, 1.2025745257452573e-7, 15, 2, 3, 3777.7, 0.0002},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := solve(ball, tt.h*tt.l/tt.k)
			theta := (tt.c - tt.m) / (tt.from - tt.m)
			fo := bisect(soonest, 20, func(f float64) float64 { return theta - s.at(f) })
			assert.InEpsilon(t, tt.want, fo*tt.l*tt.l/tt.alpha, tt.within)
		})
	}
}

// TestSeriesMatchesFiniteDifferences: an answer by another way, a fine grid in space and
// time, to 0.1 °C of a fall of 100 °C.
func TestSeriesMatchesFiniteDifferences(t *testing.T) {
	for _, s := range []shape{wall, cylinder, ball} {
		assert.InDelta(t, grid(s, 1, 0.3, 30), grid(s, 1, 0.3, 120), 0.001, "shape %d: a finer grid says the same to 0.1 °C of 100", s)
		for _, biot := range []float64{0.05, 1, 20} {
			got := solve(s, biot)
			for _, fo := range []float64{0.02, 0.1, 0.5, 1.5} {
				assert.InDelta(t, grid(s, biot, fo, 60), got.at(fo), 0.001, "shape %d, Bi %v, Fo %v", s, biot, fo)
			}
		}
	}
}

// grid is explicit finite volumes on n shells: another way to the centre.
func grid(s shape, biot, fourier float64, n int) float64 {
	all := gridCourse(s, biot, fourier, n)
	return all[len(all)-1]
}

// gridCourse returns theta at the centre after each of the equal steps up to a Fourier number.
func gridCourse(s shape, biot, fourier float64, n int) []float64 {
	var out []float64
	d := float64(s) // 0 wall, 1 cylinder, 2 ball: area grows as r^d
	dr := 1 / float64(n)
	theta := make([]float64, n)
	for i := range theta {
		theta[i] = 1
	}
	area, volume := make([]float64, n), make([]float64, n)
	for i := range n {
		a, b := float64(i)*dr, float64(i+1)*dr
		area[i], volume[i] = math.Pow(a, d), (math.Pow(b, d+1)-math.Pow(a, d+1))/(d+1)
	}
	steps := int(math.Ceil(fourier / (0.2 * dr * dr)))
	dt := fourier / float64(steps)
	next := make([]float64, n)
	for range steps {
		for i := range theta {
			flow := 0.0
			if i > 0 {
				flow += area[i] * (theta[i-1] - theta[i]) / dr
			}
			if i < n-1 {
				flow += area[i+1] * (theta[i+1] - theta[i]) / dr
			} else {
				flow -= theta[i] / (1/biot + dr/2)
			}
			next[i] = theta[i] + dt*flow/volume[i]
		}
		theta, next = next, theta
		out = append(out, theta[0])
	}
	return out
}

// TestEarlyTimesMatchSolutionByImages: soon after the start the centre of a ball whose
// surface takes the new temperature at once is at theta = 1 − 2/√(π Fo) Σ
// exp(−(2n+1)²/(4 Fo)), the solution by images (Carslaw and Jaeger, section 9.3, from
// memory; the limit of their error functions at the centre was worked out here).
func TestEarlyTimesMatchSolutionByImages(t *testing.T) {
	s := solve(ball, 1e8)
	for _, fo := range []float64{0.001, 0.0031, 0.01, 0.02, 0.028, 0.05, 0.1, 0.3} {
		sum := 0.0
		for n := range 20 {
			m := float64(2*n + 1)
			sum += math.Exp(-m * m / (4 * fo))
		}
		assert.InDelta(t, 1-2/math.Sqrt(math.Pi*fo)*sum, s.at(fo), 1e-6, "Fo %v", fo)
	}
}

// TestThetaNeverRises: theta never rises with time, nor with a better film.
func TestThetaNeverRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]shape{wall, cylinder, ball}).Draw(t, "shape")
		biot := math.Pow(10, rapid.Float64Range(-3, 4).Draw(t, "log Bi"))
		fo := rapid.Float64Range(0, 3).Draw(t, "Fo")
		a, b := solve(s, biot), solve(s, biot*1.5)
		if a.at(fo*1.1) > a.at(fo)+1e-9 {
			t.Fatalf("later it is warmer: %v, %v", a.at(fo), a.at(fo*1.1))
		}
		if b.at(fo) > a.at(fo)+1e-9 {
			t.Fatalf("with a better film it is warmer: %v, %v", a.at(fo), b.at(fo))
		}
	})
}

// TestPropertiesMatchPublishedFoods: the properties of 36 foods of USDA SR28 at 20 °C, computed with
// another program from the coefficients read.
func TestPropertiesMatchPublishedFoods(t *testing.T) {
	for _, r := range rows(t, "foods.csv") {
		x := Composition{num(t, r["water"]), num(t, r["protein"]), num(t, r["fat"]), num(t, r["carbohydrate_total"]) - num(t, r["fibre"]), num(t, r["fibre"]), num(t, r["ash"])}
		got, err := x.At(20)
		require.NoError(t, err, r["food"])
		assert.InDelta(t, num(t, r["cp_choi_okos_20C_kJ_kgK"]), got.Cp/1000, 0.0006, r["food"])
		assert.InDelta(t, num(t, r["k_choi_okos_20C_W_mK"]), got.K, 0.0006, r["food"])
		assert.InDelta(t, num(t, r["rho_choi_okos_20C_kg_m3"]), got.Density, 0.6, r["food"])
		assert.InEpsilon(t, num(t, r["alpha_20C_m2_s"]), got.Alpha(), 0.0006, r["food"])
	}
	// The components alone at 20 and 60 °C, as the handbook's coefficients give them.
	pure := []struct {
		x                               Composition
		cp20, k20, rho20, cp60, k60, r6 float64
	}{
		{Composition{Protein: 1}, 2.0319, 0.2016, 1319.53, 2.0760, 0.2408, 1298.80},
		{Composition{Fat: 1}, 2.0117, 0.1751, 917.24, 2.0553, 0.1635, 900.54},
		{Composition{Carbohydrate: 1}, 1.5857, 0.2274, 1592.89, 1.6452, 0.2691, 1580.47},
		{Composition{Fibre: 1}, 1.8807, 0.2070, 1304.18, 1.9390, 0.2469, 1289.55},
		{Composition{Ash: 1}, 1.1289, 0.3565, 2418.19, 1.1927, 0.4032, 2406.96},
		{Composition{Water: 1}, 4.1293, 0.6037, 995.74, 4.1432, 0.6527, 983.84},
	}
	for _, p := range pure {
		a, err := p.x.At(20)
		require.NoError(t, err)
		b, err := p.x.At(60)
		require.NoError(t, err)
		for i, pair := range [][2]float64{{p.cp20, a.Cp / 1000}, {p.k20, a.K}, {p.rho20, a.Density}, {p.cp60, b.Cp / 1000}, {p.k60, b.K}, {p.r6, b.Density}} {
			assert.InDelta(t, pair[0], pair[1], []float64{6e-5, 6e-5, 6e-3}[i%3], "%+v, value %d", p.x, i)
		}
	}
	for _, bad := range []Composition{{}, {Water: 2}, {Water: -0.1, Fat: 1.1}, {Water: math.NaN()}, {Water: 0.5}} {
		_, err := bad.At(20)
		assert.Error(t, err)
	}
	_, err := Composition{Water: 1}.At(-5)
	assert.ErrorContains(t, err, "frozen")
	for c := range compositions {
		x, is, ok := CompositionOf(c)
		require.True(t, ok)
		_, err := x.At(20)
		assert.NoError(t, err, c)
		assert.NotEmpty(t, is)
		assert.True(t, c.known())
	}
	_, _, ok := CompositionOf(NotKnown)
	assert.False(t, ok, "no number where there is no basis")
}
