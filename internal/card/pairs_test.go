package card

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// listed returns the items of a card with a list of lines, and its problems about them.
func listed(front string, lines ...string) ([]Item, []document.Problem) {
	c, problems := Parse("a.md", []byte("---\nmakes: 1 plate\n"+front+"---\n\n# A\n\n## Formula\n\n- "+strings.Join(lines, "\n- ")+"\n\n## Method\n\n1. Mix *all* of it.\n   - hands: 5 min\n"))
	var out []document.Problem
	for _, p := range problems {
		if !strings.Contains(p.Msg, "no step names") && !strings.Contains(p.Msg, "is not used") && !strings.Contains(p.Msg, "in no step") {
			out = append(out, p)
		}
	}
	return c.Items, out
}

// TestPairsOfMeasures reads pairs as British and American recipes have them (common practice,
// no source): 25 g for an ounce is the widest of them.
func TestPairsOfMeasures(t *testing.T) {
	for _, tt := range []struct{ front, line, want, wrong string }{
		{"", "600ml/1 pint milk", "600 ml", ""}, // only the imperial pint fits
		{"rules: uk\n", "600ml/1 pint milk", "600 ml", ""},
		{"rules: uk\n", "1 pint/600 ml milk", "600 ml", ""},
		{"rules: uk\n", "300ml/½ pint double cream", "300 ml", ""},
		{"rules: uk\n", "1.2 litres/2 pints stock", "1.2 L", ""},
		{"rules: uk\n", "150 ml (¼ pint) cream", "150 ml", ""},
		{"", "25g/1oz butter", "25 g", ""},
		{"", "1oz/25g butter", "25 g", ""},
		{"", "50 g / 2 oz butter", "50 g", ""},
		{"", "75 g (3 oz) butter", "75 g", ""},
		{"", "225 g/8 oz flour", "225 g", ""},
		{"", "500 ml/1 pint milk", "500 ml", ""}, // by the US pint
		{"rules: us\n", "1 pint/500 ml milk", "500 ml", ""},
		{"", "2 tbsp/30ml oil", "30 ml", ""},
		{"", "225 g/10 oz flour", "225 g", `"225 g" and "10 oz" are not the same`},
		{"", "25 g/1½ oz flour", "25 g", `"25 g" and "1½ oz" are not the same`},
		{"", "600 ml/2 pints milk", "600 ml", `"600 ml" and "2 pints" are not the same`},
	} {
		items, problems := listed(tt.front, tt.line)
		require.Len(t, items, 1, tt.line)
		assert.Equal(t, tt.want, quantity.Written(items[0].Amount), tt.line)
		if tt.wrong == "" {
			assert.Empty(t, problems, tt.line)
			continue
		}
		require.Len(t, problems, 1, tt.line)
		assert.Equal(t, tt.wrong, problems[0].Msg)
	}
}

// TestPintByRules compares with 568.26125 ml for an imperial pint and 473.176473 ml for a US
// one, as quantity's test of the same units has them.
func TestPintByRules(t *testing.T) {
	for front, want := range map[string]string{"": "473.176473", "rules: us\n": "473.176473", "rules: uk\n": "568.26125", "rules: UK\n": "568.26125"} {
		exact, _ := quantity.ParseNumber(want)
		for _, body := range []string{"\n## Formula\n\n- 1 pint milk\n", "\n## Formula\n\n| Amount | Item |\n|---|---|\n| 1 pint | milk |\n", "\n## Formula\n\n- milk, 1 pint\n", "\n## Formula\n\n- milk: 1 pint\n"} {
			c, problems := Parse("a.md", []byte("---\nmakes: 1 pint\n"+front+"---\n\n# A\n"+body+"\n## Method\n\n1. Warm **1 pint milk**.\n   - hands: 5 min\n   - until: 1 pint\n"))
			require.Empty(t, problems, front+body)
			for name, a := range map[string]quantity.Amount{"item": c.Items[0].Amount, "makes": c.Makes, "part": c.Steps[0].Text[1].Part, "until": c.Steps[0].Until.Amount} {
				assert.Zero(t, a.Qty.Mul(a.Unit.Factor).Cmp(exact), "%s of %q%q", name, front, body)
			}
			factor, err := c.FactorTo("2 pints")
			require.NoError(t, err)
			assert.Zero(t, factor.Cmp(quantity.Int(2)), "asked for in pints: %q", front)
		}
	}
	_, problems := Parse("a.md", []byte("---\nmakes: 1 kg\nrules: france\n---\n\n# A\n"))
	require.NotEmpty(t, problems)
	assert.Equal(t, `no rule set "france"`, problems[0].Msg)
}
