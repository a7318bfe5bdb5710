package demand

import (
	"hobside/internal/card"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// Input is one dinner to explode. Cards are by ID.
type Input struct {
	Menu     *menu.Menu
	Cards    map[string]*card.Card
	Covers   int                        // instead of Menu.Covers when above 0; below 0: nobody comes
	Made     map[string][]Made          // batches that are begun or done, by card ID: they stay as they are
	Again    map[string]bool            // cards whose shortage is made again, by card ID
	Ways     map[string]int             // the way chosen, by card ID: 1 + index; absent: the first
	Leave    map[string]map[int]bool    // optional items left out, by card ID and item index
	Apart    Apart                      // cards that are made more than once because they don't keep
	Portions map[string]quantity.Number // portion factor by card ID: 0.9 puts nine tenths of it, and of all that is made with it, on every plate
}

// Made is a batch that was begun, done or weighed.
type Made struct {
	Batch  int             // 1 + index in Component.Batches
	Factor quantity.Number // of the card, as planned when it was begun; 0: as planned now
	Amount quantity.Amount // what it gave; zero when nobody weighed it
}

// A Demand is the whole dinner in exact amounts.
type Demand struct {
	Covers     int
	Components []*Component          // every card that is made, plates first, then what they need, users before the used
	ByCard     map[string]*Component // the same, by card ID
	Buy        []Bought              // items that are bought, one entry per use, in order of Components
}

// A Component is one card's part of the dinner.
type Component struct {
	Card    *card.Card
	Unit    *quantity.Unit  // every number below is in this unit, the card's own
	Need    quantity.Number // used by others and the guests, in all
	Margin  quantity.Number // asked on top
	Made    quantity.Number // the batches' sum: as planned, or as measured where one was
	Left    quantity.Number // Made − Need − Margin; never below 0 unless Short
	Short   bool            // the batches give less than Need
	Batches []Batch
	Uses    []Use
	Saves   []Saved
}

// A Batch is one time a card is made.
type Batch struct {
	Amount   quantity.Number   // what it is planned to give, in Component.Unit
	Factor   quantity.Number   // Amount ÷ the card's Makes
	Items    []quantity.Amount // the formula's items for this batch, exact, same order as Card.Items
	Lot      int               // where the card is made apart, which lot this is of; else 0
	Fixed    bool              // begun or done: covers and portions change it no more
	Measured bool
	Got      quantity.Number // what it gave, when Measured
}

// A Use is one place where a component goes.
type Use struct {
	By     string          // card ID, "" when it goes to guests directly
	Item   int             // 1 + index in By's formula
	Course int             // 1 + index in Menu.Courses, 0 when By is a card
	Plate  int             // 1 + index in Course.Plates
	Covers int             // guests served, for a plate
	Of     int             // which lot of By takes it, where that is made apart; else 0
	Lot    int             // which lot it is taken from, where the used one is made apart; else 0
	Amount quantity.Number // in the used component's unit
}

// Saved is a by-product: what the batches set aside and what becomes of it.
type Saved struct {
	Slug string
	Unit *quantity.Unit
	Have quantity.Number // set aside in all
	Used quantity.Number // wanted by other cards; what is above Have is bought
	Uses []Use
}

// Bought is one use of a bought item, EP: what the step uses. Order works out AP.
type Bought struct {
	Card   string // ID of the card that wants it
	Item   int    // 1 + index in its formula
	Amount quantity.Amount
	Rest   bool // of a by-product: what no batch sets aside
}
