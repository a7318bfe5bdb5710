package quantity

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// How a person would say each amount: common practice, no source.
func TestShow(t *testing.T) {
	for _, tt := range []struct{ in, metric, us string }{
		{"1250 g", "1.25 kg", "2 lb 12 oz"},
		{"340.4 g", "340 g", "12 oz"},
		{"0.3 g", "0.3 g", "0.3 g"}, // a quarter of an ounce is 7 g
		{"3.75 g", "3.8 g", "3.8 g"},
		{"0.5 g", "0.5 g", "0.5 g"},
		{"60 g", "60 g", "60 g"}, // 2.12 oz
		{"6.617 kg", "6.62 kg", "14 lb 9 ½ oz"},
		{"12.345 kg", "12.3 kg", "27 lb 3 ½ oz"},
		{"280 ml", "280 ml", "1 cup 3 tbsp"},
		{"10 lb", "4.54 kg", "10 lb"},
		{"2.4 L", "2.4 L", "2 qt 2 ¼ cups"},
		{"3/4 cup", "175 ml", "¾ cup"},
		{"1 1/2 cups", "355 ml", "1 ½ cups"},
		{"1 tsp", "1 tsp", "1 tsp"},
		{"4 tbsp", "4 tbsp", "¼ cup"},
		{"54 tbsp", "800 ml", "3 cups 6 tbsp"},
		{"4 fl oz", "120 ml", "½ cup"},
		{"2–3 cloves", "2–3 cloves", "2–3 cloves"},
		{"1 clove", "1 clove", "1 clove"},
		{"about 1.6 kg", "about 1.6 kg", "about 3 lb 8 ½ oz"},
		{"to taste", "to taste", "to taste"},
		{"20 oz", "567 g", "1 ¼ lb"},
		{"3", "3", "3"},
	} {
		a, _, err := ParseAmount(tt.in)
		require.NoError(t, err, tt.in)
		assert.Equal(t, tt.metric, Show(a, Prefs{System: Metric}), tt.in)
		assert.Equal(t, tt.us, Show(a, Prefs{System: US}), tt.in)
	}
}

func TestShowRoundsToTheScale(t *testing.T) {
	a := Amount{Qty: Frac(12345, 100), Unit: mustUnit("g")}
	assert.Equal(t, "123.5 g", Show(a, Prefs{Scale: Frac(1, 10)}))
	assert.Equal(t, "123 g", Show(a, Prefs{Scale: Int(1)}))
	assert.Equal(t, "125 g", Show(a, Prefs{Scale: Int(5)}))
}

func TestLadder(t *testing.T) {
	for in, want := range map[string]string{
		"1 gal":     "1 gal",
		"21 cups":   "1 gal 1 qt 1 cup", // 16 + 4 + 1 cups
		"5 cups":    "1 qt 1 cup",
		"9 tsp":     "3 tbsp",
		"20 oz":     "1 lb 4 oz",
		"15.99 oz":  "1 lb", // rounded once, before it is split
		"1 1/8 tsp": "1 ⅛ tsp",
		"3/4 cup":   "¾ cup",                 // there is a measure for it
		"2 3/4 cup": "1 pt ¾ cup",            // 2 + ¾
		"1 1/3 cup": "1 ⅓ cups",              // there is a measure for it
		"75 cups":   "4 gal 2 qt 1 pt 1 cup", // 64 + 8 + 2 + 1
		"49 tsp":    "1 cup 1 tsp",           // 48 + 1
		"0.05 tsp":  "0.25 ml",               // never shown as 0; 0.246 ml
		"5.22 lb":   "5 lb 3 ½ oz",           // 2 lb × 2.61 (NAVEDTRA 14163, the worked example); 0.22 × 16 = 3.52
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, Show(a, Prefs{System: US, Ladder: true}), "%s; worked by hand", in)
	}
}

// Imperial pints and fluid ounces: 568.26125 and 28.4130625 ml, UK legal values.
func TestShowImperial(t *testing.T) {
	for in, want := range map[string]string{
		"1 imp pt": "1 imp pt", "1 L": "1 imp pt 15 ¼ imp fl oz", "500 ml": "17 ½ imp fl oz", "10 ml": "2 tsp", "1 kg": "2 lb 3 ¼ oz",
		"5 imp gal": "5 imp gal", "3 cloves": "3 cloves", "1 ½ imp pints": "1 ½ imp pt",
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, Show(a, Prefs{System: Imperial}), "%s; worked by hand", in)
	}
}

// Half a quart is shown as two cups, because that is how it is measured. Common
// practice, no source.
func TestUSMeasuresUseTheMeasuresThereAre(t *testing.T) {
	for in, want := range map[string]string{"2 cups": "2 cups", "3 cups": "3 cups", "4 cups": "1 qt", "6 cups": "1 ½ qt", "1 qt": "1 qt", "16 cups": "1 gal",
		"½ cup": "½ cup", "⅓ cup": "⅓ cup", "8 tbsp": "½ cup", "½ gal": "2 qt", "1 ½ tsp": "½ tbsp"} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, Show(a, Prefs{System: US}), in)
	}
}

func TestShowAsTyped(t *testing.T) {
	for in, want := range map[string]string{
		"1250 g": "1.25 kg", "21 cups": "1 gal 1 qt 1 cup", "20 oz": "1 lb 4 oz", "1 imp pt": "1 imp pt", "500 ml": "500 ml", "2 sprigs": "2 sprigs",
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, Show(a, Prefs{AsTyped: true, Ladder: true}), in)
	}
}

