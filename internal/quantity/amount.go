package quantity

// An Amount is what stands before an item: a number or a range, and a unit.
// The zero Amount means that nothing was said.
type Amount struct {
	Qty     Number `json:"qty"`               // the figure; the lower end of a range
	To      Number `json:"to,omitzero"`       // the upper end of a range, else 0
	Unit    *Unit  `json:"unit"`              // nil only in the zero Amount and in "to taste"; JSON: the unit's name
	ToTaste bool   `json:"toTaste,omitempty"` // "to taste", "as needed": no figure; never scaled
	About   bool   `json:"about,omitempty"`   // "about 1.6 kg"
}

// Scale returns a times f, exactly.
func (a Amount) Scale(f Number) Amount {
	a.Qty, a.To = a.Qty.Mul(f), a.To.Mul(f)
	return a
}

// Need returns the amount to plan with: the upper end of a range, so that
// nobody runs short at the stove.
func (a Amount) Need() Number {
	if !a.To.IsZero() {
		return a.To
	}
	return a.Qty
}
