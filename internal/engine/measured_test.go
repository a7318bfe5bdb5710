package engine

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// table is a dinner of a soup supper for ten, as a phone follows it.
type table struct {
	t *testing.T
	e *Engine
	n int
}

var supperFiles = map[string]string{
	"supper.md": "---\ncovers: 10\n---\n\n# Supper\n\n## Soup\n\n- [Soup](plate.md)\n",
	"plate.md":  "---\nmakes: 1 plate\n---\n\n# Soup in bowls\n\n## Formula\n\n- 200 g [Soup](soup.md)\n\n## Method\n\n1. Ladle the **soup**.\n   - hands: 1 min\n",
	"soup.md":   "---\nmakes: 2 kg\ntop up: water, up to 10 %\n---\n\n# Soup\n\n## Formula\n\n- 1.2 kg [Stock](stock.md)\n- 800 g peas\n\n## Method\n\n1. Boil the **peas** in the **stock**.\n   - hands: 20 min\n2. Blend.\n   - hands: 5 min\n",
	"stock.md":  "---\nmakes: 1.6 kg\n---\n\n# Stock\n\n## Formula\n\n- 3.2 kg chicken backs\n- 2 L water\n\n## Method\n\n1. Simmer the **backs** in the **water**.\n   - hands: 10 min\n2. Strain and reduce.\n   - hands: 5 min\n   - until: 1.6 kg\n",
}

func lay(t *testing.T) (*table, *DinnerView) {
	t.Helper()
	texts, pins := map[string]string{}, map[string]string{}
	for name, text := range supperFiles {
		rev := dinner.Revision(text)
		texts[rev], pins[name] = text, rev
	}
	tb := &table{t: t, e: New()}
	open := tb.event(dinner.Event{Kind: dinner.KindOpen, Open: &dinner.Open{Menu: "supper.md", Covers: 10, Files: pins}})
	return tb, tb.call("open", OpenCall{Dinner: "s", Texts: texts, Events: []dinner.Event{open}})
}

func (tb *table) event(ev dinner.Event) dinner.Event {
	tb.n++
	ev.ID, ev.Dinner, ev.Device, ev.Stamp = fmt.Sprintf("event-%04d", tb.n), "s", "phone", dinner.Stamp{Wall: int64(tb.n)}
	require.NoError(tb.t, dinner.Validate(ev))
	return ev
}

func (tb *table) call(method string, in any) *DinnerView {
	tb.t.Helper()
	b, err := json.Marshal(in)
	require.NoError(tb.t, err)
	var out struct {
		Sheet
		Failure
	}
	require.NoError(tb.t, json.Unmarshal(tb.e.Call(method, b), &out))
	require.Empty(tb.t, out.Error)
	return out.Dinner
}

// happens adds an event and returns the dinner after it.
func (tb *table) happens(ev dinner.Event) *DinnerView {
	tb.t.Helper()
	if d := tb.call("apply", ApplyCall{Dinner: "s", Events: []dinner.Event{tb.event(ev)}}); d != nil {
		return d
	}
	return tb.e.dinners["s"].view
}

func (tb *table) weigh(on, amount string) *DinnerView {
	tb.t.Helper()
	a, _, err := quantity.ParseAmount(amount)
	if amount == "0 kg" {
		kg, _ := quantity.LookupUnit("kg")
		a, err = quantity.Amount{Unit: kg}, nil
	}
	require.NoError(tb.t, err)
	return tb.happens(dinner.Event{Kind: dinner.KindMeasure, On: on, Amount: &a})
}

func cardIn(t *testing.T, d *DinnerView, id string) CardView {
	t.Helper()
	for _, c := range d.Cards {
		if c.ID == id {
			return c
		}
	}
	t.Fatalf("%s is not in the dinner", id)
	return CardView{}
}

func take(c dinner.Choice) dinner.Event {
	return dinner.Event{Kind: c.Kind, On: c.On, Done: c.Done, Number: c.Number, Amount: c.Amount}
}

// The soup gives 1.7 kg of 2 kg. By hand: 1700/200 = 8.5, so 8 covers; 85 % of a
// portion is 170 g; another 300 g; a tenth of 1.7 kg is 170 g of water.
func TestChoicesOfAShortageWork(t *testing.T) {
	for kind, after := range map[dinner.Kind]struct{ text, plate, soup string }{
		dinner.KindCovers:  {"8 covers, a whole portion each", "1.6 kg", "1.7 kg"},
		dinner.KindPortion: {"10 covers, 85 % of a portion", "1.7 kg", "1.7 kg"},
		dinner.KindAgain:   {"Make another 300 g", "2 kg", "2 kg"},
		dinner.KindMeasure: {"Top up with 170 g of water", "2 kg", "1.87 kg"},
	} {
		tb, d := lay(t)
		assert.Nil(t, cardIn(t, d, "soup").Means, "all as planned")
		d = tb.weigh("soup#1", "1.7 kg")
		m := cardIn(t, d, "soup").Means
		require.NotNil(t, m)
		assert.Equal(t, []string{"300 g", "2 kg", "1.7 kg"}, []string{m.Short, m.Need, m.Made})
		assert.Equal(t, 8, m.Covers)
		assert.Equal(t, []dinner.Get{{To: "Soup in bowls", Planned: "2 kg", Now: "1.7 kg"}}, m.Gets)
		require.Len(t, m.Choices, 4)
		for _, c := range m.Choices {
			if c.Kind != kind {
				continue
			}
			assert.Equal(t, after.text, c.Text)
			d = tb.happens(take(c))
		}
		assert.Equal(t, after.plate, cardIn(t, d, "plate").Batches[0].Mise[0].Amount, kind)
		assert.Equal(t, after.plate, cardIn(t, d, "plate").Batches[0].Steps[0].Uses[0].Amount, "%s: the step says the same", kind)
		m = cardIn(t, d, "soup").Means
		require.NotNil(t, m)
		if kind == dinner.KindMeasure {
			assert.Equal(t, "130 g", m.Short, "water alone is not enough")
		} else {
			assert.Empty(t, m.Short, kind)
			assert.Equal(t, after.soup, m.Made, kind)
		}
		if kind != dinner.KindAgain { // which wants more stock
			assert.Equal(t, "1.2 kg", cardIn(t, d, "stock").Batches[0].Make, "%s: the stock that is in it stays", kind)
		}
	}
}

