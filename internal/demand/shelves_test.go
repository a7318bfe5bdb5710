package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/kitchen"
)

// TestHoldNeedsWhatTheKitchenHas: 10 covers of 1 kg at 2 kg a shelf are 5 shelves.
func TestHoldNeedsWhatTheKitchenHas(t *testing.T) {
	for _, tt := range []struct{ fact, equipment, want string }{
		{"keep: 30 min hot", "", ""},
		{"keep: 30 min hot cupboard", "", "step 1: what it leaves is held in the hot cupboard, and the kitchen has none"},
		{"keep: 30 min hot cupboard", "- hot cupboard: 1, 2 shelves\n", ""},
		{"keep: 30 min in the oven at 70 °C", "- hot cupboard: 1, 2 shelves\n", "step 1: what it leaves is held in the oven, and the kitchen has none"},
		{"keep: 2 d fridge, 1 shelf per 2 kg", "- fridge: 1, 4 shelves\n", "step 1: what it leaves is held in the fridge, on 5 shelves, and the kitchen has 4"},
		{"keep: 2 d fridge, 1 shelf per 2 kg", "- fridge: 2, 4 shelves\n", ""},
		{"keep: 2 d fridge, 1 shelf per 2 kg", "- fridge\n", ""},
		{"plates: 30 min hot cupboard", "- oven: 1\n", "step 1: plates are got ready in the hot cupboard, and the kitchen has none"},
	} {
		stock := strings.Replace(made("makes: 10 kg\nportion: 1 kg", "10 kg water"), "1. Put it together.", "1. Boil the **water**.\n   - "+tt.fact, 1)
		in := dinner(t, strings.Replace(supper, "plate.md", "stock.md", 1), map[string]string{"stock": stock})
		d, problems := Explode(in)
		require.Empty(t, problems)
		k, problems := kitchen.Parse("k.md", []byte("---\ncooks: 2\n---\n\n# K\n\n## Equipment\n\n- hob: 4 rings\n"+tt.equipment+"\n## Hours\n\n- Saturday 08:00–24:00\n"))
		require.Empty(t, problems)
		var got []string
		for _, p := range Problems(in, d, k, Shop{}) {
			if strings.Contains(p.Msg, " in the ") {
				got = append(got, p.Msg)
			}
		}
		assert.Equal(t, tt.want, strings.Join(got, "; "), "%s %s", tt.fact, tt.equipment)
	}
}
