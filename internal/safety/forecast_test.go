package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func in(t testing.TB, name string, c float64) Surroundings {
	t.Helper()
	s, err := In(name, c)
	require.NoError(t, err)
	return s
}

func forecast(t testing.TB, b Body, s Surroundings, from float64) *Forecast {
	t.Helper()
	f, err := NewForecast(b, s, from)
	require.NoError(t, err)
	return f
}

// TestForecastOfAnEggMatchesTextbook: Cengel and Ghajar 5e, Problem 4-70 has an egg of 5.5 cm in
// boiling water, 8 to 60 °C, properties of water: 839 s by the whole series. With
// the properties of egg from its composition and the same film it is within a
// tenth: the two differ in k and cp, not in the arithmetic.
func TestForecastOfAnEggMatchesTextbook(t *testing.T) {
	s := Surroundings{Name: "boiling water", MediumC: 100, FilmLow: 800, FilmHigh: 800}
	f := forecast(t, Body{Composition: Composition{Water: 1}, Shape: Globe, DiameterM: 0.055}, s, 8)
	got := f.Until(60)
	assert.Equal(t, got.Slow, got.Quick, "one film, one course")
	assert.InEpsilon(t, 839.0/60, got.Mid, 0.1)
}

// TestThinFoodFollowsNewtonsLaw: what is thin follows Newton's law; 95 °C to 61 °C in
// 30 min in a room of 20 °C (a calculus problem, read) is a rate of ln(75/41)/30 =
// 0.02013 a minute, where the text prints 0.02.
func TestThinFoodFollowsNewtonsLaw(t *testing.T) {
	f := forecast(t, Body{Class: Stock, Shape: Pot, DepthM: 0.1, DiameterM: 0.1, Thin: true}, in(t, "bench", 20), 95)
	require.NoError(t, f.Measure([]Reading{{0, 95}, {30, 61}}))
	_, mid, _ := f.At(30)
	assert.InDelta(t, 61, mid, 1e-6)
	_, mid, _ = f.At(45)
	assert.InDelta(t, 20+75*math.Exp(-0.02013*45), mid, 0.01)
	// 185 °F in a room of 75 °F, 150 °F after 30 min: 141.0 °F at 40 min (a calculus text, read)
	f = forecast(t, Body{Class: Stock, Shape: Globe, DiameterM: 0.2, Thin: true}, in(t, "bench", FromF(75)), FromF(185))
	require.NoError(t, f.Measure([]Reading{{30, FromF(150)}}))
	_, mid, _ = f.At(40)
	assert.InDelta(t, FromF(141), mid, 0.05)
}

// TestThinFoodMatchesHandComputation: 10 kg of stock in a pot, by hand: tau = m cp / (U A).
func TestThinFoodMatchesHandComputation(t *testing.T) {
	b := Body{Class: Stock, Shape: Pot, DepthM: 0.15, DiameterM: 0.29, Thin: true}
	s := Surroundings{Name: "fridge", MediumC: 4, FilmLow: 7, FilmHigh: 7}
	f := forecast(t, b, s, 95)
	x, _, _ := CompositionOf(Stock)
	p, err := x.At(49.5)
	require.NoError(t, err)
	area := math.Pi*0.29*0.15 + math.Pi*0.29*0.29/2
	tau := p.Density * math.Pi * 0.29 * 0.29 / 4 * 0.15 * p.Cp / (area / (1/7.0 + 1/100.0)) / 60
	assert.InDelta(t, tau*math.Log((57.0-4)/(21-4)), f.Until(21).Mid-f.Until(57).Mid, 0.01)
	s.Stirs = true
	g := forecast(t, b, s, 95)
	assert.InEpsilon(t, f.Until(21).Mid/1.07, g.Until(21).Mid, 1e-6, "stirred, the inner film is gone")
}

// TestConductionTimeGrowsWithSquareOfDepth: where heat has to creep and the film is no hindrance, twice the
// depth takes four times as long (Dickerson and Read 1973, abstract read).
func TestConductionTimeGrowsWithSquareOfDepth(t *testing.T) {
	s := Surroundings{Name: "x", MediumC: 0, FilmLow: 5e4, FilmHigh: 5e4}
	thin := forecast(t, Body{Class: Rice, Shape: Slab, DepthM: 0.05}, s, 60)
	deep := forecast(t, Body{Class: Rice, Shape: Slab, DepthM: 0.10}, s, 60)
	assert.InEpsilon(t, 4, deep.Until(20).Mid/thin.Until(20).Mid, 0.01)
}

