package card

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// usesOf compiles a card whose one step is a sentence, and returns what its bold pieces use
// and the problems of that sentence.
func usesOf(t *testing.T, sentence string, times int64) (uses []string, told string) {
	c, problems := Parse("card.md", []byte("---\nmakes: 10 plates\n---\n\n# Card\n\n## Formula\n\n- 250 g butter\n- 4 shallots\n- 6 eggs\n- 8 cloves garlic\n- 500 ml cream\n- salt, to taste\n- 2 limes, juice\n\n"+
		"## Method\n\n1. "+sentence+"\n   - hands: 5 min\n"))
	require.Len(t, c.Steps, 1)
	scaled := c.Scale(quantity.Int(times), 0, quantity.Prefs{})
	for i, r := range c.Steps[0].Text {
		if r.Item > 0 {
			u := scaled.Steps[0].Uses[i]
			uses = append(uses, strings.TrimSpace(u.Amount+" "+r.Text))
		}
	}
	for _, p := range problems {
		if p.Line == 19 {
			told += p.Error() + "\n"
		}
	}
	return uses, told
}

// TestPartsInWords reads how much of an item a step uses, as cooks write it: each piece has
// its amount, or there is a problem that says what to type. The amounts are by hand, for
// twice the card, in steps of 5 ml; common practice, no source.
func TestPartsInWords(t *testing.T) {
	for _, row := range []struct{ sentence, uses, problem string }{
		{"Sweat **two shallots** in **half the butter**.", "4 shallots | 250 g butter", ""},
		{"Sweat **one shallot**, then **a shallot**.", "2 shallot | 2 shallot", ""},
		{"Sweat **both shallots**.", "8 both shallots", ""},
		{"Whisk in **one-third of the cream**.", "335 ml cream", ""},
		{"Whisk in **three-quarters of the cream**.", "750 ml cream", ""},
		{"Whisk in **about half the cream**.", "500 ml cream", ""},
		{"Whisk in **1/4 cream**.", "250 ml cream", ""},
		{"Whisk in **200 ml cream**, then **the remaining 300 ml cream**.", "400 ml cream | 600 ml cream", ""},
		{"Melt **butter (100 g)**.", "200 g butter", ""},
		{"Melt **butter, 100 g**.", "200 g butter", ""},
		{"Crush **one clove of garlic** and **3 garlic cloves**.", "2 cloves garlic | 6 cloves garlic cloves", ""},
		{"Season with **a pinch of salt**.", "2 pinches salt", ""},
		{"Season with **a little salt**.", "a little salt", ""},
		{"Beat **3 egg yolks**; whip **3 egg whites**.", "6 egg yolks | 6 egg whites", ""},
		{"Beat **six yolks**; whip **the whites**.", "12 yolks | 12 whites", ""},
		{"Beat **the yolks of 4 eggs**, then **the remaining 2 eggs**.", "8 egg yolks | 4 eggs", ""},
		{"Add **the juice of the limes**.", "4 limes juice", ""},
		{"Add **lime juice**.", "4 lime juice", ""},
		{"Melt **a little butter**.", "500 g a little butter", `"a little butter" does not say how much: it takes all that is left; write "20 g butter"`},
		{"Melt **most of the butter**.", "500 g most of the butter", "does not say how much"},
		{"Melt **a knob of butter**.", "2 knobs butter", "write both in one unit"},
		{"Melt **2 tablepsoons butter**.", "4 tablepsoons butter", `did you mean "tablespoons"?`},
		{"Melt **100 gramms butter**.", "200 gramms butter", `did you mean "grams"?`},
		{"Melt **the first 100 g of butter**.", "500 g first 100 g of butter", "has a figure that is not read"},
		{"Melt **two thirds butter**.", "500 g two thirds butter", "does not say a share that is read"},
		{"Beat **7 yolks**.", "14 yolks", `the steps use 7 of "eggs", the formula has 6`},
		{"Beat **4 yolks**, then **3 eggs**.", "8 yolks | 6 eggs", `the steps use 7 of "eggs", the formula has 6`},
		{"Beat **twelve eggs**.", "24 eggs", `the steps use 12 of "eggs", the formula has 6`},
	} {
		uses, told := usesOf(t, row.sentence, 2)
		assert.Equal(t, row.uses, strings.Join(uses, " | "), row.sentence)
		if row.problem == "" {
			assert.Empty(t, told, row.sentence)
		} else {
			assert.Contains(t, told, row.problem, row.sentence)
		}
	}
}

// TestYolksWeighAsYolks: a part of a yolk is shown by the weight of yolks, not of eggs. USDA
// SR28 01125: the yolk of one large egg is 17 g.
func TestYolksWeighAsYolks(t *testing.T) {
	c, _ := Parse("card.md", []byte("---\nmakes: 10 plates\n---\n\n# Card\n\n## Formula\n\n- 5 eggs\n\n## Method\n\n1. Beat **5 yolks**.\n   - hands: 5 min\n"))
	u := c.Scale(quantity.Frac(1, 2), 0, quantity.Prefs{}).Steps[0].Uses[1]
	assert.Equal(t, ScaledUse{Amount: "43 g", Aside: "crack 3"}, u, "2.5 × 17 g")
}
