package engine

import (
	"errors"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// FoodCall asks what is known of an ingredient, by its name as cooks type it. Card and Item,
// where given, are the line of a card that it is on: of the open dinner's card where Dinner
// is given, else of the library's.
type FoodCall struct {
	Name   string `json:"name"`
	Dinner string `json:"dinner,omitempty"`
	Card   string `json:"card,omitempty"` // card ID
	Item   int    `json:"item,omitempty"` // 1 + index in its formula
}

// FoodView is what is known of an ingredient, from where, and what is assumed.
type FoodView struct {
	Name       string        `json:"name"`       // the food table's; as typed where it has only a broader food
	Known      bool          `json:"known"`      // false: the food table has nothing like it
	DidYouMean string        `json:"didYouMean"` // of a name that is not known, "" for none
	Same       bool          `json:"same"`       // the table has this good; false: it has only a broader food
	Facts      []larder.Fact `json:"facts"`
	Here       []larder.Fact `json:"here"` // what holds on the line of the card

	Per100       []larder.DeclarationLine `json:"per100"`       // by the EU's rules; empty where no composition is known
	Per100Source string                   `json:"per100Source"` // "" where no composition is known
	Compositions bool                     `json:"compositions"` // they are loaded; false: nothing is said of what it consists of
}

// food returns what is known of an ingredient. What is not known is an answer, too.
func (e *Engine) food(in FoodCall) (*FoodView, error) {
	v := &FoodView{Name: in.Name, Compositions: e.compositions != nil}
	c := e.cardOf(in)
	if d, ok := e.foodsOf(in).Describe(in.Name, e.compositions); ok {
		v.Known, v.Name, v.Same, v.Facts = true, d.Name, d.Same, d.Facts()
		v.Per100, v.Per100Source = d.Per100, d.Sources["per_100g"]
	} else {
		v.DidYouMean = e.foodsOf(in).Suggest(in.Name)
	}
	if c != nil && in.Item >= 1 && in.Item <= len(c.Items) {
		v.Here = e.onTheCard(c, in.Item-1)
	}
	return v, nil
}

// cardOf returns the card that a call names, nil when it is not here.
func (e *Engine) cardOf(in FoodCall) *card.Card {
	if f := e.dinners[in.Dinner]; f != nil && f.Worked() != nil {
		if comp := f.Worked().Demand.ByCard[in.Card]; comp != nil {
			return comp.Card
		}
	}
	if f := e.library[in.Card+".md"]; f != nil {
		return f.Card
	}
	return nil
}

// foodsOf returns the kitchen's own foods that hold for a call: those of its dinner, else
// those of the library; nil for none.
func (e *Engine) foodsOf(in FoodCall) *larder.Foods {
	if f := e.dinners[in.Dinner]; f != nil && f.Worked() != nil {
		return f.Worked().Foods
	}
	return e.foods
}

// onTheCard returns what holds for one line of a card: what it weighs and by which figure,
// and what is trimmed off.
func (e *Engine) onTheCard(c *card.Card, item int) []larder.Fact {
	var out []larder.Fact
	ratios, _ := demand.Ratios(c, nil)
	r := ratios[item]
	switch gram, _ := quantity.LookupUnit("g"); {
	case r.Why != "":
		out = append(out, larder.Fact{Word: "weight", Value: "not known", Source: r.Why})
	case r.Basis != "":
		out = append(out, larder.Fact{Word: "weight", Value: e.amount(quantity.Amount{Qty: r.Grams, Unit: gram}), Source: r.Basis})
	}
	if trim, source := demand.TrimOf(c, &c.Items[item]); !trim.IsZero() {
		out = append(out, larder.Fact{Word: "trim", Value: quantity.ShowShare(trim), Source: source})
	}
	return out
}

// CompositionsCall holds the compositions of foods, as the page fetched them.
type CompositionsCall struct {
	Text string `json:"text"`
}

// CompositionsView says how many foods have one.
type CompositionsView struct {
	Foods int `json:"foods"`
}

// setCompositions reads what foods consist of, for all that follows. It fails when there is
// none in the text, and what was known stays.
func (e *Engine) setCompositions(in CompositionsCall) (*CompositionsView, error) {
	c := larder.ReadCompositions(in.Text)
	if len(c) == 0 {
		return nil, errors.New("the text holds no composition of a food: fetch it again")
	}
	e.SetCompositions(c)
	return &CompositionsView{Foods: len(c)}, nil
}
