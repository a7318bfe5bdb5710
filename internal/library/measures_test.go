package library

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

const (
	pintCard = "---\nmakes: 1 L\n---\n\n# Pudding\n\n## Formula\n\n- 1 pint milk\n\n## Method\n\n1. Warm the **milk**.\n   - hands: 5 min\n   - keep: straight on\n"
	pintMenu = "---\ncovers: 4\nserve: 19:30\n---\n\n# Supper\n\n## Sweet\n\n- [Pudding](pudding.md): 1 pint per cover\n"
	pintFood = "# Foods\n\n| food | pack |\n|---|---|\n| double cream | 1 pint |\n"
)

// pintKitchen returns a kitchen with a line of front matter.
func pintKitchen(rules string) string {
	return "---\ncooks: 1\nhob: 1\n" + rules + "---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n"
}

// TestKitchenRulesSayWhosePint compares with the imperial pint, 568.26125 ml, and the US one,
// 473.176473 ml (see quantity's test).
func TestKitchenRulesSayWhosePint(t *testing.T) {
	var cache Cache
	for _, tt := range []struct{ kitchens, want string }{
		{"", "473.176473"}, {"rules: us\n", "473.176473"}, {"rules: uk\n", "568.26125"}, {"", "473.176473"},
	} {
		s := Set{}
		for name, text := range map[string]string{"pudding.md": pintCard, "supper.md": pintMenu, "foods.md": pintFood, "kitchen.md": pintKitchen(tt.kitchens)} {
			s[name] = cache.Compile(name, text)
		}
		cache.Stock(s)
		exact, _ := quantity.ParseNumber(tt.want)
		for name, a := range map[string]quantity.Amount{"card": s.Card("pudding").Items[0].Amount, "menu": s["supper.md"].Menu.Courses[0].Plates[0].Amount, "foods": s["foods.md"].Foods.Rows[0].Pack} {
			assert.Zero(t, a.Qty.Mul(a.Unit.Factor).Cmp(exact), "%s by %q: %s", name, tt.kitchens, quantity.Written(a))
		}
		typed := s.Read("pudding.md", pintCard, nil).Card.Items[0].Amount
		assert.Zero(t, typed.Qty.Mul(typed.Unit.Factor).Cmp(exact), "being typed, by %q", tt.kitchens)
		before := s["pudding.md"]
		cache.Stock(s)
		assert.Same(t, before, s["pudding.md"], "each text is read once by one kitchen's rules")
	}
}

// TestKitchensThatDisagreeOnPints checks that a pint of two kitchens is not read in silence.
func TestKitchensThatDisagreeOnPints(t *testing.T) {
	of := func(text string) []string {
		set, _, problems := Gather([]Source{{"pudding.md", text}, {"a.md", pintKitchen("rules: us\n")}, {"b.md", pintKitchen("rules: uk\n")}})
		require.Empty(t, problems)
		var out []string
		for _, p := range set.Check() {
			out = append(out, p.Msg)
		}
		return out
	}
	const asks = `the kitchens here go by different rules, so "pint" is read as a US measure`
	assert.Contains(t, of(pintCard), asks)
	assert.NotContains(t, of("---\nrules: uk\n"+pintCard[len("---\n"):]), asks)
	assert.NotContains(t, of("---\nmakes: 1 L\n---\n\n# Pudding\n\n## Formula\n\n- 1 UK pint milk\n\n## Method\n\n1. Warm the **milk**.\n   - hands: 5 min\n"), asks)
}
