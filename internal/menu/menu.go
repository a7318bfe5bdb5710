package menu

import (
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// A Menu is what is served: courses of plates, for so many covers.
type Menu struct {
	ID      string // the file's name without ".md"
	File    string
	Title   string
	Intro   string
	Covers  int
	Serve   When            // when the first course goes out
	Margin  quantity.Number // extra on every component that asks for none itself, as a fraction
	Kitchen string          // ID of the kitchen it names, "" for none
	Courses []Course
	Guests  []Guests
	Source  []byte
}

// A Course goes out at its own time.
type Course struct {
	Name   string
	After  int // minutes after Menu.Serve
	Plates []Plate
	Pos    document.Pos
}

// A Plate is a line of a course: a card, how much of it a cover gets, and who
// gets it.
type Plate struct {
	Card   string          // card ID
	Name   string          // the link's text
	Amount quantity.Amount // per cover; zero: the card's portion, else one of what it makes
	For    []string        // exclusions it is served for ("fish"): those guests get it in place of the nearest plate above without any; empty: everybody else
	Pos    document.Pos
}

// Guests is a group of covers with the same exclusions.
type Guests struct {
	Covers  int
	Exclude []string // "fish", "gluten": an allergen code, or a word looked for in item names
	Note    string
	Pos     document.Pos
}

// A Kitchen is what there is to cook with.
type Kitchen struct {
	ID        string
	File      string
	Title     string
	Cooks     []string // one name per cook: "first cook"; ParseKitchen names them when the file gives only a count
	Equipment []Equipment
	Hours     []Shift
	Rules     string // rule set of the safety limits: "us" or "uk"; "" when not said
	Prices    []Price
	AltitudeM int
	Zone      string // IANA name, "" for the server's own
	Source    []byte
}

// A Price is what an item costs where the kitchen buys.
type Price struct {
	Item     string
	Cost     quantity.Number
	Currency string          // as typed, "€" or "EUR"; "" when not said
	Per      quantity.Amount // what that buys: 1 kg, 12, 1 bunch
	Pos      document.Pos
}

// Equipment is one kind of thing a step can occupy.
type Equipment struct {
	Name   string          // "hob", "oven"; may be new to the standard list
	Count  int             // rings, ovens, fryers
	Places int             // places in each that one temperature rules: shelves of an oven; else 1; 0: more than anyone counts (a fridge)
	Load   quantity.Amount // what one takes at once, zero when it doesn't matter
	Heat   bool            // never left alone
	Temp   bool            // has one temperature at a time
	Pos    document.Pos
}
