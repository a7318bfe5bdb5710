package demand

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// Input is one dinner to explode. Cards are by ID.
type Input struct {
	Menu     *menu.Menu
	Cards    map[string]*card.Card
	Covers   int                        // 0: as Menu.Covers says; below 0: no guests
	Made     map[string][]Made          // batches that were started or done, by card ID: their amounts stay
	Again    map[string]bool            // cards whose shortage is made again, by card ID
	Ways     map[string]int             // 1 + index of the way chosen, by card ID; missing: package plan chooses. Where the cook chose, an item that only steps of other ways name is off
	Leave    map[string]map[int]bool    // optional items left out, by card ID and item index
	Seats    map[Seat]int               // plates that the cook chose for guests; missing: as the menu says
	Apart    Apart                      // cards made in several lots because they do not keep
	Portions map[string]quantity.Number // by card ID: 0.9 serves nine tenths of it, and of everything made with it

	OnExplode func() // called by each Explode, so that tests can count; nil for none
}

// A Seat is where guests with some exclusions sit in a course.
type Seat struct {
	Course int    // 1 + index in Menu.Courses
	Words  string // menu.Guests.Exclude, joined by ", "
}

// Off reports whether an item of a card, by its index, is not used: the cook left it out, or
// chose a way of the card in which no step names it while a step of another way does.
// A component is never off by a way: the plan tries ways, and needs its steps for that.
func (in *Input) Off(c *card.Card, item int) bool {
	it := &c.Items[item]
	return it.Optional && in.Leave[c.ID][item+1] || it.Card == "" && in.otherWay(c, item+1)
}

// Eaten returns cards by ID with the items that are off marked as not eaten.
func (in *Input) Eaten(cards map[string]*card.Card) map[string]*card.Card {
	out := make(map[string]*card.Card, len(cards))
	for id, c := range cards {
		out[id] = c
		for i := range c.Items {
			if !in.Off(c, i) {
				continue
			}
			if out[id] == c {
				with := *c
				with.Items = slices.Clone(c.Items)
				out[id] = &with
			}
			out[id].Items[i].Uneaten = true
		}
	}
	return out
}

// otherWay reports whether only steps of ways that the cook did not choose name an item.
func (in *Input) otherWay(c *card.Card, item int) bool {
	way := in.Ways[c.ID]
	if len(c.Ways) < 2 || way < 1 || way > len(c.Ways) {
		return false
	}
	named := false
	for i := range c.Steps {
		for _, r := range c.Steps[i].Text {
			if r.Item != item {
				continue
			}
			if c.Steps[i].In(way) {
				return false
			}
			named = true
		}
	}
	return named
}

// Made is a batch that was started, done or weighed.
type Made struct {
	Batch  int             // 1 + index in Component.Batches
	Factor quantity.Number // of the card, as planned at its start; 0: as planned now
	Amount quantity.Amount // its measured yield; zero when it was not weighed
}

// A Demand is the exact amounts of a dinner.
type Demand struct {
	Covers     int
	Components []*Component          // every card that is made; a card comes before the cards it uses
	ByCard     map[string]*Component // the same, by card ID
	Buy        []Bought              // items that are bought, an entry for each use, in order of Components
}

// Cards returns the cards of the dinner by ID, plates with the dinner's own portions.
func (d *Demand) Cards() map[string]*card.Card {
	out := make(map[string]*card.Card, len(d.Components))
	for _, comp := range d.Components {
		out[comp.Card.ID] = comp.Card
	}
	return out
}

// Cover returns what one cover gets by a line of the menu: the component, and which share
// of one batch by its formula as typed. Course and plate count from 1. The component is nil
// where no guest gets it.
func (d *Demand) Cover(course, plate int) (comp *Component, share quantity.Number) {
	for _, comp := range d.Components {
		for _, u := range comp.Uses {
			if u.By == "" && u.Course == course && u.Plate == plate && u.Covers > 0 {
				return comp, u.Amount.Quo(quantity.Int(int64(u.Covers))).Quo(comp.Card.Makes.Qty)
			}
		}
	}
	return nil, share
}

// A Component is one card of the dinner.
type Component struct {
	Card    *card.Card
	Unit    *quantity.Unit  // of all numbers below: the unit the card makes
	Need    quantity.Number // used by other cards and by guests
	Margin  quantity.Number // added for safety, the spares among it
	Spare   quantity.Number // what the card makes more than is eaten
	Made    quantity.Number // sum of the batches, each as measured or else as planned
	Left    quantity.Number // Made − Need − Margin; never below 0 unless Short
	Short   bool            // the batches give less than Need
	Batches []Batch
	Uses    []Use
	Saves   []Saved
}

// A Batch is one batch of a card: planned, started, done or weighed.
type Batch struct {
	Amount   quantity.Number   // planned yield, in Component.Unit
	Factor   quantity.Number   // Amount ÷ the card's Makes
	Items    []quantity.Amount // the formula's items for this batch, exact, same order as Card.Items
	Lot      int               // counted from 1; 0 when the card is made in one lot
	Fixed    bool              // started or done: covers and portions no longer change it
	Measured bool
	Got      quantity.Number // measured yield, when Measured
}

// A Use is one place that a component goes into.
type Use struct {
	By     string          // card ID, "" for guests
	Item   int             // 1 + index in By's formula
	Course int             // 1 + index in Menu.Courses, 0 when By is a card
	Plate  int             // 1 + index in Course.Plates
	Covers int             // guests served, when By is ""
	Of     int             // lot of By that takes it; 0 when By is made in one lot
	Lot    int             // lot it is taken from; 0 when the component is made in one lot
	Amount quantity.Number // in the used component's unit
}

// Saved is a by-product: how much is set aside and where it goes.
type Saved struct {
	Slug string
	Unit *quantity.Unit
	Have quantity.Number // set aside in all
	Used quantity.Number // wanted by other cards; what exceeds Have is bought
	Uses []Use
}

// Bought is one use of a bought item, as edible portion (EP). [Order] adds trim
// and gives the amount as purchased (AP).
type Bought struct {
	Card   string // ID of the card that uses it
	Item   int    // 1 + index in its formula
	Amount quantity.Amount
	Rest   bool // of a by-product: what the batches do not set aside
}
