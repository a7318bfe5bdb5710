package monitor

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
)

func TestDangerIsToldOnce(t *testing.T) {
	w := &told{topics: map[string]bool{}, excluded: []string{"milk"}}
	fry := func(text string, own ...string) *card.Step {
		return &card.Step{Text: []card.Run{{Text: text}}, Caution: own, Equipment: []card.Equipment{{Name: "fryer"}}}
	}
	first := w.cautions(fry("Fry the cakes."), nil)
	require.Len(t, first, 1)
	assert.Contains(t, first[0], "hot oil: ")
	assert.Empty(t, w.cautions(fry("Fry the rest."), nil))
	assert.Equal(t, []string{"hot oil: mind the lid"}, w.cautions(fry("Fry.", "hot oil: mind the lid"), nil))

	w = &told{topics: map[string]bool{}}
	assert.Equal(t, []string{"hot oil: mind the lid"}, w.cautions(fry("Fry.", "hot oil: mind the lid"), nil), "the author's own stands for the usual one")
	assert.Empty(t, w.cautions(fry("Fry on."), nil), "and at the steps after")

	// A syrup's temperature is in the sign of done.
	w = &told{topics: map[string]bool{}}
	syrup := &card.Step{Text: []card.Run{{Text: "Stir the honey and cream."}}, Until: card.Until{Words: "118 °C"}}
	assert.Contains(t, strings.Join(w.cautions(syrup, []string{"honey"}), "\n"), "sugar: ")

	// Allergens only where a guest of this dinner excludes one.
	w = &told{topics: map[string]bool{}, excluded: []string{"milk"}}
	stir := &card.Step{Text: []card.Run{{Text: "Stir."}}}
	assert.Equal(t, []string{"allergens: milk: wash hands, board and tools before the next job"}, w.cautions(stir, []string{"butter"}))
	assert.Empty(t, w.cautions(stir, []string{"butter"}))
	w = &told{topics: map[string]bool{}}
	assert.Empty(t, w.cautions(stir, []string{"butter"}))
}
