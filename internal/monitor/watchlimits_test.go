package monitor

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document/filetest"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// Mince at 65 °C for 10 min is not reached by any row: 14 min are asked (ACMSF 2007 as
// quoted, read), and the model of that row counts 10 of its 14 min.
func TestMinceNeedsItsOwnTime(t *testing.T) {
	b := lays(t, uk, filetest.Steps("A", "- 1 kg minced beef", "Bake the **minced beef**.|oven: 180 °C|check: core 65 °C"))
	for m := 0.0; m <= 10; m += 5 {
		b.reads(1, m, 65)
	}
	got := strings.Join(lines(b.watch(1, 10)), "\n")
	assert.NotContains(t, got, "met: at least 65 °C for 10 min")
	assert.Contains(t, got, "open: at least 70 °C for 2 min")
	assert.Contains(t, got, "open: By the model (E. coli O157, 6 log): 73 % of what is asked") // 2 / 10^(5/6) = 0.2936; 10 × 10^(−5/6) / 2
	b.reads(1, 14, 65)
	assert.Contains(t, strings.Join(lines(b.watch(1, 14)), "\n"), "met: at least 65 °C for 14 min: reached at 14:14; 14 min at or over 65 °C [ACMSF advice (2007) as quoted (read)]")
}

// A roast that has hardly begun to warm: the straight line through two readings promised
// hours too many. Nothing is promised until the readings tell, and a pan's heat tells nothing.
func TestNoTimeBeforeTheReadingsTell(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken", "Roast the **chicken**.|oven: 180 °C|check: core 74 °C"))
	b.reads(1, 0, 6)
	b.reads(1, 20, 8)
	assert.Equal(t, "8 °C at 14:20; the card asks at least 74 °C. Too early to say when: read it again.", b.watch(1, 20).Line)
	b = lays(t, us, filetest.Steps("A", "- 1 kg chicken", "Fry the **chicken**.|hob: 1 ring|check: core 74 °C"))
	b.reads(1, 0, 40)
	b.reads(1, 5, 50)
	assert.Equal(t, "50 °C at 14:05; the card asks at least 74 °C. The step gives no temperature that it is heated by, so no time can be worked out.", b.watch(1, 5).Line)
	b = lays(t, us, filetest.Steps("A", "- 1 kg chicken", "Simmer the **chicken**.|hob: 1 ring|check: core 74 °C"))
	b.reads(1, 0, 50)
	b.reads(1, 10, 62)
	assert.Contains(t, b.watch(1, 10).Line, "62 °C at 14:10; at least 74 °C between 14:2", "water that boils is a medium")
}

// A probe in °F whose figure is taken for °C is asked about at the step: by the oven and the
// food for the first reading, by the one before for the others. 110 °F is 43.3 °C.
func TestLikelierUnitIsAsked(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg chicken", "Roast the **chicken**.|oven: 180 °C|check: core 74 °C"))
	b.reads(1, 0, 110)
	v := b.watch(1, 1)
	require.Len(t, v.Asks, 1)
	assert.Equal(t, Asked, v.State)
	assert.Equal(t, "110 °C is more than a core gets to here, about 92 °C: did the probe show °F? That is 43.3 °C", v.Asks[0].Text)
	assert.Equal(t, []any{43.3, "°F"}, []any{v.Asks[0].TempC, v.Asks[0].Was})
	b.reads(1, 2, 75)
	v = b.watch(1, 3)
	assert.Equal(t, Asked, v.State)
	assert.Len(t, v.Asks, 1, "75 °C is what a probe shows at the end")
	b = lays(t, uk, filetest.Steps("A", "- 1 kg peas", "Keep the **peas** cold.|fridge|check: at most 5 °C"))
	b.reads(1, 0, 41)
	assert.Equal(t, "41 °C where it is kept at 5 °C at most: did the probe show °F? That is 5 °C.", b.watch(1, 1).Line)
}

// Two steps cool one batch: the second forecast begins at the 21 °C where the first ends, and
// the code's 6 h from 57 °C run through both (US FDA Food Code 3-501.14(A), read).
func TestSecondStageGoesOnWithTheFirst(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg fish stock", "Boil the **fish stock**.|hob: 1 ring", "Cool it.|ice bath|cool: 21 °C within 2 h|keep: straight on", "Chill it.|fridge|cool: 5 °C within 4 h"))
	assert.Contains(t, b.watch(3, 0).Vessel, "from 21 °C")
	assert.NotContains(t, b.watch(2, 0).Vessel, "from")
	b.reads(2, 0, 80)
	b.reads(2, 15, 57)
	b.reads(2, 75, 20)
	b.reads(3, 90, 18)
	joined := strings.Join(lines(b.watch(3, 90)), "\n")
	assert.Contains(t, joined, "met: from 57 °C to 21 °C in at most 2 h: took ")
	assert.Contains(t, joined, "open: from 57 °C to 5 °C in at most 6 h: 4 h 45 min left", "75 of 360 min are gone")
	assert.Contains(t, joined, "open: to 5 °C in at most 4 h: 4 h left", "the card's own clock is the step's")
}

// TestWatchWaitsForTheHoldingTime: a limit of a card with a time is reached when it was held
// so long, in the code's own °F too. US FDA Food Code 3-401.11(B), read: 57.2 °C (135 °F) for
// 36 min for a whole roast; (A)(3): 74 °C (165 °F).
func TestWatchWaitsForTheHoldingTime(t *testing.T) {
	b := lays(t, us, filetest.Steps("A", "- 1 kg pork loin", "Roast the **pork loin**.|oven: 150 °C|check: core 135 °F for 36 min"))
	b.show.System = quantity.US
	assert.Equal(t, "Core: the card asks at least 135 °F (57.2 °C) for 36 min. Not read yet.", b.watch(1, 0).Line)
	for minute := 0.0; minute < 36; minute += 12 {
		b.reads(1, minute, safety.FromF(135))
		assert.NotEqual(t, Met, b.watch(1, minute).State, "%v min", minute)
	}
	b.reads(1, 36, safety.FromF(135))
	v := b.watch(1, 36)
	assert.Equal(t, Met, v.State)
	assert.Contains(t, strings.Join(lines(v), "\n"), "met: at least 57.2 °C for 36 min (135 °F): reached at 14:36")
	assert.NotContains(t, v.Line, "is not reached")

	b = lays(t, us, filetest.Steps("A", "- 1 kg pork chops", "Fry the **pork chops**.|hob: 1 ring|check: core 135 °F for 36 min"))
	for minute := 0.0; minute <= 36; minute += 12 {
		b.reads(1, minute, safety.FromF(135))
	}
	assert.Contains(t, b.watch(1, 36).Line, "The rules' at least 63 °C for 15 s is not reached.", "a chop is no roast")

	b = lays(t, us, filetest.Steps("A", "- 1 kg chicken thighs", "Roast the **chicken thighs**.|oven: 220 °C|check: core 165 °F"))
	b.reads(1, 0, 73.8889) // what the page sends for 165 °F
	v = b.watch(1, 0)
	assert.Equal(t, Met, v.State)
	assert.NotContains(t, v.Line, "is not reached")
}
