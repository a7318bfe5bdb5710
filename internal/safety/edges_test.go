package safety

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Areas and volumes by the formulas of solid geometry.
func TestSurfaceAndVolumeOfEachShape(t *testing.T) {
	for _, tt := range []struct {
		b               Body
		surface, volume float64
	}{
		{Body{Shape: Slab, DepthM: 0.05}, 2, 0.05}, // of a square metre
		{Body{Shape: Pan, DepthM: 0.1, LengthM: 0.2, WidthM: 0.3}, 0.22, 0.006},
		{Body{Shape: Pot, DepthM: 0.1, DiameterM: 0.2}, math.Pi*0.2*0.1 + 2*math.Pi*0.01, math.Pi * 0.001},
		{Body{Shape: Roll, DiameterM: 0.2}, math.Pi * 0.2, math.Pi * 0.01}, // of a metre
		{Body{Shape: Globe, DiameterM: 0.2}, math.Pi * 0.04, 4.0 / 3 * math.Pi * 0.001},
	} {
		assert.InDelta(t, tt.surface, tt.b.surface(), 1e-12, tt.b.Shape)
		assert.InDelta(t, tt.volume, tt.b.volume(), 1e-12, tt.b.Shape)
	}
}

// Lengths from a millimetre to three metres, surroundings from a freezer's −60 °C
// to an oven's 300 °C: common practice, no source.
func TestEndsOfWhatIsForecast(t *testing.T) {
	for m, ok := range map[float64]bool{0.001: true, 0.0009: false, 3: true, 3.01: false} {
		assert.Equal(t, ok, Body{Class: Rice, Shape: Slab, DepthM: m}.check() == nil, "%v m", m)
	}
	for c, ok := range map[float64]bool{-60: true, -60.1: false, 300: true, 300.1: false} {
		_, err := NewForecast(Body{Class: Rice, Shape: Slab, DepthM: 0.05}, Surroundings{MediumC: c, FilmLow: 5, FilmHigh: 10}, 60)
		assert.Equal(t, ok, err == nil, "%v °C", c)
	}
	for m, ok := range map[float64]bool{-450: true, -451: false, 9000: true, 9001: false} {
		_, err := BoilingC(m)
		assert.Equal(t, ok, err == nil, "%v m", m)
	}
	// A forecast gives up after ten days. By Newton's law what is thin falls to 1/e of
	// its difference in tau = rho cp V / (U A), with 1/U = 1/film + 1/innerFilm; V/A of
	// a pot as deep as it is wide is a sixth of its width.
	p, err := Composition{Water: 1}.At(45)
	require.NoError(t, err)
	for days, reached := range map[float64]bool{9.99: true, 10.01: false} {
		u := p.Density * p.Cp / 6 / (days * 86400)
		film := 1 / (1/u - 1/innerFilm)
		f := forecast(t, Body{Composition: Composition{Water: 1}, Shape: Pot, DepthM: 1, DiameterM: 1, Thin: true}, Surroundings{Name: "x", FilmLow: film, FilmHigh: film}, 90)
		assert.Equal(t, reached, !math.IsInf(f.Until(90/math.E).Mid, 1), "%v days", days)
	}
}

// The properties of food are taken at the mean of its temperature and that of the
// surroundings, between 0 and 100 °C.
func TestPropertiesAreTakenAtTheMeanTemperature(t *testing.T) {
	for _, tt := range []struct{ from, medium, mean float64 }{{90, 4, 47}, {20, -40, 0}, {90, 200, 100}, {60, 0, 30}} {
		f := forecast(t, Body{Class: Rice, Shape: Slab, DepthM: 0.05}, Surroundings{Name: "x", MediumC: tt.medium, FilmLow: 5, FilmHigh: 10}, tt.from)
		assert.Contains(t, strings.Join(f.Assumed, "; "), "properties at "+Celsius(tt.mean)+" all along")
	}
}

// Readings that set the pace of a forecast: from 80 °C in surroundings of 4 °C, so
// that a share of the difference is (c − 4)/76. A fiftieth above the start and a
// five-hundredth above the surroundings are within what a probe errs by: common
// practice, no source.
func TestReadingsThatSetThePace(t *testing.T) {
	b := Body{Class: Stock, Shape: Pot, DepthM: 0.2, DiameterM: 0.25, Thin: true}
	plain := forecast(t, b, in(t, "fridge", 4), 80).Until(21)
	for _, tt := range []struct {
		share        float64
		refused, set bool
	}{
		{1.03, true, false}, {1.021, true, false}, {1.019, false, false}, {0.981, false, false}, {0.979, false, true}, {0.5, false, true},
		{0.0025, false, true}, {0.0019, true, false},
	} {
		f := forecast(t, b, in(t, "fridge", 4), 80)
		err := f.Measure([]Reading{{30, 4 + 76*tt.share}})
		assert.Equal(t, tt.refused, err != nil, "%v", tt.share)
		assert.Equal(t, tt.set, f.Until(21) != plain, "%v", tt.share)
	}
}