// TestForecastMatchesMeasuredPot: big containers as measured (Dickerson and Read 1973, abstract
// read): 8 US gal of white sauce took 25 h from 105 to 57 °F. Vessel and fridge
// are not in the abstract; a common one of the size has to give the same order.
func TestForecastMatchesMeasuredPot(t *testing.T) {
	volume := 8 * 0.003785411784
	d := math.Cbrt(4 * volume / math.Pi) // as deep as wide
	milk := Composition{0.8813, 0.0315, 0.0325, 0.0480, 0, 0.0067}
	f := forecast(t, Body{Composition: milk, Shape: Pot, DepthM: d, DiameterM: d}, in(t, "fridge", 4), FromF(105))
	hours := f.Until(FromF(57))
	assert.True(t, hours.Slow > 25*60*0.5 && hours.Quick < 25*60*1.5, "%v", hours)
}

// TestForecastStages: chilli in a 4 inch pan did not meet the code's two stages in a
// refrigerator (Olds and Sneed 2005, read); thin layers in the blast do.
func TestForecastStages(t *testing.T) {
	limits := CoolingRules(US)
	require.Len(t, limits, 2)
	pan := Body{Class: Cooked, Shape: Pan, DepthM: 0.1, LengthM: 0.32, WidthM: 0.26}
	f := forecast(t, pan, in(t, "fridge", 4), 90)
	for _, s := range f.Stages(limits) {
		assert.Equal(t, Failed, s.State, "%+v", s)
	}
	thin := pan
	thin.DepthM = 0.03
	g := forecast(t, thin, in(t, "blast", -5), 90)
	for _, s := range g.Stages(limits) {
		assert.Equal(t, Met, s.State, "%+v", s)
	}
	// The second stage is counted from 57 °C, not from 21 °C.
	stages := f.Stages(limits)
	assert.InDelta(t, f.Until(5).Mid-f.Until(57).Mid, stages[1].Took.Mid, 1e-6)
	// Food never reaches 5 °C in surroundings of 6 °C.
	warm := forecast(t, pan, in(t, "fridge", 6), 90).Stages(limits)
	assert.Equal(t, Failed, warm[1].State)
	assert.Equal(t, "from 57 °C to 5 °C in at most 6 h", warm[1].Limit.String())
	assert.Equal(t, "never", warm[1].Took.String())
	assert.Equal(t, "US FDA Food Code, 3-501.14(A)(2) (read)", warm[1].Limit.Source.String())
	// UK advice has a time and no temperature: nothing to judge by.
	uk := f.Stages(CoolingRules(UK))
	require.Len(t, uk, 1)
	assert.Equal(t, NotJudged, uk[0].State)
	assert.Empty(t, f.Stages(For(US, HoldHot, Cooked)))
}

func TestBetterWaysOfCooling(t *testing.T) {
	b := Body{Class: Stock, Shape: Pot, DepthM: 0.25, DiameterM: 0.3, Thin: true}
	f := forecast(t, b, in(t, "fridge", 3), 95)
	ways := f.Better(CoolingRules(US))
	got := map[string]bool{}
	for _, w := range ways {
		got[w.Words] = w.Meets
		assert.Len(t, w.Stages, 2)
	}
	assert.True(t, got["in an ice bath, stirred"], "%v", got)
	assert.Contains(t, got, "half the depth (250 mm now)")
	assert.False(t, got["half the depth (250 mm now)"], "a fridge alone does not cool a pot of stock: %v", got)
	joint := forecast(t, Body{Class: Lamb, Shape: Globe, DiameterM: 0.2}, in(t, "fridge", 3), 60)
	assert.Equal(t, "cut or poured into 2 of the same shape", joint.Better(CoolingRules(US))[0].Words)
	half := joint.Body.share(2)
	assert.InEpsilon(t, joint.Body.volume()/2, half.volume(), 1e-9)
	roll := Body{Shape: Roll, DiameterM: 0.1}
	assert.InEpsilon(t, roll.volume()/3, roll.share(3).volume(), 1e-9)
	assert.False(t, forecast(t, b, in(t, "fridge", 3), 95).Better(CoolingRules(UK))[0].Meets, "what can't be judged is not met")
}

