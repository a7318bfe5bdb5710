package menu

import (
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Menu is the courses of a dinner, each with its plates, for a number of covers.
type Menu struct {
	ID      string // the file's name without ".md"
	File    string
	Title   string
	Intro   string
	Covers  int
	Serve   document.When   // when the first course is served
	Margin  quantity.Number // extra on every component that asks for none itself, as a fraction
	Kitchen string          // ID of the kitchen it names, "" for none
	Courses []Course
	Guests  []Guests
	Foods   *larder.Foods // the kitchen's own foods, by which guests' words are read; nil for none
	Source  []byte
}

// A Course is some plates that are served at one time.
type Course struct {
	Name   string
	After  int  // minutes after Menu.Serve
	Struck bool // the cook took it off: it is not served, and its plates are not made
	Plates []Plate
	Unread []string // lines that may be plates and could not be read, as typed: an error; no guest's words are checked against them
	Pos    document.Pos
}

// Served returns the plates of a course that are made: all, or none where it is struck.
func (c *Course) Served() []Plate {
	if c.Struck {
		return nil
	}
	return c.Plates
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
	Covers     int
	Exclude    []string // "fish", "coeliac": words that the food table understands, without "no"
	NotChecked []string // words that are not understood, as typed: an error, shown in red wherever guests are
	Note       string
	Pos        document.Pos
}
