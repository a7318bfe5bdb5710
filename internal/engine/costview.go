package engine

import (
	"hobside/internal/card"
	"hobside/internal/demand"
)

// CostView is what something costs by the kitchen's prices, to the gram that is used. What
// is bought, in whole packs, is on the order list.
type CostView struct {
	Sum     string   `json:"sum"`     // "€4.20", of what has a price; "" where nothing has one
	Each    string   `json:"each"`    // the same for one of Of; "" where Of is
	Of      string   `json:"of"`      // what Each is for: "plate", "piece", "cover"; "" for none
	Missing []string `json:"missing"` // items without a price, which are not in the sum
	Assumed []string `json:"assumed"`
}

// costView writes what something costs and what each of its parts does. It is nil where
// the kitchen has no price at all.
func costView(s, each demand.Spent, of string, shop demand.Shop) *CostView {
	if len(shop.Prices) == 0 {
		return nil
	}
	v := &CostView{Missing: list(s.Missing), Assumed: list(s.Assumed)}
	if s.Priced > 0 {
		v.Sum = shop.Money(s.Sum)
	}
	if each.Priced > 0 {
		v.Each, v.Of = shop.Money(each.Sum), of
	}
	return v
}

// cost writes what a card of the library costs, by the kitchen's foods and, where the
// library has one kitchen, by its list of prices.
func (e *Engine) cost(s *card.Scaled) *CostView {
	shop := demand.Shop{Prices: e.library.Prices(e.library.Kitchen(e.library.OnlyKitchen())), Foods: e.foods}
	batch := demand.CostOf(demand.Input{Cards: e.cardsWith(s.Card)}, s.Card.ID, shop)
	each, of := batch.Each(s.Card)
	return costView(batch.Times(s.Factor), each, of, shop)
}

// cardsWith returns the cards of the library by ID, with c in place of its own of that ID.
func (e *Engine) cardsWith(c *card.Card) map[string]*card.Card {
	cards := map[string]*card.Card{}
	for _, f := range e.library {
		if f.Card != nil {
			cards[f.Card.ID] = f.Card
		}
	}
	cards[c.ID] = c
	return cards
}
