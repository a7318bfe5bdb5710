package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Jugs are marked finer the smaller they are: half millilitres on a syringe or
// spoon, 1 ml to 100 ml, 5 ml to 10 litres, 50 ml on a bucket. Common practice,
// no source. A mark that would be more than 2 % off is not used.
func TestVolumesAreRoundedToTheMarksOfTheJug(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"9.4 ml", "9.5 ml"}, {"9.2 ml", "9.2 ml"}, {"0.6 ml", "0.6 ml"}, {"8.4 ml", "8.5 ml"},
		{"10 ml", "10 ml"}, {"10.1 ml", "10 ml"}, {"10.4 ml", "10.4 ml"}, {"12.8 ml", "13 ml"},
		{"99.4 ml", "99 ml"}, {"100 ml", "100 ml"}, {"97 ml", "97 ml"},
		{"101 ml", "100 ml"}, {"103 ml", "105 ml"}, {"112 ml", "110 ml"}, {"117 ml", "115 ml"},
		{"9.992 L", "9.99 L"}, {"9.99 L", "9.99 L"}, {"9.993 L", "9.995 L"},
		{"10.02 L", "10 L"}, {"10.03 L", "10.05 L"}, {"10.06 L", "10.05 L"}, {"11.02 L", "11 L"}, {"11.03 L", "11.05 L"},
	} {
		a, _, err := ParseAmount(tt.in)
		require.NoError(t, err)
		assert.Equal(t, tt.want, Show(a, Prefs{}), tt.in)
	}
}

// Five tablespoons are 75 ml by the rule in mostSpoons; 5 US tablespoons are
// 73.93 ml (a gallon of 231 cubic inches ÷ 256 × 5) and still counted, 5.1 are
// 75.41 ml and measured in a jug. A unit of more than 20 ml is always measured.
func TestFewSpoonsAreCountedAndManyMeasured(t *testing.T) {
	for in, want := range map[string]string{
		"5 tbsp": "5 tbsp", "15.2 tsp": "15 ¼ tsp", "5.1 tbsp": "75 ml", "15 tsp": "15 tsp", "16 tsp": "79 ml",
		"1 fl oz": "30 ml", "2 metric tbsp": "30 ml",
		"1 australian tablespoon": "20 ml",
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err)
		assert.Equal(t, want, Show(a, Prefs{}), in)
	}
}

// NAVEDTRA 14163 rounds volumes to the quarter teaspoon (read; see [Prefs]);
// quarters of an ounce and of an imperial fluid ounce are common practice, no
// source. What that would put more than 2 % off is shown in grams or millilitres.
func TestLaddersRoundToQuarters(t *testing.T) {
	for _, tt := range []struct {
		in   string
		p    Prefs
		want string
	}{
		{"1.3 tsp", Prefs{System: US}, "6.5 ml"}, // 6.41 ml; 1 ¼ tsp is 4 % less
		{"5.3 tsp", Prefs{System: US}, "1 tbsp 2 ¼ tsp"},
		{"0.3 tsp", Prefs{System: US}, "1.5 ml"},
		{"1.3 tsp", Prefs{Tight: true}, "6.4 ml"},
		{"8.3 oz", Prefs{System: US}, "8 ¼ oz"},
		{"8.7 oz", Prefs{System: Imperial}, "8 ¾ oz"},
		{"1 imp pt", Prefs{System: Imperial}, "1 imp pt"},
		{"7.3 imp fl oz", Prefs{System: Imperial}, "7 ¼ imp fl oz"},
		{"7.7 imp fl oz", Prefs{System: Imperial}, "7 ¾ imp fl oz"},
		{"0.81 oz", Prefs{System: US}, "23 g"},
		{"0.1 imp fl oz", Prefs{System: Imperial}, "2.8 ml"},
		{"3.75 g", Prefs{System: US, Tight: true}, "3.75 g"},
		{"19.99 gal", Prefs{System: US}, "20 gal"}, // 19 gal 3.96 qt: a full unit is carried
		{"15.999 lb", Prefs{System: US}, "16 lb"},
		{"1.03 gal", Prefs{System: US}, "1 gal ½ cup"}, // 1 gal 0.12 qt
		{"10 lb", Prefs{System: US, Up: true}, "10 lb"},
		{"10.001 lb", Prefs{System: US, Up: true}, "10 lb ¼ oz"},
		{"1001 g", Prefs{Up: true}, "1.01 kg"},
		{"2.1", Prefs{Up: true}, "2 ¼"},
	} {
		a, _, err := ParseAmount(tt.in)
		require.NoError(t, err, tt.in)
		assert.Equal(t, tt.want, Show(a, tt.p), tt.in)
	}
}

