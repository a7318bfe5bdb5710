package engine

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestOneExplosionPerChange counts what a change of covers costs with everything
// that the page asks for after it: amounts, order list, plan, labels and log. A
// dinner that is under way is exploded twice: what must be made apart is found
// from the dinner as if nothing was begun.
func TestOneExplosionPerChange(t *testing.T) {
	p, d := demo(t)
	work := map[dinner.Work]int{}
	p.e.dinners[p.dinner].Count = func(w dinner.Work) { work[w]++ }
	served := time.Date(2027, 6, 12, 18, 30, 0, 0, time.UTC).UnixMilli()
	ask := func(now int64) {
		call[dinner.OrderList](t, p.e, "order", DinnerCall{Dinner: p.dinner})
		call[dinner.PrepList](t, p.e, "prep", DinnerCall{Dinner: p.dinner})
		v := call[dinner.Schedule](t, p.e, "plan", PlanCall{Dinner: p.dinner, ServeAt: served, Now: now})
		require.Empty(t, v.Blocked)
		call[LabelsView](t, p.e, "labels", ClockCall{Dinner: p.dinner, Now: now})
		call[ControlsView](t, p.e, "controls", ClockCall{Dinner: p.dinner, Now: now})
	}
	weekBefore := served - 7*24*3_600_000
	for _, covers := range []int{20, 16, 18} {
		clear(work)
		p.covers(covers)
		ask(weekBefore)
		assert.Equal(t, 1, work[dinner.Explosion], "explosions for %d covers", covers)
		t.Logf("%d covers: %d explosions, %d projects", covers, work[dinner.Explosion], work[dinner.Project])
	}

	clear(work)
	ask(weekBefore)
	assert.Zero(t, work[dinner.Explosion], "a re-plan explodes nothing")

	// Under way: a step of the first card is done.
	p.tap(dinner.Event{Kind: dinner.KindTick, On: d.Cards[0].Batches[0].Steps[0].Key, Done: true})
	ask(weekBefore)
	for _, covers := range []int{16, 15} {
		clear(work)
		p.covers(covers)
		ask(weekBefore)
		assert.LessOrEqual(t, work[dinner.Explosion], 2, "explosions for %d covers, under way", covers)
		t.Logf("%d covers, under way: %d explosions, %d projects", covers, work[dinner.Explosion], work[dinner.Project])
	}
	clear(work)
	ask(weekBefore + 60_000)
	assert.Zero(t, work[dinner.Explosion], "a re-plan under way explodes nothing")
	t.Logf("re-plan under way: %d explosions, %d projects", work[dinner.Explosion], work[dinner.Project])
}
