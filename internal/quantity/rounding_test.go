package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Jugs are marked finer the smaller they are: half millilitres on a syringe or
// spoon, 1 ml to 100 ml, 5 ml to 10 litres, 50 ml on a bucket. Common practice,
// no source.
func TestVolumesAreRoundedToTheMarksOfTheJug(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"9.3 ml", "9.5 ml"}, {"9.2 ml", "9 ml"}, {"0.6 ml", "0.5 ml"}, {"8.3 ml", "8.5 ml"},
		{"10 ml", "10 ml"}, {"10.4 ml", "10 ml"}, {"10.5 ml", "11 ml"}, {"12.6 ml", "13 ml"},
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
// source. Each amount is nearer to a quarter than to a fifth or a third.
func TestLaddersRoundToQuarters(t *testing.T) {
	for _, tt := range []struct {
		in   string
		p    Prefs
		want string
	}{
		{"1.3 tsp", Prefs{System: US}, "1 ¼ tsp"},
		{"1.7 tsp", Prefs{System: US}, "1 ¾ tsp"},
		{"1.85 tsp", Prefs{System: US}, "1 ¾ tsp"},
		{"0.3 tsp", Prefs{System: US}, "¼ tsp"},
		{"8.3 oz", Prefs{System: US}, "8 ¼ oz"},
		{"8.7 oz", Prefs{System: Imperial}, "8 ¾ oz"},
		{"1 imp pt", Prefs{System: Imperial}, "1 imp pt"},
		{"7.3 imp fl oz", Prefs{System: Imperial}, "7 ¼ imp fl oz"},
		{"7.7 imp fl oz", Prefs{System: Imperial}, "7 ¾ imp fl oz"},
		{"0.81 oz", Prefs{System: US}, "¾ oz"},
		{"0.1 imp fl oz", Prefs{System: Imperial}, "½ tsp"}, // 2.84 ml; a US teaspoon is 4.93 ml, so 0.576 of one
	} {
		a, _, err := ParseAmount(tt.in)
		require.NoError(t, err, tt.in)
		assert.Equal(t, tt.want, Show(a, tt.p), tt.in)
	}
}

// Parts are shown in quarters of the smallest unit as well, and add up. By hand:
// 1.3 + 1.3 + 1.3 tsp = 3.9 tsp, shown as 1 tbsp 1 tsp (4 tsp), so one part is
// 1 ½ tsp and two are 1 ¼ tsp.
func TestShownPartsAreInQuarters(t *testing.T) {
	part := func(word string, over, under int64) Amount {
		return Amount{Qty: Frac(over, under), Unit: mustUnit(word)}
	}
	for _, tt := range []struct {
		part  Amount
		p     Prefs
		whole string
		want  []string
	}{
		{part("tsp", 13, 10), Prefs{System: US}, "1 tbsp 1 tsp", []string{"1 ½ tsp", "1 ¼ tsp", "1 ¼ tsp"}},
		{part("oz", 13, 10), Prefs{System: US}, "4 oz", []string{"1 ½ oz", "1 ¼ oz", "1 ¼ oz"}},
		{part("imp fl oz", 13, 10), Prefs{System: Imperial}, "4 imp fl oz", []string{"1 ½ imp fl oz", "1 ¼ imp fl oz", "1 ¼ imp fl oz"}},
		// Less than an imperial fluid ounce is measured in spoons: 0.9 × 28.413 ml ÷ 4.929 ml = 5.19 tsp.
		{part("imp fl oz", 3, 10), Prefs{System: Imperial}, "1 tbsp 2 ¼ tsp", []string{"1 ¾ tsp", "1 ¾ tsp", "1 ¾ tsp"}},
	} {
		texts, ok := ShowParts([]Amount{tt.part, tt.part, tt.part}, tt.p)
		require.True(t, ok)
		assert.Equal(t, tt.whole, Show(tt.part.Scale(Int(3)), tt.p))
		assert.Equal(t, tt.want, texts)
	}
}

func TestLargeUnitBeginsAtAThousand(t *testing.T) {
	for in, want := range map[string]string{
		"999 g": "999 g", "999.4 g": "999 g", "999.6 g": "1 kg", "1000 g": "1 kg", "1001 g": "1.001 kg",
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
