package card

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Which words of a formula are work at the bench and which say how food is bought is
// common practice, no source.
func TestPrepWorkIsTakenFromPrepWordsAndSteps(t *testing.T) {
	for _, tt := range []struct{ item, step, want string }{
		{"- 300 g onions, halved", "Add the **onions**.", "halved"},
		{"- 300 g onions, peeled, in chunks", "Add the **onions**.", "peeled, in chunks"},
		{"- 150 g shallots, fine", "Add the **shallots**.", "fine"},
		{"- 6 g salt, fine", "Add the **salt**.", ""},
		{"- 3 kg chicken backs, chopped, not rinsed", "Boil the **chicken backs**.", "chopped"},
		{"- 830 g cream, cold", "Whip the **cream**.", ""},
		{"- 3 g thyme, optional", "Add the **thyme**.", ""},
		{"- 40 g mint, leaves", "Blend the **mint**.", "leaves"},
		{"- 1 kg carrots", "Peel the **carrots**.", "peeled"},
		{"- 1 kg carrots", "Heat the pan. Peel and slice the **carrots**.", "peeled, sliced"},
		{"- 1 kg carrots", "Fry the **carrots**.", ""},
		{"- 1 kg carrots", "Peel the celery, then fry the **carrots**.", ""},
		{"- 1 kg carrots", "Chop finely. Fry the **carrots**.", ""},
		{"- 1 lemon", "Fold in the zest of the **lemon**.", ""},
		{"- 1 lemon", "Put in the peel of **lemon**.", ""},
		{"- 100 g butter", "Melt the **butter**.", ""},
		{"- 900 g beetroot, small, scrubbed, trim 8 %", "Bake the **beetroot**.", "scrubbed"},
	} {
		t.Run(tt.item+"/"+tt.step, func(t *testing.T) {
			c, _ := Parse("x.md", []byte("---\nmakes: 1 kg\n---\n\n# X\n\n## Formula\n\n"+tt.item+"\n\n## Method\n\n1. "+tt.step+"\n   - hands: 5 min\n"))
			require.Len(t, c.Items, 1)
			assert.Equal(t, tt.want, c.PrepWork(0))
		})
	}
}

func TestPrepWorkIsSharedByItemsJoinedWithAnd(t *testing.T) {
	c, _ := Parse("x.md", []byte("---\nmakes: 1 kg\n---\n\n# X\n\n## Formula\n\n- 1 kg carrots\n- 1 kg celery\n- 5 g salt\n\n## Method\n\n"+
		"1. Peel the **carrots** and the **celery** and toss with the **salt**.\n   - hands: 5 min\n"))
	var got []string
	for i := range c.Items {
		got = append(got, c.PrepWork(i))
	}
	assert.Equal(t, "peeled|peeled|", strings.Join(got, "|"))
}
