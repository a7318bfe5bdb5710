package quantity

import (
	"encoding/json"
	"fmt"
)

// An Amount is how much of an item a text asks for: a number or a range, and a
// unit. The zero Amount means that the text gives none.
type Amount struct {
	Qty     Number `json:"qty"`               // the figure; the lower end of a range
	To      Number `json:"to,omitzero"`       // the upper end of a range, else 0
	Unit    *Unit  `json:"unit"`              // nil only in the zero Amount and in "to taste"; JSON: the unit's name
	ToTaste bool   `json:"toTaste,omitempty"` // "to taste", "as needed": no figure; never scaled
	About   bool   `json:"about,omitempty"`   // "about 1.6 kg"
}

// Scale returns a × f, exactly. A "to taste" stays as it is.
func (a Amount) Scale(f Number) Amount {
	a.Qty, a.To = a.Qty.Mul(f), a.To.Mul(f)
	return a
}

// Need returns the figure to plan with, in a's unit: the upper end of a range, so
// that there is enough at the stove.
func (a Amount) Need() Number {
	if !a.To.IsZero() {
		return a.To
	}
	return a.Qty
}

// amountJSON is an Amount in JSON: exact figures as strings, the unit by its name.
type amountJSON struct {
	Qty     Number  `json:"qty"`
	To      *Number `json:"to,omitempty"`
	Unit    string  `json:"unit,omitempty"`
	ToTaste bool    `json:"toTaste,omitempty"`
	About   bool    `json:"about,omitempty"`
}

// MarshalJSON writes {"qty":"7/3","unit":"kilogram"}.
func (a Amount) MarshalJSON() ([]byte, error) {
	out := amountJSON{Qty: a.Qty, ToTaste: a.ToTaste, About: a.About}
	if !a.To.IsZero() {
		out.To = &a.To
	}
	if a.Unit != nil {
		out.Unit = a.Unit.Name
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads what [Amount.MarshalJSON] writes. The unit may be any
// spelling that [LookupUnit] knows; another is an error.
func (a *Amount) UnmarshalJSON(b []byte) error {
	var in amountJSON
	if err := json.Unmarshal(b, &in); err != nil {
		return err
	}
	*a = Amount{Qty: in.Qty, ToTaste: in.ToTaste, About: in.About}
	if in.To != nil {
		a.To = *in.To
	}
	if in.Unit == "" {
		return nil
	}
	u, ok := LookupUnit(in.Unit)
	if !ok {
		return fmt.Errorf("unknown unit %q", in.Unit)
	}
	a.Unit = u
	return nil
}