func TestSecondBatchNeedsItsItems(t *testing.T) {
	tb, _ := lay(t)
	tb.weigh("soup#1", "1.7 kg")
	d := tb.happens(dinner.Event{Kind: dinner.KindAgain, On: "soup", Done: true})
	soup := cardIn(t, d, "soup")
	require.Len(t, soup.Batches, 2)
	assert.Equal(t, "120 g", soup.Batches[1].Mise[1].Amount, "300/2000 × 800 g of peas")
	assert.Equal(t, "1.38 kg", cardIn(t, d, "stock").Batches[0].Make, "1.2 kg and 180 g")
}

// What is begun keeps its amounts when guests cancel, and again when the step is
// unticked: then nothing is in the pot.
func TestFewerCoversLeaveBegunBatches(t *testing.T) {
	tb, _ := lay(t)
	d := tb.happens(dinner.Event{Kind: dinner.KindTick, On: "stock#1/step/1", Done: true})
	assert.Equal(t, "1.2 kg", cardIn(t, d, "stock").Batches[0].Make)
	d = tb.happens(dinner.Event{Kind: dinner.KindCovers, Number: 5})
	assert.Equal(t, "1.2 kg", cardIn(t, d, "stock").Batches[0].Make, "it is on the hob")
	assert.Equal(t, "1 kg", cardIn(t, d, "soup").Batches[0].Make, "nobody has begun it")
	d = tb.happens(dinner.Event{Kind: dinner.KindCovers, Number: 12})
	m := cardIn(t, d, "stock").Means
	require.NotNil(t, m)
	assert.Equal(t, "240 g", m.Short, "12 covers want 1.44 kg")
	assert.Equal(t, 10, m.Covers)
	d = tb.happens(dinner.Event{Kind: dinner.KindTick, On: "stock#1/step/1"})
	assert.Equal(t, "1.44 kg", cardIn(t, d, "stock").Batches[0].Make)
	d = tb.happens(dinner.Event{Kind: dinner.KindCovers, Number: 0})
	assert.Zero(t, d.Covers)
	assert.Empty(t, cardIn(t, d, "soup").Batches)
}

// The same events in any order give the same dinner.
func TestBegunBatchesDoNotDependOnArrival(t *testing.T) {
	tb, first := lay(t)
	events := []dinner.Event{
		tb.event(dinner.Event{Kind: dinner.KindTick, On: "stock#1/step/1", Done: true}),
		tb.event(dinner.Event{Kind: dinner.KindCovers, Number: 6}),
		tb.event(dinner.Event{Kind: dinner.KindTick, On: "soup#1/step/1", Done: true}),
		tb.event(dinner.Event{Kind: dinner.KindCovers, Number: 9}),
	}
	require.NotNil(t, first)
	for _, order := range [][]int{{0, 1, 2, 3}, {3, 2, 1, 0}, {1, 3, 0, 2}} {
		other, _ := lay(t)
		var d *DinnerView
		for _, i := range order {
			if got := other.call("apply", ApplyCall{Dinner: "s", Events: []dinner.Event{events[i]}}); got != nil {
				d = got
			}
		}
		require.NotNil(t, d)
		assert.Equal(t, "1.2 kg", cardIn(t, d, "stock").Batches[0].Make, "begun at ten covers")
		assert.Equal(t, "1.2 kg", cardIn(t, d, "soup").Batches[0].Make, "begun at six: 6 × 200 g")
	}
}

// A weight of nothing or ten times the plan is asked about; all are kept.
func TestOddWeights(t *testing.T) {
	for _, slip := range []string{"0 kg", "20 kg"} {
		tb, _ := lay(t)
		d := tb.weigh("soup#1", "1.9 kg")
		assert.Equal(t, "1.9 kg", cardIn(t, d, "soup").Batches[0].Got)
		d = tb.weigh("soup#1", slip)
		soup := cardIn(t, d, "soup")
		assert.Contains(t, soup.Means.Doubt, "where 2 kg was planned", slip)
		assert.Equal(t, "1.9 kg", soup.Batches[0].Got, "%s: the weight before it still counts", slip)
		assert.Len(t, tb.e.dinners["s"].State().Measures["soup#1"], 2, "both are kept")
		d = tb.weigh("soup#1", slip)
		soup = cardIn(t, d, "soup")
		assert.Empty(t, soup.Means.Doubt, "%s: said twice is meant", slip)
		assert.NotEqual(t, "1.9 kg", soup.Batches[0].Got)
	}
}

// A weight taken where a step ends at the card's own yield is the batch's.
func TestWeightAtTheLastStep(t *testing.T) {
	tb, _ := lay(t)
	d := tb.weigh("stock#1/step/2", "1.1 kg")
	assert.Equal(t, "1.1 kg", cardIn(t, d, "stock").Batches[0].Got)
	assert.Equal(t, "100 g", cardIn(t, d, "stock").Means.Short)
	d = tb.weigh("stock#1/step/1", "5 kg")
	assert.Equal(t, "1.1 kg", cardIn(t, d, "stock").Batches[0].Got, "on the way")
}