// canAddUp reports whether parts, each less than a step of its form off, can be shown so
// that they add up to what is shown as the whole: 83.3 g by 5 and 19.2 g by 1 can't make 103.
func canAddUp(parts []Amount, p Prefs, f form, want Number) bool {
	sums := []Number{{}}
	for _, a := range parts {
		form, _ := formOf(a.Qty, a.Unit, p)
		steps := a.Qty.Mul(a.Unit.Factor).Quo(form.step)
		var next []Number
		for _, sum := range sums {
			next = append(next, sum.Add(steps.Ceil().Mul(form.step)), sum.Add(steps.Ceil().Sub(Int(1)).Mul(form.step)))
		}
		sums = next
	}
	return slices.ContainsFunc(sums, func(sum Number) bool { return f.round(sum).Cmp(want) == 0 })
}

// Metric parts add up to what is shown as the whole, in its own figures, where they can
// with each less than a step off. Pounds and
// cups, of which each part and the whole is at most 2 % off, add up within 4 %.
// ParseAmount reads them back, figure by figure.
func TestShownPartsAddUpToTheShownWhole(t *testing.T) {
	words := []string{"g", "kg", "oz", "lb", "ml", "L", "cup", "imp pt", "fl oz"}
	rapid.Check(t, func(t *rapid.T) {
		unit := mustUnit(rapid.SampledFrom(words).Draw(t, "unit"))
		p := Prefs{
			System: rapid.SampledFrom([]System{Metric, US, Imperial}).Draw(t, "system"),
			Scale:  rapid.SampledFrom([]Number{Frac(1, 10), Int(1), Int(5)}).Draw(t, "scale"),
			Ladder: rapid.Bool().Draw(t, "ladder"),
		}
		var parts []Amount
		whole := Amount{Unit: unit}
		for range rapid.IntRange(2, 5).Draw(t, "n") {
			base := Frac(rapid.Int64Range(1000, 90_000).Draw(t, "over"), rapid.Int64Range(1, 60).Draw(t, "under")) // grams or millilitres
			a := Amount{Qty: base.Quo(unit.Factor), Unit: unit}
			parts, whole.Qty = append(parts, a), whole.Qty.Add(a.Qty)
		}
		texts, ok := ShowParts(parts, p)
		if !ok {
			t.Fatal("parts of one measure are not shown together")
		}
		var sum Number
		for _, s := range texts {
			sum = sum.Add(readBack(t, s))
		}
		shown := Show(whole, p)
		want := readBack(t, shown)
		f, _ := formOf(whole.Qty, unit, p)
		if together := f.round(sum); p.System == Metric && together.Cmp(want) != 0 && canAddUp(parts, p, f, want) {
			t.Fatalf("%v add up to %s, the whole shows %s", texts, together, shown)
		}
		if off := sum.Sub(want).Float64() / want.Float64(); off > 0.04 || off < -0.04 {
			t.Fatalf("%v add up to %s, the whole shows %s", texts, sum, shown)
		}
	})
}

func readBack(t *rapid.T, s string) Number {
	var sum Number
	for s != "" {
		a, rest, err := ParseAmount(s)
		if err != nil {
			t.Fatalf("%q can't be read back: %v", s, err)
		}
		sum, s = sum.Add(a.Qty.Mul(a.Unit.Factor)), rest
	}
	return sum
}

func TestShowPartsByHand(t *testing.T) {
	third := Amount{Qty: Frac(1000, 9), Unit: mustUnit("ml")}
	texts, ok := ShowParts([]Amount{third, third, third}, Prefs{})
	require.True(t, ok)
	assert.Equal(t, []string{"115 ml", "110 ml", "110 ml"}, texts, "335 ml on the jug")
	half := Amount{Qty: Frac(5, 2), Unit: mustUnit("g")}
	texts, _ = ShowParts([]Amount{half, half}, Prefs{Scale: Int(5)})
	assert.Equal(t, []string{"2.5 g", "2.5 g"}, texts, "5 g in all on a scale of 5 g")
	speck := Amount{Qty: Frac(18, 100), Unit: mustUnit("g")}
	texts, _ = ShowParts([]Amount{speck, speck, speck}, Prefs{System: US})
	assert.Equal(t, []string{"0.18 g", "0.18 g", "0.18 g"}, texts, "far below a quarter of an ounce")
	_, ok = ShowParts([]Amount{third, {Qty: Int(1), Unit: mustUnit("g")}}, Prefs{})
	assert.False(t, ok, "a weight and a volume")
	_, ok = ShowParts([]Amount{third, {ToTaste: true}}, Prefs{})
	assert.False(t, ok)
}

func TestSplitAddsUp(t *testing.T) {
	third := Frac(100, 3)
	got := Split([]Number{third, third, third}, Int(1))
	assert.Equal(t, []string{"34", "33", "33"}, []string{got[0].String(), got[1].String(), got[2].String()})

	rapid.Check(t, func(t *rapid.T) {
		step := Frac(1, rapid.SampledFrom([]int64{1, 5, 10}).Draw(t, "step"))
		var parts []Number
		var whole, shown Number
		for range rapid.IntRange(1, 9).Draw(t, "n") {
			p := Frac(rapid.Int64Range(0, 100_000).Draw(t, "over"), rapid.Int64Range(1, 99).Draw(t, "under"))
			parts = append(parts, p)
			whole = whole.Add(p)
		}
		for i, s := range Split(parts, step) {
			shown = shown.Add(s)
			off := s.Sub(parts[i])
			if off.Cmp(step) >= 0 || off.Neg().Cmp(step) >= 0 {
				t.Fatalf("part %s shown as %s, a step of %s off", parts[i], s, step)
			}
		}
		if want := Round(whole, step); shown.Cmp(want) != 0 {
			t.Fatalf("parts add up to %s, the whole shows %s", shown, want)
		}
	})
}

func mustUnit(word string) *Unit {
	u, ok := LookupUnit(word)
	if !ok {
		panic(word)
	}
	return u
}
