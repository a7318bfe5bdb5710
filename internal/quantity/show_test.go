package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What a person would say: common practice, no source.
func TestShow(t *testing.T) {
	for _, tt := range []struct{ in, metric, us string }{
		{"1250 g", "1.25 kg", "2 lb 12 oz"},
		{"340.4 g", "340 g", "12 oz"},
		{"0.3 g", "0.3 g", "0.011 oz"},
		{"2.4 L", "2.4 L", "2 qt 2 ¼ cups"},
		{"3/4 cup", "175 ml", "¾ cup"},
		{"1 1/2 cups", "355 ml", "1 ½ cups"},
		{"1 tsp", "1 tsp", "1 tsp"},
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

func TestShowKeepsToTheScale(t *testing.T) {
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
		"15.99 oz":  "1 lb", // rounded once, before it is cut up
		"1 1/8 tsp": "1 ¼ tsp",
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, Ladder(a), "%s; worked by hand", in)
	}
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
