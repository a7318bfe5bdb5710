package safety

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestSentenceIsReadWhole: every word of a sentence counts, with commas or without. The
// readings are by hand; the inch, the pound and °F are exact by definition.
func TestSentenceIsReadWhole(t *testing.T) {
	for in, want := range map[string]Vessel{
		"4 kg stock in an ice bath":                                {Class: Stock, Kg: 4, Place: "ice bath"},
		"stock 4 kg, in an ice bath":                               {Class: Stock, Kg: 4, Place: "ice bath"},
		"chicken stock 4 kg thin 12 cm deep in a stirred ice bath": {Class: Stock, Kg: 4, Thin: true, DepthM: 0.12, Place: "stirred ice bath"},
		"4 kg of brown chicken stock in an ice bath, stirred":      {Class: Stock, Kg: 4, Place: "stirred ice bath"},
		"stock in an ice bath from 85":                             {Class: Stock, Place: "ice bath", FromC: 85, HasFrom: true},
		"2 kg braised lamb in the fridge at 3 °C":                  {Class: Lamb, Kg: 2, Place: "fridge", PlaceC: 3, HasPlace: true},
		"2kg cooked rice in a 53×33cm tray":                        {Class: Rice, Kg: 2, LengthM: 0.53, WidthM: 0.33},
		"2 kg cooked rice in trays 5 cm deep":                      {Class: Rice, Kg: 2, DepthM: 0.05},
		"clear soup, 3 L in a pot 25 cm across":                    {Class: Stock, Thin: true, Kg: 3, AcrossM: 0.25},
		"roast beef, a roll, 4 in across":                          {Class: Beef, Roll: true, AcrossM: 0.1016},
		"3 kg carrots over ice from 212 F":                         {Class: Vegetable, Kg: 3, Place: "ice bath", FromC: 100, HasFrom: true},
		"rice at room temperature and 6 cm deep":                   {Class: Rice, Place: "bench", DepthM: 0.06},
	} {
		got, err := ParseVessel(in)
		require.NoError(t, err, in)
		assert.InDelta(t, want.FromC, got.FromC, 1e-9, in)
		got.FromC = want.FromC
		assert.Equal(t, want, got, in)
	}
	for in, want := range map[string]string{
		"4 kg stock wobbly in an ice bath":     `"stock wobbly" is not understood`,
		"stock in an icy bath":                 "is not understood",
		"stock, stirred":                       `"stirred" is read of an ice bath alone`,
		"stock, 4 kg, 5 kg":                    "how much it is is said twice",
		"4 kg stock, 2 kg rice":                "how much it is is said twice",
		"4 kg stock, rice":                     "what it is is said twice",
		"pork, a roll, 9 cm across, 6 cm deep": "a roll or a ball has its thickness alone",
		"pork, a roll, a ball, 9 cm across":    "a roll or a ball? say one of them",
		"stock, thin, thick":                   "thin or thick?",
		"stock, in the fridge, ice bath":       "where it cools is said twice",
		"stock, 5 cm deep, 6 cm deep":          "how deep it is is said twice",
		"stock, from 80, from 70":              "how warm it is is said twice",
		"stock in a pot":                       `"pot": how wide, how deep?`,
		"stock at 85 °C":                       "say from 85 °C",
		"stock in the fridge at 38":            "38 °C, or 38 °F, which is 3.3 °C? write the unit",
		"4 kg stock (thin)":                    "is not understood",
		"4 kg stock; thin":                     "is not understood",
	} {
		_, err := ParseVessel(in)
		require.Error(t, err, in)
		assert.Contains(t, err.Error(), want, in)
	}
}

// TestCommasMakeNoDifference: what a vessel says of itself is read the same without its commas.
func TestCommasMakeNoDifference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vessel{Class: rapid.SampledFrom(Classes()).Draw(t, "class"), Kg: float64(rapid.IntRange(1, 90).Draw(t, "kg")),
			DepthM: float64(rapid.IntRange(1, 30).Draw(t, "cm")) / 100, Thin: rapid.Bool().Draw(t, "thin"),
			Place: rapid.SampledFrom([]string{"fridge", "bench", "blast", "ice bath", "stirred ice bath"}).Draw(t, "place")}
		got, err := ParseVessel(strings.ReplaceAll(v.String(), ",", ""))
		if err != nil || got != v {
			t.Fatalf("%q: %+v, %v", v.String(), got, err)
		}
	})
}

// TestMeasuresOfACoolingSentence reads masses and volumes in the units of a card: factors by
// definition (a US gallon is 3.785411784 L, an imperial one 4.54609 L), a litre taken for a
// kilogram. A bare pint, quart or gallon has two sizes and is asked about.
func TestMeasuresOfACoolingSentence(t *testing.T) {
	for in, kg := range map[string]float64{
		"4 litres stock": 4, "4 kilos of stock": 4, "10 pounds of stock": 4.5359237, "2 US gallons stock": 7.570823568, "2 imperial gallons of stock": 9.09218, "6 us quarts stock": 5.677117676,
		"8 UK pints stock": 4.54609, "8 imperial pints of stock": 4.54609, "16 cups stock": 3.785411784, "5 lb 8 oz stock": 5.5 * 0.45359237, "1 US gallon 2 US quarts stock": 5.678117676,
		"4 L stock": 4, "100 US fl oz stock": 2.95735295625,
	} {
		v, err := ParseVessel(in)
		require.NoError(t, err, in)
		assert.Equal(t, Stock, v.Class, in)
		assert.InDelta(t, kg, v.Kg, 2e-3, in)
	}
	for in, want := range map[string]string{
		"2 gallons stock": `"2 gallons stock": which gallon? write 2 US gallons, 2 imperial gallons, or litres`,
		"6 quarts stock":  "which quart? write 6 US quarts, 6 imperial quarts, or litres",
		"3 pints stock":   "which pint?",
		"90 fl oz stock":  "which fluid ounce?",
		"3 bunches stock": "write a mass like 4 kg",
		"1/2 gallon soup": "write a mass like 4 kg",
	} {
		_, err := ParseVessel(in)
		assert.ErrorContains(t, err, want, in)
	}
}

// TestNoWordOfASentenceIsLost: a word that nobody knows, anywhere in a sentence, refuses it.
func TestNoWordOfASentenceIsLost(t *testing.T) {
	sentence := strings.Fields("4 kg brown stock thin 12 cm deep 30 cm across in an ice bath from 85 °C")
	for at := range len(sentence) + 1 {
		words := append(append(append([]string{}, sentence[:at]...), "zzyzx"), sentence[at:]...)
		_, err := ParseVessel(strings.Join(words, " "))
		assert.Error(t, err, "%v", words)
	}
}
