package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const braise = "---\nmakes: 1 kg\n---\n\n# Braise\n\n## Formula\n\n- 1 kg beef shin\n- 100 g celery\n- 50 g butter\n- 20 g plain flour\n\n## Method\n\n" +
	"1. Brown the **beef shin**.\n   - hands: 5 min\n2. Stew with **celery** and skim the fat.\n   - hands: 5 min\n   - saves: beef fat\n3. Thicken with the **butter** and **flour**.\n   - hands: 5 min\n\n## Saves\n\n- beef fat: 100 g\n"

// A by-product has what was in the pot when it was set aside: the celery, and not the
// flour that came later.
func TestByProductHasWhatWasInThePot(t *testing.T) {
	in := dinner(t, "---\ncovers: 4\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: no gluten\n- 1 cover: no celery\n", map[string]string{
		"a":      made("makes: 1 plate", "10 g [beef fat](braise.md#beef-fat)"),
		"braise": braise,
	})
	d, _ := Explode(in)
	clashes := Clashes(in, d)
	require.Len(t, clashes, 1, "%v", clashes)
	assert.Equal(t, "celery", clashes[0].Word)
	carried, _ := sheetLines(Allergens(in)[0])
	assert.Equal(t, []string{"EU celery always: Card > Braise > celery"}, carried)

	in.Cards["a"].Items[0].Save = ""
	assert.Len(t, Clashes(in, d), 2, "the braise itself has the flour too")
}