// Every way to cool more quickly is the forecast that its words name.
func TestBetterWaysMatchTheirForecasts(t *testing.T) {
	b := Body{Class: Stock, Shape: Pot, DepthM: 0.2, DiameterM: 0.25, Thin: true}
	limits := CoolingRules(US)
	f := forecast(t, b, in(t, "fridge", 3), 90)
	half, third := b, b
	half.DepthM, third.DepthM = 0.1, 0.2/3
	want := map[string]*Forecast{
		"half the depth (200 mm now)":                     forecast(t, half, in(t, "fridge", 3), 90),
		"a third of the depth, in 3 vessels (200 mm now)": forecast(t, third, in(t, "fridge", 3), 90),
		"in an ice bath":                                  forecast(t, b, in(t, "ice bath", 0), 90),
		"in an ice bath, stirred":                         forecast(t, b, in(t, "stirred ice bath", 0), 90),
		"in a blast chiller at −5 °C":                     forecast(t, b, in(t, "blast", -5), 90),
		"half the depth, in an ice bath (200 mm now)":     forecast(t, half, in(t, "ice bath", 0), 90),
	}
	ways := f.Better(limits)
	require.Len(t, ways, len(want))
	for _, w := range ways {
		require.NotNil(t, want[w.Words], w.Words)
		assert.Equal(t, want[w.Words].Stages(limits), w.Stages, w.Words)
	}
	words := func(f *Forecast) (out []string) {
		for _, w := range f.Better(limits) {
			out = append(out, w.Words)
		}
		return out
	}
	assert.NotContains(t, words(forecast(t, b, in(t, "ice bath", 0), 90)), "in an ice bath", "it is in one")
	assert.NotContains(t, words(forecast(t, b, in(t, "stirred ice bath", 0), 90)), "in an ice bath, stirred")
	assert.NotContains(t, words(forecast(t, b, in(t, "blast", -5), 90)), "in a blast chiller at −5 °C")
	b.Thin = false
	assert.NotContains(t, words(forecast(t, b, in(t, "fridge", 3), 90)), "in an ice bath, stirred", "what is thick is not stirred by itself")
}

// What a log is asked about. A rise of more than 20 K in food that only cools, to
// within 10 K of the last reading once it is taken as °F, is doubted: own working
// rule, no source.
func TestEndsOfWhatIsDoubted(t *testing.T) {
	for _, tt := range []struct {
		name    string
		log     []Reading
		counted int
	}{
		{"a rise of 9.9 K", []Reading{{0, 5}, {1, 14.9}}, 2},
		{"a rise of 10.1 K, −9.4 °C if it was °F", []Reading{{0, 5}, {1, 15.1}}, 1},
		{"58.9 °F are 14.9 °C", []Reading{{0, 5}, {1, 58.9}}, 1},
		{"59.1 °F are 15.1 °C, over 10 K away", []Reading{{0, 5}, {1, 59.1}}, 2},
		{"said again within 5 K", []Reading{{0, 12}, {1, 50}, {2, 55}}, 2},
		{"said again, and 5.5 K away", []Reading{{0, 12}, {1, 50}, {2, 55.5}}, 1},
		{"a minute from now", []Reading{{101, 5}}, 1},
		{"more than a minute from now", []Reading{{101.1, 5}}, 0},
	} {
		counted, doubts := Sift(tt.log, 100, Expected{Falling: true})
		assert.Len(t, counted, tt.counted, tt.name)
		assert.Len(t, doubts, len(tt.log)-tt.counted, tt.name)
	}
	// °F is offered as the reason only above the hottest core there is.
	_, doubts := Sift([]Reading{{0, 110.5}}, 1, Expected{})
	require.Len(t, doubts, 1)
	assert.InDelta(t, FromF(110.5), doubts[0].AsC, 1e-9)
	_, doubts = Sift([]Reading{{0, -100}}, 1, Expected{})
	require.Len(t, doubts, 1)
	assert.True(t, math.IsNaN(doubts[0].AsC), "−73.3 °C would be plausible, and nobody cools food in °F that far")
}
