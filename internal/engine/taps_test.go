package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// TestTickChangesNoAmount ticks a step: the answer has the new state and no
// dinner, and an undo takes the tick back.
func TestTickChangesNoAmount(t *testing.T) {
	p, d := demo(t)
	step := cardOf(t, d, "pea-soup").Batches[0].Steps[0].Key
	view, state, id := p.tap(dinner.Event{Kind: dinner.KindTick, On: step, Done: true})
	assert.Nil(t, view)
	assert.True(t, state.Ticks[step].Done)
	assert.Equal(t, step, state.Last)
	view, state, _ = p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: id})
	assert.Nil(t, view)
	assert.False(t, state.Ticks[step].Done)
}

// TestWays chooses a way: the steps shown change and no amount does. An undo
// brings the first way back.
func TestWays(t *testing.T) {
	p, d := demo(t)
	before := cardOf(t, d, "pressed-lamb")
	require.Len(t, before.Ways, 2)
	assert.Equal(t, 1, before.Way)
	d, _, id := p.tap(dinner.Event{Kind: dinner.KindWay, On: "pressed-lamb", Number: 2})
	require.NotNil(t, d)
	after := cardOf(t, d, "pressed-lamb")
	assert.Equal(t, 2, after.Way)
	assert.NotEqual(t, words(before), words(after))
	assert.Equal(t, before.Batches[0].Mise, after.Batches[0].Mise)
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: id})
	require.NotNil(t, d)
	assert.Equal(t, before, cardOf(t, d, "pressed-lamb"))
}

// words are the steps of a card's first batch as read.
func words(c CardView) string {
	var b strings.Builder
	for _, s := range c.Batches[0].Steps {
		for _, r := range s.Runs {
			if r.Amount != "" {
				b.WriteString(r.Amount + " ")
			}
			b.WriteString(r.Text)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// TestLeftOutItemTakesItsCardAway: an optional item left out takes its whole card away, and comes
// back with it.
func TestLeftOutItemTakesItsCardAway(t *testing.T) {
	p, d := demo(t)
	plate := cardOf(t, d, "pea-soup-plate")
	item := 0
	for _, m := range plate.Batches[0].Mise {
		if m.Optional {
			item = m.Item
		}
	}
	require.Positive(t, item)
	key := dinner.ItemKey("pea-soup-plate", item)
	cardOf(t, d, "herb-oil")
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindLeave, On: key, Done: true})
	require.NotNil(t, d)
	for _, c := range d.Cards {
		assert.NotEqual(t, "herb-oil", c.ID)
	}
	left := cardOf(t, d, "pea-soup-plate").Batches[0]
	assert.True(t, left.Mise[item-1].Left)
	for _, s := range left.Steps {
		for _, u := range s.Uses {
			assert.NotEqual(t, "herb-oil", u.Card, "a step still weighs what was left out")
		}
	}
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindLeave, On: key, Done: false})
	require.NotNil(t, d)
	cardOf(t, d, "herb-oil")
}

// TestPortion: nine tenths of a portion of sauce is nine tenths of all that goes
// into it. By hand: 17 × 40 g × 1.05 × 0.9 = 642.6 g; stock 1.4 ÷ 0.9 of it.
func TestPortion(t *testing.T) {
	p, _ := demo(t)
	d, _, _ := p.tap(dinner.Event{Kind: dinner.KindPortion, On: "lamb-sauce", Amount: &quantity.Amount{Qty: quantity.Frac(9, 10), Unit: quantity.Each}})
	require.NotNil(t, d)
	sauce := cardOf(t, d, "lamb-sauce")
	assert.Equal(t, "643 g", sauce.Batches[0].Make)
	assert.Contains(t, cardOf(t, d, "light-chicken-stock").GoesInto, "Lamb sauce: 1 kg")
	assert.Equal(t, "17 plates", cardOf(t, d, "lamb-plate").Batches[0].Make)
}

// TestMeasure: what a batch gave is shown beside what was planned.
func TestMeasure(t *testing.T) {
	p, d := demo(t)
	kg, _ := quantity.LookupUnit("kg")
	key := cardOf(t, d, "light-chicken-stock").Batches[0].Key
	d, state, id := p.tap(dinner.Event{Kind: dinner.KindMeasure, On: key, Amount: &quantity.Amount{Qty: quantity.Frac(31, 10), Unit: kg}})
	require.NotNil(t, d)
	require.Len(t, state.Measures[key], 1)
	m := cardOf(t, d, "light-chicken-stock").Batches[0]
	assert.Equal(t, "3.1 kg", m.Got)
	assert.Equal(t, "3.34 kg", m.Make)
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: id})
	require.NotNil(t, d)
	assert.Empty(t, cardOf(t, d, "light-chicken-stock").Batches[0].Got)
}

