package dinner

import (
	"strconv"

	"hobside/internal/demand"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// An OrderList is what a dinner needs from outside, as one cook reads it.
type OrderList struct {
	Sections []OrderSection `json:"sections"`
	Cost     string         `json:"cost"`     // of what has a price, "" when the kitchen names none
	PerCover string         `json:"perCover"` // the same for one cover
	Unpriced int            `json:"unpriced"` // lines to buy that are not in that sum

	Spares     []string   `json:"spares"`     // what is made more than is eaten, and is in all amounts: "Trout plate: 2 plates"
	Deliveries []Delivery `json:"deliveries"` // by day; empty without a plan, which is then said
	Planned    bool       `json:"planned"`    // a plan says when each line is used first
}

// An OrderSection is the lines of one section of the shop.
type OrderSection struct {
	Name  string      `json:"name"`
	Lines []OrderLine `json:"lines"`
}

// An OrderLine is one thing to buy.
type OrderLine struct {
	Key   string            `json:"key"` // dinner.OrderKey
	Name  string            `json:"name"`
	Buy   string            `json:"buy"`   // AP, in units one buys in
	Need  string            `json:"need"`  // EP, what the cards use
	For   []string          `json:"for"`   // "Brown chicken stock: 3.5 kg"
	BuyBy string            `json:"buyBy"` // the last day on which it can come, "2027-06-11"; "" without a plan
	Stale bool              `json:"stale"` // on no day of delivery does it keep until its last use
	Note  string            `json:"note"`  // trim used and its source, conversions made
	Have  string            `json:"have"`  // in the house already, "" for nothing
	Unit  string            `json:"unit"`  // the unit to ask in for what is in the house, "" for pieces
	Cost  string            `json:"cost"`  // "" without a price
	Asked []quantity.Amount `json:"asked"` // Buy, exact; empty when nothing is to be bought
}

// OrderList returns the order list with amounts in a cook's choice of units. It is
// empty until the opening event is known.
func (l *Live) OrderList(show quantity.Prefs) *OrderList {
	out := &OrderList{Spares: []string{}}
	if l.worked == nil {
		return out
	}
	shop := l.Shop()
	lines := demand.Order(l.worked.Demand, shop)
	for i := range lines {
		if n := len(out.Sections); n == 0 || out.Sections[n-1].Name != lines[i].Section {
			out.Sections = append(out.Sections, OrderSection{Name: lines[i].Section})
		}
		s := &out.Sections[len(out.Sections)-1]
		s.Lines = append(s.Lines, l.worked.orderLine(&lines[i], shop, show))
	}
	out.deliver(l, lines)
	for _, comp := range l.worked.Demand.Components {
		if comp.Spare.Sign() > 0 {
			out.Spares = append(out.Spares, comp.Card.Title+": "+quantity.Show(quantity.Amount{Qty: comp.Spare, Unit: comp.Unit}, show))
		}
	}
	if len(shop.Prices) > 0 {
		sum, unpriced := demand.Cost(lines)
		out.Cost, out.Unpriced = shop.Money(sum), unpriced
		if covers := l.worked.Demand.Covers; covers > 0 {
			out.PerCover = shop.Money(sum.Quo(quantity.Int(int64(covers))))
		}
	}
	return out
}

// orderLine returns one line of the order list as text.
func (w *Worked) orderLine(l *demand.Line, shop demand.Shop, show quantity.Prefs) OrderLine {
	out := OrderLine{Key: OrderKey(l.Slug), Name: l.Name, Note: l.Note, Need: l.ShowNeed(show)}
	buy := show
	buy.Up, buy.Tight = true, larder.Exacting(l.Name)
	for i, p := range l.Buy {
		if i > 0 {
			out.Buy += " + "
		}
		if p.Packs > 0 {
			out.Buy += strconv.FormatInt(p.Packs, 10) + " × " + quantity.Show(p.Pack, show)
		} else {
			out.Buy += quantity.Show(p.Amount, buy)
		}
		out.Asked = append(out.Asked, p.Amount)
	}
	if l.Have.Unit != nil {
		out.Have = quantity.Show(l.Have, show)
		if len(l.Buy) == 0 {
			out.Buy = "enough there"
		}
	}
	if len(l.Need) > 0 {
		out.Unit = l.Need[0].Unit.Symbol
	}
	if l.Priced {
		out.Cost = shop.Money(l.Cost)
	}
	wants := l.ShowWants(show)
	for i, want := range l.Wants {
		text := w.Title(want.Card)
		if wants[i] != "" {
			text += ": " + wants[i]
		}
		out.For = append(out.For, text)
	}
	return out
}
