package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// TestHandlingFollowsComponentsAndSteps: a step handles what its items have in them,
// through the cards they are made of, and so does every step that goes on with it.
func TestHandlingFollowsComponentsAndSteps(t *testing.T) {
	cards := map[string]*Card{}
	for name, text := range map[string]string{
		"bread.md": "---\nmakes: 1 kg\n---\n# Bread\n\n## Formula\n\n- 1 kg wheat flour\n\n## Method\n\n1. Sift the **wheat flour**.\n   - hands: 5 min\n",
		"oats.md":  "---\nmakes: 1 kg\nwithout: gluten (certified oats)\n---\n# Oats\n\n## Formula\n\n- 1 kg rolled oats\n- 100 g barley flour\n\n## Method\n\n1. Toast the **rolled oats** with the **barley flour**.\n   - hands: 5 min\n",
		"mix.md":   "---\nmakes: 1 kg\ncontains: wheat\n---\n# Mix\n\n## Formula\n\n- 1 kg rice flour\n\n## Method\n\n1. Mix the **rice flour**.\n   - hands: 5 min\n",
		"plate.md": "---\nmakes: 1 plate\n---\n# Plate\n\n## Formula\n\n- 80 g [bread](bread.md)\n- 20 g butter\n\n## Method\n\n1. Soften the **butter**.\n   - hands: 5 min\n2. Slice the **bread**.\n   - after: start\n   - hands: 5 min\n3. Lay it out.\n   - hands: 5 min\n4. Wipe the board.\n   - after: step 1\n   - hands: 1 min\n",
	} {
		c, problems := Parse(name, []byte(text))
		for _, p := range problems {
			require.NotEqual(t, document.Error, p.Severity, p.Error())
		}
		cards[c.ID] = c
	}
	h := Handles("gluten", nil, func(id string) *Card { return cards[id] })
	for id, want := range map[string]bool{"bread": true, "oats": false, "mix": true, "plate": true, "unknown": false} {
		assert.Equal(t, want, h.Has(id), id)
	}
	assert.Equal(t, []bool{false, true, true, false}, h.Steps(cards["plate"]))
	milk := Handles("milk", nil, func(id string) *Card { return cards[id] })
	assert.Equal(t, []bool{true, false, false, true}, milk.Steps(cards["plate"]))
	assert.Equal(t, []bool{false}, milk.Steps(cards["bread"]))
}

// TestStoveSaysWhatToHaveClean: the step's words and its equipment say what work that is
// kept apart has of its own.
func TestStoveSaysWhatToHaveClean(t *testing.T) {
	for _, tt := range []struct{ step, want string }{
		{"Wrap it.\n   - hands: 5 min", "gluten (clean bench, hands and cloth)"},
		{"Pipe it on plates.\n   - hands: 5 min", "gluten (clean bench, hands and cloth, own piping bag, clean bowls and plates)"},
		{"Slice it and fry it.\n   - fryer: 180 °C\n   - hands: 5 min", "gluten (clean bench, hands and cloth, own oil, own board and knife)"},
		{"Turn it.\n   - oven: 180 °C\n   - apart: nuts\n   - hands: 5 min", "gluten, nuts (clean bench, hands and cloth, own tray, new paper)"},
	} {
		c, problems := Parse("card.md", []byte("---\nmakes: 1 kg\napart: gluten\n---\n# Card\n\n## Formula\n\n- 1 kg rice\n\n## Method\n\n1. Wash the **rice**.\n   - hands: 5 min\n2. "+tt.step+"\n"))
		require.Empty(t, problems)
		facts := c.Scale(quantity.Int(1), 0, quantity.Prefs{Scale: quantity.Int(1)}).StoveFacts(1)
		assert.Equal(t, "apart", facts[0].Word)
		assert.Equal(t, tt.want, facts[0].Stove)
	}
}
