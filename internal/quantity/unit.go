package quantity

// A Dimension says what a unit measures. Amounts of different dimensions convert
// only by a density or by what one piece weighs.
type Dimension uint8

const (
	Count  Dimension = iota // pieces, cloves, leaves, plates: each a kind of its own
	Mass                    // base unit gram
	Volume                  // base unit millilitre
	Length                  // base unit millimetre
)

// A Unit is one row of the unit table. There is one *Unit for each, so that units
// can be compared with ==.
type Unit struct {
	Name   string    // "gram", "cup", "clove": singular, lower case; the key in JSON
	Plural string    // "grams", "cups", "cloves"
	Symbol string    // what is shown after the figure: "g", "cup", "clove"
	Dim    Dimension // what it measures
	Factor Number    // how many base units one is; for Count, 1
	System System    // the system in which it is shown as typed
}

// scaleDecimals says whether amounts of u are written with three decimals, as a scale
// or a meter shows them: 1.250 kg.
func (u *Unit) scaleDecimals() bool {
	switch u.Dim {
	case Mass:
		return u.Factor.Cmp(byWord["pound"].Factor) >= 0
	case Volume:
		return u.Factor.Cmp(byWord["pint"].Factor) >= 0
	}
	return false
}

// A System is a family of units that a cook can choose to read amounts in.
type System uint8

const (
	Metric System = iota
	US
	Imperial
	Kitchen // pinch, bunch, leaf: shown as typed in every system
)

// Each is the unit of a bare number ("3 eggs").
var Each = &Unit{Name: "each", Plural: "each", Symbol: "", Dim: Count, Factor: Int(1), System: Kitchen}
