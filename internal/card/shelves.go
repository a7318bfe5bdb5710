package card

import (
	"math"
	"strconv"
	"strings"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// Shelves are how much of what holds food something takes: shelves of a hot cupboard, a fridge
// or a freezer, places of a bain-marie.
type Shelves struct {
	Count int             // shelves; 0 when not said
	Per   quantity.Amount // that Count is for so much, "1 shelf per 12 pieces"; zero: for the formula as typed
	Words string          // as typed
}

// Plates say that the plates, bowls or glasses of a step are warmed or chilled before it.
type Plates struct {
	Keep      // how long before the step they are there at the latest, where, and their room
	Set  bool // the step says so
	Cold bool // chilled, not warmed
}

// bareWords takes what may stand before a place off it: "in the fridge" is "fridge".
func bareWords(s string) string {
	for again := true; again; {
		s, again = document.CutAny(s, "in ", "at ", "the ", "a ", "an ", "kept ", "held ")
	}
	return s
}

// holder returns the equipment that holds food and that the words name, "" for none.
func holder(s string) string {
	std, _ := document.FindEquipment(bareWords(s))
	if document.HoldsFood(std.Name) == "" {
		return ""
	}
	return std.Name
}

// where reads where something is held: "hot", "chilled in the fridge", "oven at 70 °C". It
// adds a problem and returns false for other words. Part is all that was typed, for messages.
func (p *parser) where(word, part, rest string, at int) (k Keep, ok bool) {
	where := rest
	if i := strings.LastIndex(" "+where, " at "); i >= 0 { // the space before it is not in where
		if c, ok := degreesAlone(where[i+len("at "):]); ok {
			k.TempC, k.HasTemp, where = c, true, strings.TrimSpace(where[:i])
		}
	}
	place, in := where, ""
	if before, after, cut := strings.Cut(where, " in "); cut && holder(after) != "" {
		place, in = before, holder(after)
	} else {
		in = holder(where)
	}
	if k.Place, ok = keepPlace(place); !ok {
		if rest == "" {
			p.Err(at, word+`: "`+document.Clip(part)+`" does not say where`, "", `add "chilled", "frozen", "room" or "hot"`)
			return k, false
		}
		p.Err(at, word+`: "`+document.Clip(rest)+`" is not a place to keep food`, document.Nearest(place, keepPlaces[:]), `the places are chilled, frozen, room, hot; or name what holds it, like "hot cupboard" or "oven at 70 °C"`)
		return k, false
	}
	if in != "" && document.HoldsFood(in) != k.Place {
		p.Err(at, word+`: the `+in+` does not keep food `+k.Place, "", `write "`+document.HoldsFood(in)+`", or name what does`)
		return k, false
	}
	k.In = in
	return k, p.warmth(word, part, at, &k)
}

// warmth reports whether the temperature of a hold can be that of its place. It adds a
// problem where it can't.
func (p *parser) warmth(word, part string, at int, k *Keep) bool {
	// The bounds catch slips of figures and units; the limits are those of the rules.
	least, most := -60.0, 150.0
	switch k.Place {
	case "chilled":
		least, most = -5, 15
	case "frozen":
		most = 0
	case "room":
		least, most = 5, 40
	case "hot":
		least = 35
	}
	if k.HasTemp && (k.TempC < least || k.TempC > most) {
		p.Err(at, word+`: "`+document.Clip(part)+`": `+celsius(k.TempC)+" does not keep it "+k.Place, "", "check the figure and its unit")
		return false
	}
	return true
}

// beside reads a part that adds to the hold before it: its temperature or its room. It
// reports whether the part is one of those, and adds the problem of one that is wrong.
func (p *parser) beside(word, part string, at int, keeps []Keep) bool {
	low := strings.ToLower(part)
	cut, _ := document.CutAny(low, "at ")
	c, isTemp := degreesAlone(cut)
	room, isRoom, right := p.shelves(part)
	switch {
	case !isTemp && !isRoom:
		return false
	case len(keeps) == 0:
		p.Err(at, word+`: "`+document.Clip(part)+`" comes before the time and the place that it is about`, "", `write it like "25 min hot cupboard, 1 shelf"`)
		return true
	}
	k := &keeps[len(keeps)-1]
	switch {
	case isTemp && !k.HasTemp && k.Seconds > 0:
		k.TempC, k.HasTemp = c, true
		p.warmth(word, part, at, k)
	case isRoom && right && k.Shelves.Count == 0 && k.Place != "room" && k.Seconds > 0:
		k.Shelves = room
	case isRoom && right && k.Place == "room":
		p.Err(at, word+`: "`+document.Clip(part)+`": what is kept at room temperature takes no shelf`, "", "take it out, or write where it is held")
	case isRoom && !right:
		p.Err(at, word+`: "`+document.Clip(part)+`" is not understood whole`, "", `write it like "2 shelves" or "1 shelf per 12 pieces"`)
	default:
		p.Err(at, word+`: "`+document.Clip(part)+`" says a second time what is said already`, "", "take one out")
	}
	return true
}

// degreesAlone reads a text that is one temperature with its unit and nothing more, in °C.
func degreesAlone(s string) (celsius float64, ok bool) {
	if s == "" || document.IsDigit(s[len(s)-1]) {
		return 0, false
	}
	return document.ParseTemperature(s, "")
}

// shelves reads "2 shelves" or "1 shelf per 12 pieces". ok reports whether the part begins with
// a number of places, right whether all of it was understood.
func (p *parser) shelves(part string) (r Shelves, ok, right bool) {
	places, per, cut := strings.Cut(strings.ToLower(part), " per ")
	figure, what, _ := strings.Cut(places, " ")
	n, err := strconv.Atoi(figure)
	if err != nil || !isPlace(strings.TrimSpace(what)) {
		return r, false, false
	}
	r = Shelves{Count: n, Words: document.Valid(part)}
	if !cut {
		return r, true, n >= 1 && n <= 99
	}
	a, rest, err := p.Measures.ParseAmount(per)
	if a.Unit == nil || err != nil { // "per plate"
		a, rest, err = p.Measures.ParseAmount("1 " + per)
	}
	r.Per = a
	return r, true, err == nil && rest == "" && a.Unit != nil && a.Qty.Sign() > 0 && n >= 1 && n <= 99
}

// plates reads how the plates of a step are got ready: "30 min hot cupboard, 1 shelf per 20
// plates", with "cold" or "warm" before it where wanted.
func (p *parser) plates(f document.Fact) (out Plates) {
	said := ""
	if word, rest, cut := strings.Cut(f.Value, ","); cut {
		if place, ok := keepPlace(strings.ToLower(strings.TrimSpace(word))); ok && holder(strings.ToLower(word)) == "" {
			said = place
			trimmed := strings.TrimLeft(rest, " ")
			f.ValueAt += len(f.Value) - len(trimmed)
			f.Value = trimmed
		}
	}
	before := len(p.Problems)
	keeps := p.keeps(f)
	do := `write it like "plates: 30 min hot cupboard, 1 shelf per 20 plates" or "plates: 1 h fridge"`
	switch {
	case len(p.Problems) > before:
		return out
	case len(keeps) != 1 || keeps[0].Seconds == 0:
		p.Err(f.ValueAt, `plates: "`+document.Clip(f.Value)+`" is not how long they are warmed or chilled, and where`, "", do)
		return out
	case said != "" && said != keeps[0].Place || keeps[0].Place == "room":
		p.Err(f.ValueAt, `plates: "`+document.Clip(f.Value)+`" neither warms nor chills them as it says`, "", do)
		return out
	}
	return Plates{Keep: keeps[0], Set: true, Cold: keeps[0].Place != "hot"}
}

// ShelvesFor returns how many shelves something takes by what is typed, when the card is made
// factor times over: "1 shelf per 12 pieces" of 30 pieces is 2.5, for others may stand on the
// rest of the third. A card that makes plates takes as many as typed, whatever their number, where
// it does not say for how many. It returns 0 where the card does not say at all.
func (c *Card) ShelvesFor(r Shelves, factor quantity.Number) float64 {
	times := factor
	switch {
	case r.Count == 0:
		return 0
	case r.Per.Unit != nil:
		n, ok := c.amountIn(r.Per.Unit, factor)
		if !ok {
			return float64(r.Count)
		}
		times = n.Quo(r.Per.Qty)
	case c.IsPlate():
		times = quantity.Int(1)
	}
	return min(mostShelves, times.Float64()*float64(r.Count))
}

// mostShelves is more than any kitchen has.
const mostShelves = 1000

// amountIn returns what the card makes, factor times over, in a unit. ok is false where
// nothing brings it to that unit.
func (c *Card) amountIn(unit *quantity.Unit, factor quantity.Number) (n quantity.Number, ok bool) {
	made := c.Makes.Need().Mul(factor)
	if oneEach(c.Makes.Unit, unit) {
		return made, true
	}
	if n, _, ok := between(c.Title, made, c.Makes.Unit, unit, c.Own()); ok {
		return n, true
	}
	n, _, err := larder.Convert(c.Title, made, c.Makes.Unit, unit, c.Own())
	return n, err == nil
}

// Litres returns the volume of what the card makes, or of one of its by-products where one
// is named, when the card is made factor times over; 0 where that is not known. Weights are
// taken at 1 kg a litre where the density is not known.
func (c *Card) Litres(save string, factor quantity.Number) float64 {
	a, name, own := c.Makes, c.Title, c.Own()
	for _, b := range c.Saves {
		if b.Slug == save {
			a, name, own = b.Amount, b.Name, larder.Own{Foods: c.Foods}
		}
	}
	var f Fill
	f.add(name, a.Scale(factor), own)
	return math.Max(0, f.Litres)
}
