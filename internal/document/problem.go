package document

import "strconv"

// A Pos is a place in a file. Both numbers count from 1; Col counts runes, as
// editors do.
type Pos struct{ Line, Col int }

// Severity says how bad a problem is: an error makes the result wrong at the
// stove, a warning deserves a look.
type Severity string

const (
	Error   Severity = "error"
	Warning Severity = "warning"
)

// A Problem is one mistake in a card, menu or kitchen, with its place in the
// text the author typed.
type Problem struct {
	File     string   `json:"file"`
	Line     int      `json:"line"` // from 1
	Col      int      `json:"col"`  // from 1, in runes
	Severity Severity `json:"severity"`
	Msg      string   `json:"msg"`              // what is wrong: lower case, no full stop
	Hint     string   `json:"hint,omitempty"`   // the word that was meant; empty where we would only guess
	Do       string   `json:"do,omitempty"`     // what to do, when it is more than typing Hint
	Guests   bool     `json:"guests,omitempty"` // it is about a guest's word that is not checked, which the guests' screen shows by itself
}

// Error returns the problem as editors turn it into a link:
// brown-chicken-stock.md:18:6: unknown fact "hand"; did you mean "hands"?
func (f Problem) Error() string {
	s := f.File + ":" + strconv.Itoa(f.Line) + ":" + strconv.Itoa(f.Col) + ": "
	if f.Severity == Warning {
		s += "warning: "
	}
	s += f.Msg
	if f.Hint != "" {
		s += "; did you mean " + strconv.Quote(f.Hint) + "?"
	}
	if f.Do != "" {
		s += "; " + f.Do
	}
	return s
}
