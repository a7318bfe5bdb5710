package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

const buns = "---\nmakes: 6 pieces\n---\n\n# Buns\n\n## Formula\n\n- 500 g flour\n- 3 eggs, each 50 g\n- 90 g butter\n\n## Method\n\n" +
	"1. Mix the **flour**, **a third of the butter** and the **eggs**.\n   - hands: 10 min\n   - cool: 5 °C within 2 h\n   - keep: 1 h room\n" +
	"2. Bake with **a third of the butter**, then the **rest of the butter**.\n   - oven: 200 °C\n   - hands: 2 min\n   - wait: 12 min\n   - load: 4 pieces\n   - check: core 94 °C\n   - serve\n"

var metric = quantity.Prefs{System: quantity.Metric, Scale: quantity.Int(1)}

// Seven pieces of six, by hand: 7/6 of 500 g is 583 g, of 3 eggs 3.5 = 175 g, of
// 90 g butter 105 g in three parts of 35 g; two loads of four take twice 12 min.
func TestScaleWorksOutEveryAmountOnce(t *testing.T) {
	c, problems := Parse("buns.md", []byte(buns))
	require.Empty(t, problems)
	factor, err := c.FactorTo("7 pieces")
	require.NoError(t, err)
	s := c.Scale(factor, 0, metric)
	assert.Equal(t, "7 pieces", s.Makes)
	assert.Equal(t, []string{"583 g", "175 g", "105 g"}, []string{s.Items[0].Amount, s.Items[1].Amount, s.Items[2].Amount})
	assert.Equal(t, "crack 4", s.Items[1].Beside())
	var butter []string
	for i, step := range c.Steps {
		for r, run := range step.Text {
			if run.Item == 3 {
				butter = append(butter, s.Steps[i].Uses[r].Amount)
			}
		}
	}
	assert.Equal(t, []string{"35 g", "35 g", "35 g"}, butter)
	bake := s.Steps[1]
	assert.Equal(t, "4 pieces at a time, 2 loads", bake.Load)
	assert.Equal(t, "24 min", bake.Wait.String())
	assert.Equal(t, "oven 200 °C", bake.Heat)
	assert.Equal(t, "oven 392 °F (200 °C)", c.Scale(factor, 0, quantity.Prefs{System: quantity.US, Scale: quantity.Int(1)}).Steps[1].Heat)
}

// TestEveryFactIsShown: a page shows every fact of a step; the stove shows in its
// list those that it has no other place for.
func TestEveryFactIsShown(t *testing.T) {
	c, _ := Parse("buns.md", []byte(buns))
	var page, stove []string
	s := c.Scale(quantity.Int(1), 0, metric)
	for i := range c.Steps {
		for _, f := range s.Facts(i) {
			page = append(page, f.String())
			if f.Stove != "" {
				stove = append(stove, f.Stove)
			}
		}
	}
	assert.Equal(t, []string{"hands: 10 min", "keep: 1 h room", "cool: 5 °C within 2 h",
		"oven: 200 °C", "load: 4 pieces", "hands: 2 min", "wait: 12 min", "check: core 94 °C", "serve"}, page)
	assert.Equal(t, []string{"1 h room", "to 5 °C within 2 h", "core 94 °C"}, stove)
}

// TestStoveFactsBeginWithWhatCanHurt lists a check before a cooling limit, and that
// before a hold, in whatever order the card has them.
func TestStoveFactsBeginWithWhatCanHurt(t *testing.T) {
	c, problems := Parse("ham.md", []byte("---\nmakes: 1 kg\n---\n\n# Ham\n\n## Formula\n\n- 1 kg ham\n\n## Method\n\n1. Bake half of the **ham**, then the **ham**.\n   - hands: 5 min\n   - keep: 2 h room\n   - cool: 5 °C within 6 h\n   - check: core 63 °C\n"))
	require.Empty(t, problems)
	s := c.Scale(quantity.Int(2), 0, metric)
	var words []string
	for _, f := range s.StoveFacts(0) {
		words = append(words, f.Word)
	}
	assert.Equal(t, []string{"check", "cool", "keep"}, words)
	assert.Equal(t, "Bake half of the 2 kg ham, then the ham.", s.Sentence(0))
}

func TestFactorToAnItem(t *testing.T) {
	c, _ := Parse("buns.md", []byte(buns))
	f, err := c.FactorToItem(2, "100 g") // two eggs of 50 g, of three
	require.NoError(t, err)
	assert.Equal(t, "2/3", f.String())
	for item, want := range map[int]string{0: "no line 0", 4: "no line 4"} {
		_, err := c.FactorToItem(item, "1 kg")
		assert.ErrorContains(t, err, want)
	}
	_, err = c.FactorTo("a lot")
	assert.ErrorContains(t, err, `"a lot" is not an amount`)
}
