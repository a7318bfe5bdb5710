package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Percentages beside weights are of the weight that says so. The figures are worked out
// by hand: an equilibrium cure of 2.5 % salt for 1 kg takes 25 g.
func TestPercentBesideAWeight(t *testing.T) {
	of := func(front, formula string) (*Card, []string) {
		c, problems := Parse("cure.md", []byte("---\n"+front+"\n---\n\n# Cure\n\n## Formula\n\n"+formula+"\n## Method\n\n1. Rub the **pork belly** with the **salt**.\n   - hands: 5 min\n"))
		var out []string
		for _, p := range problems {
			out = append(out, p.Error())
		}
		return c, out
	}
	for _, tt := range []struct {
		name, formula string
		want          string // grams of the second item
	}{
		{"in brackets", "- 1 kg pork belly (100 %)\n- 2.5 % salt\n", "25"},
		{"and a prep", "- 1 kg pork belly (100 %), skinned\n- 2.5 % salt\n", "25"},
		{"of a part", "- 950 g pork belly (95 %)\n- 2.5 % salt\n", "25"},
		{"in a table", "| Amount | % | Item |\n|--|--|--|\n| 1 kg | 100 | pork belly |\n| | 2.5 | salt |\n", "25"},
		{"both, rounded as cooks do", "- 900 g pork belly (100 %)\n- 20 g salt (2 %)\n", "20"},
	} {
		c, problems := of("makes: 0.9 kg", tt.formula)
		require.Empty(t, problems, tt.name)
		require.Len(t, c.Items, 2, tt.name)
		assert.Equal(t, tt.want, c.Items[1].Amount.Qty.String(), tt.name)
	}
	for _, tt := range []struct{ name, front, formula, want string }{
		{"of nothing", "makes: 1 kg", "- 1 kg pork belly\n- 2.5 % salt\n",
			`cure.md:2:8: the percentages add up to 2.5 %, and nothing is at 100 %; write 100 % beside the weight that they are of, like "1 kg pork belly (100 %)", or add the items that are missing`},
		{"of nothing, with a weight of the whole", "makes: 1 kg\nformula: 1 kg", "- 1 kg pork belly\n- 2.5 % salt\n",
			`cure.md:2:8: the percentages add up to 2.5 %, and nothing is at 100 %; write 100 % beside the weight that they are of, like "1 kg pork belly (100 %)", or add the items that are missing`},
		{"a percentage that does not fit", "makes: 500 g", "- 500 g pork belly (100 %)\n- 10 g salt (3 %)\n",
			`cure.md:10:8: salt is 2 % by its weight, and 3 % is typed; correct one of the two, or leave the percentage out`},
	} {
		_, problems := of(tt.front, tt.formula)
		require.Len(t, problems, 1, "%s: %v", tt.name, problems)
		assert.Equal(t, tt.want, problems[0], tt.name)
	}
}