// Each part has the form it has by itself, whatever other parts there are: 280 ml is
// 1 cup 3 tbsp (236.588 + 44.36 = 280.9 ml), worked by hand.
func TestPartKeepsItsForm(t *testing.T) {
	ml := func(n int64) Amount { return Amount{Qty: Int(n), Unit: mustUnit("ml")} }
	for _, others := range [][]Amount{{ml(280)}, {ml(10)}, {ml(33), ml(471)}, {ml(1), ml(2), ml(3)}} {
		texts, ok := ShowParts(append([]Amount{ml(280)}, others...), Prefs{System: US})
		require.True(t, ok)
		assert.Equal(t, "1 cup 3 tbsp", texts[0], "beside %v", others)
	}
}

// TestRoundingIsBounded draws amounts in every unit of weight and volume and every way
// to show them. What is shown in pounds, cups and pints is at most 2 % off, 1 % for cures,
// yeast, gelling and raising agents; metric figures are those of the scale or the jug,
// and at most 15 % off. Up is never below.
func TestRoundingIsBounded(t *testing.T) {
	words := []string{"g", "kg", "mg", "oz", "lb", "ml", "cl", "L", "tsp", "tbsp", "cup", "qt", "gal", "imp pt", "imp fl oz", "fl oz"}
	rapid.Check(t, func(t *rapid.T) {
		unit := mustUnit(rapid.SampledFrom(words).Draw(t, "unit"))
		p := Prefs{
			System:  rapid.SampledFrom([]System{Metric, US, Imperial}).Draw(t, "system"),
			Scale:   rapid.SampledFrom([]Number{Frac(1, 10), Int(1), Int(5)}).Draw(t, "scale"),
			Ladder:  rapid.Bool().Draw(t, "ladder"),
			AsTyped: rapid.Bool().Draw(t, "as typed"),
			Tight:   rapid.Bool().Draw(t, "tight"),
			Up:      rapid.Bool().Draw(t, "up"),
		}
		power := rapid.IntRange(0, 4).Draw(t, "power")
		base := Frac(rapid.Int64Range(1, 999_999).Draw(t, "over"), 10_000) // 0.0001 to 100 g
		for range power {
			base = base.Mul(Int(10))
		}
		if base.Cmp(Frac(1, 5)) < 0 {
			return // the third decimal of a gram is the last that is shown
		}
		shown := Show(Amount{Qty: base.Quo(unit.Factor), Unit: unit}, p)
		got := readBack(t, shown)
		most := 0.15
		system := p.System
		if p.AsTyped {
			system = unit.System
		}
		if system != Metric {
			most = 0.02
		}
		if p.Tight {
			most = 0.01
		}
		off := got.Sub(base).Float64() / base.Float64()
		if off > most || off < -most {
			t.Fatalf("%s g is shown as %q, %.2f %% off", base.Decimal(4), shown, off*100)
		}
		if p.Up && got.Cmp(base) < 0 {
			t.Fatalf("%s g is shown as %q, which is less", base.Decimal(4), shown)
		}
	})
}

func TestLargeUnitBeginsAtAThousand(t *testing.T) {
	for in, want := range map[string]string{
		"999 g": "999 g", "999.4 g": "999 g", "999.6 g": "1 kg", "1000 g": "1 kg", "1001 g": "1 kg", "1006 g": "1.01 kg",
		"995 ml": "995 ml", "999 ml": "1 L", "1000 ml": "1 L", "1005 ml": "1.005 L",
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err)
		assert.Equal(t, want, Show(a, Prefs{}), in)
	}
}

// Three figures, as a cook reads them: common practice, no source.
func TestShowNumberHasThreeFigures(t *testing.T) {
	for _, tt := range []struct {
		over, under int64
		want        string
	}{
		{1234, 10, "123"}, {1235, 10, "124"}, {100, 1, "100"}, {9990, 100, "99.9"}, {9996, 100, "100"}, {1006, 100, "10.1"}, {10, 1, "10"},
		{999, 100, "9.99"}, {1, 3, "0.333"}, {2, 3, "0.667"}, {1, 1, "1"}, {5, 2, "2.5"}, {1, 10000, "0"},
	} {
		assert.Equal(t, tt.want, ShowNumber(Frac(tt.over, tt.under)), "%d/%d", tt.over, tt.under)
	}
}

func TestSignsOfFractions(t *testing.T) {
	for in, want := range map[string]string{"1/3 cup": "⅓ cup", "2/3 cup": "⅔ cup", "1/4 cup": "¼ cup", "1/2 cup": "½ cup", "3/4 cup": "¾ cup", "2 2/3 cups": "2 ⅔ cups", "1 1/4 cups": "1 ¼ cups"} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err)
		assert.Equal(t, want, Show(a, Prefs{System: US}), in)
	}
}
