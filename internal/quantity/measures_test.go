package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPintByMeasures compares with the definitions of both gallons: 3785.411784 ml (231 cubic
// inches; Standards of Weights and Measures Act 1976, India, Schedule, read) and 4546.09 ml
// (Hong Kong Weights and Measures Ordinance, schedule of imperial units, read). A quart is a
// quarter of its gallon, a pint an eighth; a fluid ounce a 128th of the US gallon and a 160th
// of the imperial one (as read there and in GNU Units).
func TestPintByMeasures(t *testing.T) {
	for _, tt := range []struct{ in, us, uk string }{
		{"1 pint", "473.176473", "568.26125"},
		{"1 pt", "473.176473", "568.26125"},
		{"½ pint", "236.5882365", "284.130625"},
		{"1 fl oz", "29.5735295625", "28.4130625"},
		{"1 fl. oz.", "29.5735295625", "28.4130625"},
		{"1 fluid ounce", "29.5735295625", "28.4130625"},
		{"1 quart", "946.352946", "1136.5225"},
		{"1 gallon", "3785.411784", "4546.09"},
		{"1 pint 2 fl oz", "532.3235321250", "625.0873750"},
		{"1 pint plus 2 fl oz", "532.3235321250", "625.0873750"},
		{"1 US pint", "473.176473", "473.176473"},
		{"1 U.S. pint", "473.176473", "473.176473"},
		{"1 american quart", "946.352946", "946.352946"},
		{"1 UK pint", "568.26125", "568.26125"},
		{"1 imperial pint", "568.26125", "568.26125"},
		{"1 tbsp", "14.78676478125", "14.78676478125"},
		{"1 cup", "236.5882365", "236.5882365"},
		{"500 ml", "500", "500"},
	} {
		for m, want := range map[Measures]string{USMeasures: tt.us, UKMeasures: tt.uk} {
			a, rest, err := m.ParseAmount(tt.in + " milk")
			require.NoError(t, err, tt.in)
			assert.Equal(t, "milk", rest, tt.in)
			exact, ok := ParseNumber(want)
			require.True(t, ok, want)
			assert.Zero(t, a.Qty.Mul(a.Unit.Factor).Cmp(exact), "%s by measures %d is %s ml", tt.in, m, ShowNumber(a.Qty.Mul(a.Unit.Factor)))
			again, _, err := m.ParseAmount(Written(a))
			require.NoError(t, err)
			assert.Zero(t, again.Qty.Mul(again.Unit.Factor).Cmp(exact), "%s is written %s", tt.in, Written(a))
		}
	}
}

func TestBarePint(t *testing.T) {
	for text, want := range map[string]string{
		"- 1 pint milk": "pint", "2 Pints of stock": "Pints", "3 fl oz cream": "fl oz", "4 fl. oz. cream": "fl oz", "1 qt. stock": "qt.", "1 fluid ounce rum": "fl oz",
		"1 US pint milk": "", "1 UK pint milk": "", "2 imp fl oz cream": "", "keep the optional cupful": "", "50 oz flour": "", "galette and floury potatoes": "", "": "",
	} {
		assert.Equal(t, want, BarePint(text), text)
	}
}

func TestMeasuresOfRules(t *testing.T) {
	assert.Equal(t, UKMeasures, MeasuresOf("uk"))
	assert.Equal(t, UKMeasures, MeasuresOf(" UK"))
	assert.Equal(t, USMeasures, MeasuresOf("us"))
	assert.Equal(t, USMeasures, MeasuresOf(""))
}
