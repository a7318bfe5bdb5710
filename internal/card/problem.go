package card

import "strconv"

// Severity sorts problems: an error makes the card wrong at the stove, a
// warning deserves a look.
type Severity string

const (
	Error   Severity = "error"
	Warning Severity = "warning"
)

// A Problem is one thing to mend in a card, menu or kitchen, placed where the
// author typed it.
type Problem struct {
	File     string   `json:"file"`
	Line     int      `json:"line"` // from 1
	Col      int      `json:"col"`  // from 1, in runes
	Severity Severity `json:"severity"`
	Msg      string   `json:"msg"`            // what is wrong: lower case, no full stop
	Hint     string   `json:"hint,omitempty"` // the word meant; empty where we would only guess
	Do       string   `json:"do,omitempty"`   // what to do, when it is more than typing Hint
}

// Error prints what editors turn into a link:
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