func TestImpossibleForecastsAreRefused(t *testing.T) {
	fridge := in(t, "fridge", 4)
	tests := []struct {
		name string
		b    Body
		s    Surroundings
		from float64
		want string
	}{
		{"no shape", Body{Class: Rice}, fridge, 60, `no shape ""`},
		{"no depth", Body{Class: Rice, Shape: Slab}, fridge, 60, "a slab needs its depth, over 0"},
		{"depth not a number", Body{Class: Rice, Shape: Slab, DepthM: math.NaN()}, fridge, 60, "needs its depth"},
		{"no width", Body{Class: Rice, Shape: Pan, DepthM: 0.1, LengthM: 0.3}, fridge, 60, "a pan needs its width"},
		{"centimetres", Body{Class: Rice, Shape: Slab, DepthM: 5}, fridge, 60, "lengths are in metres, so 5 cm is 0.05"},
		{"no class", Body{Shape: Slab, DepthM: 0.05}, fridge, 60, `no composition for food of class ""`},
		{"an unknown class", Body{Class: "moon", Shape: Slab, DepthM: 0.05}, fridge, 60, `no composition for food of class "moon"`},
		{"Fahrenheit", Body{Class: Rice, Shape: Slab, DepthM: 0.05}, fridge, 165, "if the probe shows °F"},
		{"frozen", Body{Class: Rice, Shape: Slab, DepthM: 0.05}, fridge, -18, "freezing and thawing are not forecast"},
		{"no film", Body{Class: Rice, Shape: Slab, DepthM: 0.05}, Surroundings{MediumC: 4}, 60, "the film needs a range"},
		{"film upside down", Body{Class: Rice, Shape: Slab, DepthM: 0.05}, Surroundings{MediumC: 4, FilmLow: 9, FilmHigh: 8}, 60, "the film needs a range"},
		{"surroundings", Body{Class: Rice, Shape: Slab, DepthM: 0.05}, Surroundings{MediumC: 1000, FilmLow: 5, FilmHigh: 8}, 60, "the surroundings can't be at 1000 °C"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := NewForecast(tt.b, tt.s, tt.from)
			require.ErrorContains(t, err, tt.want)
		})
	}
	_, err := In("moon", 4)
	assert.ErrorContains(t, err, `no surroundings "moon"`)
	_, err = DepthFor(1, 0.1, NotKnown)
	assert.Error(t, err)
	_, err = DepthFor(0, 0.1, Stock)
	assert.Error(t, err)
	d, err := DepthFor(10.18, 0.1, Stock) // density 1018 kg/m³, USDA SR28 composition
	require.NoError(t, err)
	assert.InDelta(t, 0.1, d, 1e-4)
	f := forecast(t, Body{Class: Rice, Shape: Slab, DepthM: 0.05}, fridge, 60)
	assert.ErrorContains(t, f.Measure([]Reading{{10, 70}}), "70 °C does not lie between 60 °C at the start and 4 °C around it")
	assert.Error(t, f.Measure([]Reading{{10, 3}}))
	assert.NoError(t, f.Measure(nil))
	assert.NotEmpty(t, f.Assumed)
	same := forecast(t, Body{Class: Rice, Shape: Slab, DepthM: 0.05}, in(t, "bench", 20), 20)
	assert.Equal(t, Band{}, same.Until(20))
	assert.True(t, math.IsInf(same.Until(5).Mid, 1))
}

// drawBody draws a body of any shape.
func drawBody(t *rapid.T) Body {
	m := func(l string) float64 { return rapid.Float64Range(0.01, 0.4).Draw(t, l) }
	return Body{Class: rapid.SampledFrom([]Class{Rice, Stock, Lamb, Cooked, Fish}).Draw(t, "class"),
		Shape:  rapid.SampledFrom([]Shape{Slab, Pan, Pot, Roll, Globe}).Draw(t, "shape"),
		DepthM: m("depth"), LengthM: m("length"), WidthM: m("width"), DiameterM: m("diameter"), Thin: rapid.Bool().Draw(t, "thin")}
}

