package safety

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestParseVessel(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want Vessel
	}{
		{"cooling: 4 kg stock, thin, 12 cm deep, 30 cm across, in an ice bath", Vessel{Class: Stock, Kg: 4, Thin: true, DepthM: 0.12, AcrossM: 0.30, Place: "ice bath"}},
		{"4 L chicken stock, in the fridge at 4 °C, from 85 °C", Vessel{Class: Stock, Kg: 4, Place: "fridge", PlaceC: 4, HasPlace: true, FromC: 85, HasFrom: true}},
		{"500 g rice, 3 cm deep, 53 × 33 cm", Vessel{Class: Rice, Kg: 0.5, DepthM: 0.03, LengthM: 0.53, WidthM: 0.33}},
		{"2,5 kg, as lamb, 2 in deep", Vessel{Class: Lamb, Kg: 2.5, DepthM: 0.0508}}, // the inch is 25.4 mm by definition
		{"10 lb pork, a roll, 90 mm across", Vessel{Class: Pork, Kg: 4.5359237, Roll: true, AcrossM: 0.09}},
		{"beef, a ball, 12 cm across, blast chiller at −8 °C", Vessel{Class: Beef, Ball: true, AcrossM: 0.12, Place: "blast", PlaceC: -8, HasPlace: true}},
		{"stock, thick, 6 cm deep, ice bath, stirred", Vessel{Class: Stock, Thick: true, DepthM: 0.06, Place: "stirred ice bath"}},
		{"milk, 20 cm across, 3 kg, from 185 °F", Vessel{Class: Stock, Thin: true, Kg: 3, AcrossM: 0.2, FromC: 85, HasFrom: true}}, // (185 - 32) × 5/9
		{"cooked food, on the bench at 18 °C", Vessel{Class: Cooked, Place: "bench", PlaceC: 18, HasPlace: true}},
		{"", Vessel{}},
	} {
		got, err := ParseVessel(tt.in)
		require.NoError(t, err, tt.in)
		assert.InDelta(t, tt.want.FromC, got.FromC, 1e-9, tt.in)
		assert.InDelta(t, tt.want.Kg, got.Kg, 1e-9, tt.in)
		got.FromC, got.Kg = tt.want.FromC, tt.want.Kg
		assert.Equal(t, tt.want, got, tt.in)
	}
	for in, want := range map[string]string{
		"6 cm":             `"6 cm": is that how deep it is, or how wide? say 6 cm deep or 6 cm across`,
		"4 barrels":        `"4 barrels": write a mass like 4 kg, a length like 6 cm deep or 30 cm across`,
		"53 × wide cm":     `"53 × wide cm": write a tray like 53 × 33 cm`,
		"0 cm deep":        `"0 cm deep": nothing is that small; write a figure over 0, or leave it out`,
		"0 kg stock":       `"0 kg stock": nothing is that small`,
		"53 × 0 cm":        `"53 × 0 cm": write a tray like 53 × 33 cm`,
		"from hot":         `"from hot": write it like from 85 °C`,
		"in the fridge at": `"in the fridge at" is not understood`,
		"fridge at cold":   `"fridge at cold": write it like fridge at 4 °C`,
		"zzyzx":            `"zzyzx" is not understood: say what it is`,
		"4 kg zzyzx":       `"zzyzx" is not understood: say what it is`,
	} {
		_, err := ParseVessel(in)
		require.Error(t, err, in)
		assert.True(t, strings.HasPrefix(err.Error(), want), "%s: %s", in, err)
	}
}

// TestVesselTextRoundTrip writes a vessel and reads the same vessel back.
func TestVesselTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string) float64 { return float64(rapid.IntRange(0, 900).Draw(t, name)) / 1000 }
		v := Vessel{
			Class: rapid.SampledFrom(append(Classes(), NotKnown)).Draw(t, "class"), Kg: float64(rapid.IntRange(0, 50000).Draw(t, "g")) / 1000, DepthM: length("depth"), AcrossM: length("across"),
			Roll: rapid.Bool().Draw(t, "roll"), Thin: rapid.Bool().Draw(t, "thin"), Place: rapid.SampledFrom([]string{"", "fridge", "bench", "blast", "ice bath", "stirred ice bath"}).Draw(t, "place"),
		}
		v.Thick = !v.Thin && rapid.Bool().Draw(t, "thick")
		if v.Place != "" && rapid.Bool().Draw(t, "warm") {
			v.HasPlace, v.PlaceC = true, float64(rapid.IntRange(-20, 25).Draw(t, "c"))
		}
		if rapid.Bool().Draw(t, "from") {
			v.HasFrom, v.FromC = true, float64(rapid.IntRange(0, 100).Draw(t, "f"))
		}
		if v.Roll {
			v.DepthM = 0 // a roll has its thickness alone
		}
		if l := length("length"); l > 0 && v.AcrossM == 0 && !v.Roll {
			v.LengthM, v.WidthM = l, l/2
		}
		got, err := ParseVessel(v.String())
		if err != nil {
			t.Fatalf("%q: %v", v.String(), err)
		}
		for _, d := range []float64{got.DepthM - v.DepthM, got.AcrossM - v.AcrossM, got.LengthM - v.LengthM, got.WidthM - v.WidthM, got.Kg - v.Kg} {
			if math.Abs(d) > 0.6e-5 {
				t.Fatalf("%q: %+v", v.String(), got)
			}
		}
		v.DepthM, v.AcrossM, v.LengthM, v.WidthM, v.Kg = got.DepthM, got.AcrossM, got.LengthM, got.WidthM, got.Kg
		if got != v {
			t.Fatalf("%q: %+v, not %+v", v.String(), got, v)
		}
	})
}

