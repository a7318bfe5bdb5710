package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestHoldIsReadWhole: each writing says where, at what temperature and on how many shelves, for
// the formula as typed and for two and a half times that.
func TestHoldIsReadWhole(t *testing.T) {
	for _, tt := range []struct {
		typed, in, want, stove string
		tempC                  float64
		shelves, more          float64
	}{
		{"25 min hot", "", "25 min hot", "25 min hot", 0, 0, 0},
		{"25 min hot cupboard", "hot cupboard", "25 min hot in the hot cupboard", "25 min hot in the hot cupboard", 0, 0, 0},
		{"25 min in the hot cupboard at 70 °C, 1 shelf", "hot cupboard", "25 min hot in the hot cupboard at 70 °C, 1 shelf", "25 min hot in the hot cupboard at 70 °C, 3 shelves", 70, 1, 2.5},
		{"40 min hot in the oven, 160F, 2 racks", "oven", "40 min hot in the oven at 71.1 °C, 2 racks", "40 min hot in the oven at 71.1 °C, 5 shelves", 71.11111111111111, 2, 5},
		{"1 h bain marie, 1 place per 15 pieces", "bain-marie", "1 h hot in the bain-marie, 1 place per 15 pieces", "1 h hot in the bain-marie, 5 shelves", 0, 2, 5},
		{"2 d fridge, 1 shelf per 400 g", "fridge", "2 d chilled in the fridge, 1 shelf per 400 g", "2 d chilled in the fridge, 8 shelves", 0, 3, 7.5},
		{"2 d chilled, 1 shelf per piece", "", "2 d chilled, 1 shelf per piece", "2 d chilled, 75 shelves", 0, 30, 75},
		{"30 d freezer", "freezer", "30 d frozen in the freezer", "30 d frozen in the freezer", 0, 0, 0},
		{"2 h at room temperature", "", "2 h room", "2 h room", 0, 0, 0},
	} {
		c, problems := Parse("a.md", []byte("---\nmakes: 30 pieces\neach: 40 g\n---\n\n# A\n\n## Formula\n\n- 1.2 kg polenta\n\n## Method\n\n1. Fry the **polenta**.\n   - hands: 5 min\n   - keep: "+tt.typed+"\n"))
		require.Empty(t, problems, tt.typed)
		k := c.Steps[0].Keep[0]
		assert.Equal(t, tt.want, k.String(), tt.typed)
		assert.Equal(t, tt.in, k.In, tt.typed)
		assert.Equal(t, tt.tempC, k.TempC, tt.typed)
		assert.InDelta(t, tt.shelves, c.ShelvesFor(k.Shelves, quantity.Int(1)), 1e-9, tt.typed)
		assert.InDelta(t, tt.more, c.ShelvesFor(k.Shelves, quantity.Frac(5, 2)), 1e-9, tt.typed)
		var stove []string
		for _, f := range c.Scale(quantity.Frac(5, 2), 0, quantity.Prefs{}).StoveFacts(0) {
			stove = append(stove, f.Word+": "+f.Stove)
		}
		assert.Equal(t, []string{"keep: " + tt.stove}, stove, tt.typed)
	}
}

// TestPlatesAreWarmedOrChilled: the stove shows what the plates of a step need; a card of plates
// takes the shelves for as many as are made.
func TestPlatesAreWarmedOrChilled(t *testing.T) {
	for typed, want := range map[string]string{
		"30 min hot cupboard at 60 °C, 1 shelf per 12 plates": "30 min hot in the hot cupboard at 60 °C, 2 shelves",
		"cold, 1 h fridge, 1 shelf per 8 plates":              "1 h chilled in the fridge, 3 shelves",
		"warm, 20 min in the oven":                            "20 min hot in the oven",
	} {
		c, problems := Parse("a.md", []byte("---\nmakes: 1 plate\n---\n\n# A\n\n## Formula\n\n- 100 g polenta\n\n## Method\n\n1. Fry the **polenta**.\n   - hands: 5 min\n   - plates: "+typed+"\n"))
		require.Empty(t, problems, typed)
		facts := c.Scale(quantity.Int(18), 0, quantity.Prefs{}).StoveFacts(0)
		require.Len(t, facts, 1, typed)
		assert.Equal(t, "plates", facts[0].Word)
		assert.Equal(t, want, facts[0].Stove, typed)
	}
}
