package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/document/filetest"
)

// The shares are by hand; the ranges and their status are the safety room's.
func TestRemarks(t *testing.T) {
	for _, tt := range []struct {
		name, items, step string
		want              []string
	}{
		{"a jelly in its range", "- 980 g juice\n- 20 g leaf gelatine", "Melt the **leaf gelatine** in the **juice**.", nil}, // 2 %
		{"a jelly of rubber", "- 950 g juice\n- 50 g leaf gelatine", "Melt the **leaf gelatine** in the **juice**.", []string{"gelatine at 5 % of the whole; usual: "}},
		{"too little agar", "- 999 g juice\n- 1 g agar", "Boil the **agar** in the **juice**.", []string{"agar at 0.1 % of the whole; usual: 0.2 to 1.5 %: ingredient data (from memory)"}},
		{"bread", "- 1 kg bread flour\n- 600 g water\n- 20 g salt", "Mix **bread flour**, **water**, **salt**.", nil},
		{"salty bread", "- 1 kg bread flour\n- 600 g water\n- 35 g salt", "Mix **bread flour**, **water**, **salt**.", []string{"salt at 3.5 % of the flour; usual: bread 1.8 to 2.2 %: own working range (working range)"}},
		{"a syrup", "- 500 g caster sugar\n- 500 g water", "Stir **caster sugar** into **water**.", []string{"50 °Brix as weighed: NIST Circular 440 Table 114 (gravity)"}},
		{"sugar in something else", "- 500 g caster sugar\n- 500 g cream", "Stir **caster sugar** into **cream**.", nil},
		{"a boil", "- 500 g honey\n- 500 g cream", "Boil the **honey**; add the **cream**.|hob: 1 ring|until: 118 °C", []string{"a sugar syrup that boils at 118 °C is at about 88 °Brix, by the sea: "}},
		{"a cure to balance, a little over", "- 1 kg pork belly\n- 35 g salt", "Rub the **pork belly** with **salt**.", []string{"salt at 3.5 % of the meat; usual: dry cure to balance 2 to 3 %"}},
		{"a cure that is rinsed off", "- 1 kg pork belly\n- 120 g salt", "Rub the **pork belly** with **salt**.", nil},
		{"nothing weighed", "- salt, to taste", "Add **salt**.", nil},
	} {
		e := New()
		page := call[PageView](t, e, "read", ReadCall{Name: "a.md", Text: filetest.Steps("A", tt.items, tt.step)})
		assert.Len(t, page.Card.Asides, len(tt.want), "%s: %v", tt.name, page.Card.Asides)
		for i, want := range tt.want {
			assert.True(t, strings.HasPrefix(page.Card.Asides[i], want), "%s: %s", tt.name, page.Card.Asides[i])
		}
		for _, f := range page.Problems {
			assert.NotContains(t, f.Msg, "usual:", "an aside is no problem")
		}
	}
}
