package kitchen

import (
	"time"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// A Kitchen is the people, equipment, hours, rules and prices of one kitchen.
type Kitchen struct {
	ID         string // the file's name without ".md"
	File       string // as given to Parse, for problems
	Title      string
	Cooks      []string // one name for each cook: "first cook"; Parse names them when the file gives only a count
	Breaks     Breaks
	Equipment  []Equipment
	Vessels    []document.Vessel // pots, tins and trays with their sizes, and how many of each
	Hours      []Shift
	Rules      string // rule set of the safety limits: "us" or "uk"; "" when not said
	Prices     []Price
	AltitudeM  int
	Deliveries []time.Weekday // on which days something can be delivered; none: every day
	Zone       string         // IANA name, "" for the server's own
	Source     []byte         // the file, byte for byte
}

// Breaks say how long a cook may work without a break. They are zero where the
// kitchen gives none.
type Breaks struct {
	Minutes int // of each break; 0 with Per set: nobody needs one ("breaks: none")
	Per     int // minutes of work after which there is one
}

// A Price is what an item costs where the kitchen buys.
type Price struct {
	File     string // that names it, as given to Parse
	Item     string
	Cost     quantity.Number
	Currency string          // as typed, "€" or "EUR"; "" when not said
	Per      quantity.Amount // what that buys: 1 kg, 12, 1 bunch
	Pos      document.Pos
}

// Equipment is one kind of thing that a step can occupy.
type Equipment struct {
	Name   string          // "hob", "oven"; may be new to the standard list
	Count  int             // rings, ovens, fryers
	Places int             // places in each that share one temperature: shelves of an oven; else 1; 0: more than anyone counts (a fridge)
	Load   quantity.Amount // what one takes at once, zero when it does not matter
	Heat   bool            // never left alone
	Temp   bool            // has one temperature at a time
	Litres float64         // what goes on one shelf, "9 L a shelf"; 0 when not said
	HotIn  int             // minutes from cold to hot; 0 when not said
	Pos    document.Pos
}
