package dinner

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Whether a shortage is made again, and what is in the house already: of both
// the last word on its key counts, and it can be taken back.
func TestAgainAndHave(t *testing.T) {
	yes := at(1, Event{Kind: KindAgain, On: "stock", Done: true})
	no := at(2, Event{Kind: KindAgain, On: "stock"})
	other := at(3, Event{Kind: KindAgain, On: "sauce", Done: true})
	assert.Equal(t, map[string]bool{"stock": true, "sauce": true}, foldAll(t, yes, other).Again)
	assert.Equal(t, map[string]bool{"stock": false, "sauce": true}, foldAll(t, yes, no, other).Again)
	assert.Equal(t, map[string]bool{"stock": true}, foldAll(t, yes, no, undo(4, "undo-one", no.ID)).Again)

	some := at(1, Event{Kind: KindHave, On: "order/onions", Amount: grams(500)})
	more := at(2, Event{Kind: KindHave, On: "order/onions", Amount: grams(750)})
	none := at(3, Event{Kind: KindHave, On: "order/leeks", Amount: grams(0)})
	dumb := at(4, Event{Kind: KindHave, On: "order/onions"})
	s := foldAll(t, some, more, none, dumb)
	assert.Equal(t, *grams(750), s.Have["order/onions"], "an event without a figure says nothing")
	assert.Equal(t, *grams(0), s.Have["order/leeks"], "none is a word too")
	assert.Equal(t, *grams(500), foldAll(t, some, more, undo(5, "undo-one", more.ID)).Have["order/onions"])
}

func TestValidateAgainAndHave(t *testing.T) {
	for _, tt := range []struct {
		name   string
		kind   Kind
		change func(*Event)
		want   string
	}{
		{"a batch made again", KindAgain, func(e *Event) { e.On = "stock#1" }, `again on "stock#1": it should be on a card`},
		{"again of nothing", KindAgain, func(e *Event) { e.On = "" }, `again on "": it should be on a card`},
		{"a card in the house", KindHave, func(e *Event) { e.On = "stock" }, `have on "stock": it should be on an order line`},
		{"no amount in the house", KindHave, func(e *Event) { e.Amount = nil }, "a weight or measure needs a figure, 0 or more, and a unit"},
		{"less than none in the house", KindHave, func(e *Event) { e.Amount = grams(-5) }, "a weight or measure needs a figure, 0 or more, and a unit"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			ev := sound(tt.kind)
			tt.change(&ev)
			assert.EqualError(t, Validate(ev), tt.want)
		})
	}
}
