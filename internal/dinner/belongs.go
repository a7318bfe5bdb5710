package dinner

import (
	"fmt"
	"slices"
)

// A field is one of an event's words, as a bit: which of them a kind may carry
// is a line of the table in validate.go. A field that says nothing for its kind
// is refused and not dropped: the phone that sent it meant something by it.
type field uint

const (
	hasDone field = 1 << iota
	hasAmount
	hasTempC
	hasStart
	hasEnd
	hasNumber
	hasText
	hasUndo
	hasOpen
	hasPlan
)

// fieldNames are as JSON has them, in the order of the bits.
var fieldNames = [...]string{"done", "amount", "tempC", "start", "end", "number", "text", "undo", "open", "plan"}

// fields are those that an event carries.
func (e *Event) fields() field {
	var f field
	for i, set := range [...]bool{e.Done, e.Amount != nil, e.TempC != nil, e.Start != 0, e.End != 0, e.Number != 0, e.Text != "", e.Undo != "", e.Open != nil, e.Plan != nil} {
		if set {
			f |= 1 << i
		}
	}
	return f
}

// checkFields says which field does not belong to an event of its kind.
func checkFields(e Event, may field) error {
	stray := e.fields() &^ may
	for i, name := range fieldNames {
		if stray&(1<<i) != 0 {
			return fmt.Errorf("%s with %q: that says nothing there", e.Kind, name)
		}
	}
	return nil
}

// Kinds lists every kind there is, sorted.
func Kinds() []Kind {
	out := make([]Kind, 0, len(checks))
	for k := range checks {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