// TestDeeperFoodNeverCoolsSooner also checks more food and food that is warmer
// at the start.
func TestDeeperFoodNeverCoolsSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		s, _ := In(rapid.SampledFrom([]string{"fridge", "blast", "ice bath", "stirred ice bath"}).Draw(t, "in"), rapid.Float64Range(-5, 4).Draw(t, "medium"))
		from := rapid.Float64Range(60, 95).Draw(t, "from")
		was, err := NewForecast(b, s, from)
		require.NoError(t, err)
		more := b
		k := rapid.Float64Range(1, 2).Draw(t, "more")
		more.DepthM, more.DiameterM = b.DepthM*k, b.DiameterM*k
		if rapid.Bool().Draw(t, "all of it") {
			more.LengthM, more.WidthM = b.LengthM*k, b.WidthM*k
		}
		got, err := NewForecast(more, s, from)
		require.NoError(t, err)
		x, y := was.Until(21), got.Until(21)
		for _, p := range [][2]float64{{x.Slow, y.Slow}, {x.Mid, y.Mid}, {x.Quick, y.Quick}} {
			if p[1] < p[0]*(1-1e-6) {
				t.Fatalf("%v min, and deeper %v min", p[0], p[1])
			}
		}
		if x.Slow < x.Mid*(1-1e-9) || x.Mid < x.Quick*(1-1e-9) {
			t.Fatalf("the band is out of order: %v", x)
		}
		if slow, mid, quick := was.At(x.Mid); math.Abs(mid-21) > 0.01 && !math.IsInf(x.Mid, 1) || slow < mid-1e-9 || mid < quick-1e-9 {
			t.Fatalf("at %v min it should be 21 °C: %v %v %v", x.Mid, slow, mid, quick)
		}
	})
}

// TestBandIsAsWideAsReadingsDisagree: readings that agree leave a twentieth, readings that do not
// leave what they differ by.
func TestBandIsAsWideAsReadingsDisagree(t *testing.T) {
	b := Body{Class: Stock, Shape: Pot, DepthM: 0.2, DiameterM: 0.25, Thin: true}
	at := func(k, m float64) Reading { return Reading{m, 4 + 76*math.Exp(-k*m)} }
	steady := forecast(t, b, in(t, "fridge", 4), 80)
	require.NoError(t, steady.Measure([]Reading{at(0.01, 20), at(0.01, 40)}))
	u := steady.Until(21)
	assert.InDelta(t, math.Log(76.0/17)/0.01, u.Mid, 0.01)
	assert.InEpsilon(t, u.Mid*1.05, u.Slow, 1e-6)
	assert.InEpsilon(t, u.Mid/1.05, u.Quick, 1e-6)
	unsteady := forecast(t, b, in(t, "fridge", 4), 80)
	require.NoError(t, unsteady.Measure([]Reading{at(0.01, 20), at(0.02, 40)}))
	w := unsteady.Until(21)
	assert.Greater(t, w.Slow/w.Mid, 1.3)
	early := forecast(t, b, in(t, "fridge", 4), 80)
	require.NoError(t, early.Measure([]Reading{{0, 80}, {1, 79.9}}))
	assert.Equal(t, forecast(t, b, in(t, "fridge", 4), 80).Until(21), early.Until(21), "too early to tell a pace")
}

// TestReadingsCorrectTheForecast: readings computed with another film correct the
// forecast: exactly for thin food, and closer than before for other food.
func TestReadingsCorrectTheForecast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBody(t)
		film := rapid.Float64Range(3, 20).Draw(t, "true film")
		world, err := NewForecast(b, Surroundings{Name: "world", MediumC: 4, FilmLow: film, FilmHigh: film}, 80)
		require.NoError(t, err)
		s, _ := In("fridge", 4)
		f, err := NewForecast(b, s, 80)
		require.NoError(t, err)
		before := math.Abs(f.Until(21).Mid - world.Until(21).Mid)
		t50 := world.Until(50).Mid
		if math.IsInf(world.Until(21).Mid, 1) || math.IsInf(f.Until(21).Mid, 1) {
			return
		}
		require.NoError(t, f.Measure([]Reading{{0, 80}, {t50, 50}}))
		_, at50, _ := f.At(t50)
		if math.Abs(at50-50) > 0.01 {
			t.Fatalf("measured 50 °C, says %v", at50)
		}
		after := math.Abs(f.Until(21).Mid - world.Until(21).Mid)
		if after > before+0.01*world.Until(21).Mid {
			t.Fatalf("%v min off before it was measured, %v after", before, after)
		}
		if b.Thin && after > 1e-4*world.Until(21).Mid {
			t.Fatalf("Newton's law, and still %v min off", after)
		}
	})
}

func BenchmarkForecastPot(b *testing.B) {
	s, _ := In("fridge", 4)
	for b.Loop() {
		f, err := NewForecast(Body{Class: Cooked, Shape: Pot, DepthM: 0.2, DiameterM: 0.3}, s, 90)
		if err != nil {
			b.Fatal(err)
		}
		f.Stages(CoolingRules(US))
	}
}
