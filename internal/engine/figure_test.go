package engine

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFigureTypedInAWindow reads what a cook types where one figure is asked for.
// Common practice, no source; 145 °F is 62.7778 °C in testdata/reference/units.csv.
func TestFigureTypedInAWindow(t *testing.T) {
	for _, tt := range []struct{ of, text, unit, want string }{
		{"amount", "1.4", "kg", "7/5 kilogram"},
		{"amount", "1,4", "kg", "7/5 kilogram"},
		{"amount", "1.500", "kg", "3/2 kilogram"},
		{"amount", "1,620", "g", "1620 gram | 81/50 gram"},
		{"amount", "1.620", "ml", "1620 millilitre | 81/50 millilitre"},
		{"amount", "1,620 kg", "g", "81/50 kilogram"},
		{"amount", "1,620", "", "1620 each | 81/50 each"},
		{"amount", "12", "piece", "12 piece"},
		{"amount", "½", "L", "1/2 litre"},
		{"amount", "-3", "g", `"-3": an amount can't be negative; type how much goes in`},
		{"amount", "lots", "g", `"lots": no amount here; type a number and a unit, such as "500 g", or "to taste"`},
		{"amount", "2 kg of it", "g", `"2 kg of it" is not an amount: type a figure, like 1.4, or a figure and a unit, like 1.4 kg`},
		{"amount", "2–3", "g", `"2–3" is not an amount: type a figure, like 1.4, or a figure and a unit, like 1.4 kg`},
		{"amount", "to taste", "g", `"to taste" is not an amount: type a figure, like 1.4, or a figure and a unit, like 1.4 kg`},
		{"count", "18", "", "18"},
		{"count", "1,200", "", "1200"}, // with the question: nobody serves 1.2 covers
		{"count", "4.000", "", "4000 | 4"},
		{"count", "12.000", "", "12"}, // 12,000 are more than a menu takes
		{"count", "1.5", "", `"1.5": "1.5" is not a whole number; type digits alone, such as "18"`},
		{"temperature", "63", "°C", "63"},
		{"temperature", "63,5", "", "63.5"},
		{"temperature", "−18", "°C", "-18"},
		{"temperature", "145", "°F", "62.7778"},
		{"temperature", "145 F", "°C", "62.7778"},
		{"temperature", "63 °C", "°F", "63"},
		{"temperature", "hot", "°C", `"hot" is not a temperature: type a figure, like 63, or a figure and °C or °F`},
		{"temperature", "1,620", "°C", `"1,620" is not a temperature: type a figure, like 63, or a figure and °C or °F`}, // 1620 or 1.62
		{"temperature", "5000", "°C", `"5000" is not a temperature of a kitchen: check the figure and its unit`},
	} {
		v := call[FigureView](t, New(), "figure", FigureCall{Text: tt.text, Of: tt.of, Unit: tt.unit})
		got := ""
		for i, r := range v.Readings {
			if i > 0 {
				got += " | "
			}
			switch {
			case r.Amount != nil:
				got += r.Amount.Qty.String() + " " + r.Amount.Unit.Name
			case r.TempC != nil:
				b, _ := json.Marshal(round4(*r.TempC))
				got += string(b)
			default:
				b, _ := json.Marshal(r.Number)
				got += string(b)
			}
			assert.NotEmpty(t, r.Shown)
		}
		if len(v.Readings) == 0 {
			got = v.Problem
		}
		assert.Equal(t, tt.want, got, "%s %q", tt.of, tt.text)
		if len(v.Readings) == 2 {
			assert.Equal(t, `"`+tt.text+`" can be read as `+v.Readings[0].Shown+" or as "+v.Readings[1].Shown+"; type the one that is meant", v.Problem)
		}
	}
	assert.Contains(t, string(New().Call("figure", []byte(`{"of":"mood"}`))), "an amount, a count or a temperature")
}

func round4(x float64) float64 { return float64(int(x*1e4+0.5*sign(x))) / 1e4 }

func sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
}

// TestDoubtfulScaleIsAsked scales a card to a figure that can be read in two ways.
func TestDoubtfulScaleIsAsked(t *testing.T) {
	for _, in := range []ReadCall{{Name: "soup.md", Make: "2,500 g"}, {Name: "soup.md", Make: "2,500 g", Line: 1}} {
		var f Failure
		require.NoError(t, json.Unmarshal(small(t).Call("read", mustJSON(t, in)), &f))
		assert.Equal(t, `"2,500 g" can be read as 2500 g or as 2.5 g; type the one that is meant`, f.Error)
		assert.Equal(t, []string{"2500 g", "2.5 g"}, f.Meant)
	}
}

// TestTypedPintIsTheKitchens: a pint of a British kitchen holds 568.26125 ml, a US one
// 473.176473 ml (testdata/reference/units.csv).
func TestTypedPintIsTheKitchens(t *testing.T) {
	for rules, want := range map[string]string{"uk": "1.25 imp pt", "us": "1.25 US pt", "": "1.25 US pt"} {
		e := New()
		if rules != "" {
			call[map[string]any](t, e, "load", LoadCall{Files: []File{{Name: "k.md", Text: "---\ncooks: 2\nrules: " + rules + "\n---\n\n# Kitchen\n\n## Equipment\n\n- hob: 4\n"}}})
		}
		v := call[FigureView](t, e, "figure", FigureCall{Text: "1.25 pints", Of: "amount", Unit: "g"})
		require.Len(t, v.Readings, 1, rules)
		assert.Equal(t, want, v.Readings[0].Shown, rules)
		v = call[FigureView](t, e, "figure", FigureCall{Text: "1.25", Of: "amount", Unit: "pt"})
		assert.Equal(t, "1.25 US pt", v.Readings[0].Shown, "a window in US pints")
	}
}