func TestVesselAssumesWhatIsLeftOpen(t *testing.T) {
	note, err := ParseVessel("30 cm across, in an ice bath")
	require.NoError(t, err)
	got := note.Over(Vessel{Class: Stock, Kg: 4, DepthM: 0.05, Thin: true, Place: "fridge", PlaceC: 5, HasPlace: true, FromC: 85, HasFrom: true})
	assert.Equal(t, Vessel{Class: Stock, Kg: 4, AcrossM: 0.30, Thin: true, Place: "ice bath", FromC: 85, HasFrom: true}, got, "the shape is one thing, and so is the place with its temperature")

	// 4 kg of stock in a pot 30 cm wide: 4 / (1010 × π/4 × 0.3²) = 5.6 cm.
	b, assumed, err := got.Body()
	require.NoError(t, err)
	assert.Equal(t, Pot, b.Shape)
	assert.InDelta(t, 0.056, b.DepthM, 0.0005)
	assert.Contains(t, assumed, "5.6 cm deep, by its mass")
	// In one pot as deep as it is wide: 4 kg fill 3.96 L, a cube root of 4 V / π = 17.1 cm.
	b, assumed, err = Vessel{Class: Stock, Kg: 4, Thin: true}.Body()
	require.NoError(t, err)
	assert.InDelta(t, 0.171, b.DiameterM, 0.001)
	assert.Equal(t, b.DepthM, b.DiameterM)
	assert.Contains(t, assumed, "in one pot as deep as it is wide, 17.1 cm")
	b, assumed, err = Vessel{Class: Lamb, Kg: 2}.Body()
	require.NoError(t, err)
	assert.Equal(t, Body{Class: Lamb, Shape: Slab, DepthM: 0.05}, b)
	assert.Contains(t, assumed, "spread 5 cm deep in wide trays (common practice, no source)")

	for want, v := range map[string]Vessel{
		"what food is it?":                          {Kg: 4},
		"what food is it? say":                      {Kg: 4, Class: Bones},
		"say how deep it is, or what it weighs":     {Class: Stock},
		"how thick is it?":                          {Class: Pork, Roll: true},
		"a tray has a length and a width":           {Class: Pork, LengthM: 0.5, Kg: 1},
		"a pot needs its depth, over 0":             {Class: Pork, AcrossM: 0.5, DepthM: math.NaN()},
		"is not a mass of food":                     {Class: Pork, Kg: -1},
		"a depth of 30 m is not plausible for food": {Class: Pork, DepthM: 30},
	} {
		_, _, err := v.Body()
		require.Error(t, err, want)
		assert.Contains(t, err.Error(), want)
	}
	_, _, err = Vessel{Place: "oven"}.Around()
	assert.EqualError(t, err, "how warm is the oven? say oven at 80 °C")
	_, _, err = Vessel{Place: "moon", HasPlace: true}.Around()
	assert.ErrorContains(t, err, `no surroundings "moon"`)
}

