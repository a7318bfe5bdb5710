package safety

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzParseVessel reads any text as what a cook says of something that cools. What
// is understood is written and read back as the same; a forecast from it never has
// the quick end after the slow one, and never starts below the temperature it names.
func FuzzParseVessel(f *testing.F) {
	for _, s := range []string{"cooling: 4 kg stock, thin, 12 cm deep, 30 cm across, in an ice bath at 0 °C", "1 × 2 cm", "from 1e9 °F", ",,,", "5,5 in deep",
		"4 kg lamb, a roll, 9 cm across", "milk, 2 l, blast chiller at −8 °C, from 185 °F", "stock, thick, ice bath, stirred", "53 x 33 cm, 6 cm deep, rice", "0.0001 mm deep",
		"99999999999 kg", "from -0 °c", "in the fridge at 4", "\u00d7", "cooling:", "COOLING: RICE"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := ParseVessel(text)
		if err != nil {
			require.Equal(t, Vessel{}, v)
			require.NotEmpty(t, err.Error())
			return
		}
		require.False(t, v.Thin && v.Thick, "%q", text)
		for _, x := range []float64{v.Kg, v.DepthM, v.AcrossM, v.LengthM, v.WidthM} {
			require.True(t, x >= 0, "%q: %+v", text, v)
		}
		if readable(v) {
			back, err := ParseVessel(v.String())
			require.NoError(t, err, "%q is written as %q", text, v)
			require.Equal(t, v.String(), back.String(), "%q", text)
			require.Equal(t, v.Class, back.Class)
		}
		fc, err := v.Forecast()
		if err != nil {
			return
		}
		for _, c := range []float64{5, 21, 57} {
			b := fc.Cools(c)
			require.True(t, b.Quick <= b.Slow, "%q: to %v °C, quick %v, slow %v", text, c, b.Quick, b.Slow)
			require.True(t, b.Quick >= 0 && !math.IsNaN(b.Slow), "%q: %v", text, b)
		}
	})
}

// readable reports whether a vessel's figures are large enough to be written in the
// thousandths that String rounds to, and small enough to be written in full.
func readable(v Vessel) bool {
	for _, x := range []float64{v.Kg, 100 * v.DepthM, 100 * v.AcrossM, 100 * v.LengthM, 100 * v.WidthM} {
		if x != 0 && (x < 0.001 || x > 1e12) {
			return false
		}
	}
	return math.Abs(v.PlaceC) < 1e12 && math.Abs(v.FromC) < 1e12
}

// FuzzClassOf names the class of any text. The class is a known one, and blanks,
// capitals and punctuation around the text make no difference.
func FuzzClassOf(f *testing.F) {
	for _, s := range []string{"chicken", "Lamb’s lettuce", "é-è", "", "\xff egg", "smoked trout", "goat's cheese"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c := ClassOf(s)
		if c != NotKnown && !c.known() {
			t.Fatalf("%q is of no class: %q", s, c)
		}
		if got := ClassOf("  " + s + " ,"); got != c {
			t.Fatalf("%q: %q with blanks, %q without", s, got, c)
		}
	})
}

// FuzzStepWords gives any words of a card to all that reads them: cautions, missing
// limits, the place of a cooling step. Each caution's topic is given once, and not
// where the author has written it; a gap points at a step and disappears when that
// step has its limit.
func FuzzStepWords(f *testing.F) {
	f.Add("Lower the parsnips into the oil.", "parsnips", "deep fryer")
	f.Add("Roast skin up. Chill.", "chicken thighs", "oven")
	f.Add("Boil to 121 °C, hard ball.", "sugar", "sugar thermometer")
	f.Add("Stir in a pan that stands in iced water.", "brown stock", "ice bath")
	f.Add("Re-heat; flambé", "\xff", "")
	f.Fuzz(func(t *testing.T, text, item, equipment string) {
		step := StepFacts{Equipment: []string{equipment}, Items: []string{item}, Text: text}
		seen := map[string]bool{}
		for _, c := range Cautions(step) {
			require.False(t, seen[c.Topic], "%q is there twice", c.Topic)
			seen[c.Topic] = true
			require.True(t, strings.HasPrefix(c.Text, c.Topic+": ") && utf8.ValidString(c.Text))
			step.Said = append(step.Said, c.Topic+": by the author")
		}
		require.Empty(t, Cautions(step), "the author has said all of it")

		need := StepNeeds{Equipment: step.Equipment, Items: step.Items, Text: text}
		for _, g := range Gaps(US, []StepNeeds{need}) {
			require.Equal(t, 0, g.Step)
			require.NotEmpty(t, g.Limits, g.Text)
		}
		need.Core, need.HasCool = []Core{{C: 80}}, true
		require.Empty(t, Gaps(US, []StepNeeds{need}))

		if place := PlaceOf(step.Equipment, text); place != "" {
			_, err := In(place, 3)
			require.NoError(t, err)
		}
		if ThinName(text) {
			require.NotContains(t, tokens(text), "puree")
		}
	})
}

// FuzzSift puts any readings, in any order, through the log: what is counted is in
// order and plausible, and every reading is counted or asked about.
func FuzzSift(f *testing.F) {
	f.Add(0.0, 60.0, 10.0, 149.0, 20.0, 65.0, true)
	f.Add(5.0, 12.0, 30.0, 50.0, 31.0, 51.0, true)
	f.Add(math.NaN(), math.Inf(1), 5.0, 5.0, 5.0, -120.0, false)
	f.Fuzz(func(t *testing.T, m1, c1, m2, c2, m3, c3 float64, falling bool) {
		log := []Reading{{m1, c1}, {m2, c2}, {m3, c3}}
		counted, doubts := Sift(log, 100, Expected{Falling: falling, HottestC: 92})
		require.NoError(t, checkLog(counted))
		require.Len(t, log, len(counted)+len(doubts))
		for _, d := range doubts {
			require.NotEmpty(t, d.Text)
			require.True(t, math.IsNaN(d.AsC) || Plausible(d.AsC) == nil)
		}
		for _, l := range CoolingRules(US) {
			stages, err := Cooled([]Limit{l}, counted, 100)
			require.Equal(t, len(counted) == 0, err != nil)
			require.Len(t, stages, len(counted)/max(1, len(counted)))
		}
	})
}