// TestServe moves the dinner; every course goes with it.
func TestServe(t *testing.T) {
	p, _ := demo(t)
	d, _, _ := p.tap(dinner.Event{Kind: dinner.KindServe, Text: "2027-06-12T23:00"})
	require.NotNil(t, d)
	var at []string
	for _, c := range d.Courses {
		at = append(at, c.At)
	}
	assert.Equal(t, []string{"2027-06-12T23:00", "2027-06-12T23:25", "2027-06-12T23:55", "2027-06-13T00:30", "2027-06-13T01:05"}, at)
}

// TestPrefs: the same dinner in pounds, and to the tenth of a gram. The figures
// by hand: the soup's mint is 15 g × 2.835 ÷ 2.5 = 17.01 g; its butter
// 80 g × 1.134 = 90.72 g = 3.2 oz.
func TestPrefs(t *testing.T) {
	p, d := demo(t)
	assert.Equal(t, "17 g", miseOf(t, d, "pea-soup", "mint").Amount)
	fine := call[Sheet](t, p.e, "prefs", Prefs{Dinner: p.dinner, System: "metric", Scale: "0.1 g"})
	assert.Equal(t, "17 g", miseOf(t, fine.Dinner, "pea-soup", "mint").Amount)
	coarse := call[Sheet](t, p.e, "prefs", Prefs{Dinner: p.dinner, System: "metric", Scale: "5 g"})
	assert.Equal(t, "90 g", miseOf(t, coarse.Dinner, "pea-soup", "butter").Amount)
	us := call[Sheet](t, p.e, "prefs", Prefs{Dinner: p.dinner, System: "us"})
	assert.Equal(t, "3 ¼ oz", miseOf(t, us.Dinner, "pea-soup", "butter").Amount)
	heat := cardOf(t, us.Dinner, "almond-cake").Batches[0].Steps[4].Heat
	assert.Equal(t, "oven 338 °F (170 °C, 1 shelf)", heat)
	// The choice counts for every later answer.
	assert.True(t, strings.HasSuffix(miseOf(t, p.covers(24), "pea-soup", "butter").Amount, "oz"))
	back := call[Sheet](t, p.e, "prefs", Prefs{Dinner: p.dinner, System: "metric", Scale: "1 g"})
	assert.Equal(t, "121 g", miseOf(t, back.Dinner, "pea-soup", "butter").Amount) // 80 × 3.78 ÷ 2.5 = 120.96
}

// TestEventsComeInAnyOrder sends the same taps late, twice and backwards: the
// dinner is the same. Taps of another dinner are ignored.
func TestEventsComeInAnyOrder(t *testing.T) {
	p, _ := demo(t)
	events := []dinner.Event{
		p.stamp(dinner.Event{Kind: dinner.KindCovers, Number: 24}),
		p.stamp(dinner.Event{Kind: dinner.KindCovers, Number: 21}),
		p.stamp(dinner.Event{Kind: dinner.KindWay, On: "pressed-lamb", Number: 2}),
	}
	forward := call[Sheet](t, p.e, "apply", ApplyCall{Dinner: p.dinner, Events: events})
	q, _ := demo(t)
	var back Sheet
	for _, i := range []int{2, 1, 0, 1, 2} {
		back = call[Sheet](t, q.e, "apply", ApplyCall{Dinner: q.dinner, Events: events[i : i+1]})
	}
	assert.Equal(t, 21, forward.Dinner.Covers)
	assert.Equal(t, forward.State, back.State)
	again := call[Sheet](t, q.e, "prefs", Prefs{Dinner: q.dinner})
	assert.Equal(t, forward.Dinner, again.Dinner)

	other := events[0]
	other.Dinner, other.ID = "another", "event-other"
	sheet := call[Sheet](t, p.e, "apply", ApplyCall{Dinner: p.dinner, Events: []dinner.Event{other}})
	assert.Nil(t, sheet.Dinner)
	assert.Equal(t, 21, sheet.State.Covers)
}
