package dinner

import (
	"fmt"
)

// A field is one field of an event, as a bit. The table in validate.go says which
// fields a kind may have. A field that a kind does not have is refused and not
// dropped: the phone that sent it meant something by it.
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
	hasDo
)

// fieldNames are the names in JSON, in the order of the bits.
var fieldNames = [...]string{"done", "amount", "tempC", "start", "end", "number", "text", "undo", "open", "plan", "do"}

// fields returns the fields that an event has.
func (e *Event) fields() field {
	var f field
	for i, set := range [...]bool{e.Done, e.Amount != nil, e.TempC != nil, e.Start != 0, e.End != 0, e.Number != 0, e.Text != "", e.Undo != "", e.Open != nil, e.Plan != nil, e.Do != nil} {
		if set {
			f |= 1 << i
		}
	}
	return f
}

// checkFields returns an error for a field that events of this kind don't have.
func checkFields(e Event, may field) error {
	stray := e.fields() &^ may
	for i, name := range fieldNames {
		if stray&(1<<i) != 0 {
			return fmt.Errorf("%s with %q: that says nothing there", e.Kind, name)
		}
	}
	return nil
}