func TestCoolingWait(t *testing.T) {
	// With only the food, its mass and the fridge there is an answer, which
	// lists what was assumed.
	w, ok := CoolingWait(Vessel{Class: Lamb, Kg: 2, Place: "fridge"}, 5)
	require.True(t, ok)
	assert.Contains(t, w.Assumed, "spread 5 cm deep in wide trays (common practice, no source)")
	assert.Contains(t, w.Assumed, "the fridge at 3 °C")
	assert.Contains(t, w.Assumed, "off the boil: 90 °C at the start")
	assert.LessOrEqual(t, w.Minutes.Quick, w.Minutes.Mid)
	assert.LessOrEqual(t, w.Minutes.Mid, w.Minutes.Slow)
	// The wait is that of the forecast.
	in, _ := In("fridge", 3)
	f, err := NewForecast(Body{Class: Lamb, Shape: Slab, DepthM: 0.05}, in, 90)
	require.NoError(t, err)
	assert.Equal(t, f.Until(5), w.Minutes)

	for _, tt := range []struct {
		v    Vessel
		toC  float64
		want string
	}{
		{Vessel{Kg: 2}, 5, "what food is it?"},
		{Vessel{Class: Lamb}, 5, "say how deep it is"},
		{Vessel{Class: Lamb, Kg: 2, Place: "bench"}, 5, "in the bench at 20 °C it does not get to 5 °C"},
		{Vessel{Class: Lamb, Kg: 2, Place: "fridge", PlaceC: 6, HasPlace: true}, 5, "does not get to 5 °C"},
		{Vessel{Class: Lamb, Kg: 2, Place: "fridge", PlaceC: 95, HasPlace: true}, 5, "does not get to 5 °C"},
		{Vessel{Class: Lamb, Kg: 2, FromC: 300, HasFrom: true}, 5, "can't be at 300 °C"},
	} {
		w, ok := CoolingWait(tt.v, tt.toC)
		assert.False(t, ok)
		assert.Contains(t, w.Why, tt.want)
	}
}

// TestMoreFoodWaitsLonger checks that more food, or deeper food, is never cold
// sooner.
func TestMoreFoodWaitsLonger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vessel{Class: rapid.SampledFrom([]Class{Stock, Lamb, Rice, Vegetable}).Draw(t, "class"), Kg: rapid.Float64Range(0.5, 20).Draw(t, "kg"),
			Thin: rapid.Bool().Draw(t, "thin"), Place: rapid.SampledFrom([]string{"fridge", "ice bath", "blast", "stirred ice bath"}).Draw(t, "place")}
		more := v
		more.Kg *= rapid.Float64Range(1, 4).Draw(t, "times")
		a, ok := CoolingWait(v, 5)
		b, ok2 := CoolingWait(more, 5)
		if ok2 && !ok || ok && ok2 && b.Minutes.Slow < a.Minutes.Slow-1e-6 {
			t.Fatalf("%v kg: %v; %v kg: %v", v.Kg, a.Minutes, more.Kg, b.Minutes)
		}
	})
}

func TestVesselOf(t *testing.T) {
	assert.Equal(t, Vessel{Class: Stock, Kg: 4, Place: "ice bath", Thin: true}, VesselOf("Light chicken stock", []string{"ice bath"}, "Strain.", 4, NotKnown))
	assert.Equal(t, Vessel{Class: Stock, Kg: 1, Place: "fridge", Thin: true}, VesselOf("Rhubarb juice", []string{"fridge"}, "", 1, NotKnown))
	assert.Equal(t, Vessel{Class: Fish, Kg: 1}, VesselOf("Slow-baked parcels", nil, "Leave it.", 1, Fish))
	assert.Equal(t, Vessel{Kg: 1}, VesselOf("Polenta", nil, "", 1, NotKnown), "nothing is guessed")
	w, ok := CoolingWait(VesselOf("Light chicken stock", []string{"ice bath"}, "", 4, NotKnown), 5)
	assert.True(t, ok)
	assert.Less(t, w.Minutes.Slow, 6*60.0)
	_, ok = CoolingWait(VesselOf("Polenta", []string{"fridge"}, "", 1, NotKnown), 5)
	assert.False(t, ok)
}

func TestThinNamesAndPlaces(t *testing.T) {
	for name, want := range map[string]bool{"Light chicken stock": true, "whey": true, "Rhubarb juice": true, "Pickling liquor": true, "Pea and lettuce soup": false, "Lamb sauce": false,
		"Rhubarb jelly": false, "Braised lamb shoulder": false, "braising liquor": true} {
		assert.Equal(t, want, ThinName(name), name)
	}
	assert.Equal(t, "ice bath", PlaceOf([]string{"ice bath"}, "Strain."))
	assert.Equal(t, "ice bath", PlaceOf([]string{"ice bath"}, "Stand in iced water and stir now and then."))
	assert.Equal(t, "stirred ice bath", PlaceOf(nil, "Stir in a pan that stands in iced water."))
	assert.Equal(t, "fridge", PlaceOf([]string{"fridge"}, "Chill."))
	assert.Equal(t, "blast", PlaceOf([]string{"blast chiller"}, ""))
	assert.Equal(t, "", PlaceOf([]string{"hob"}, "Boil."))
}
