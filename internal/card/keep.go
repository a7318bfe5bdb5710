package card

import (
	"math"
	"strconv"
	"strings"

	"hobside/internal/document"
)

// keepPlaces are the places that a hold may name, as [Keep.Place] holds them.
var keepPlaces = [...]string{"chilled", "frozen", "room", "hot"}

// keeps reads how long something may be held, where, and how much room it takes there:
// "4 d chilled, 90 d frozen", "25 min in the hot cupboard at 70 °C, 1 shelf per 12 pieces" or
// "straight on". A part that is not understood is a problem.
func (p *parser) keeps(f document.Fact) []Keep {
	var out []Keep
	faulty := false // the hold that a part would add to has a problem of its own
	f.Split(func(part string, at int) {
		low := strings.ToLower(part)
		switch low {
		case "straight on", "straight away", "at once", "immediately":
			out = append(out, Keep{Place: "straight on"})
			return
		}
		if !faulty && p.beside(f.Word, part, at, out) {
			return
		}
		if _, room, _ := p.shelves(part); room {
			return
		}
		faulty = true
		low, _ = document.CutAny(low, "up to ", "for ", "at most ")
		seconds, _, rest, what := document.CutTime(low) // the lower end of a range, at which the food is certainly still good
		if what != "" {
			p.Err(at, f.Word+": "+what+` in "`+part+`"`, "", `write it like "4 d chilled", "2 h room" or "straight on"`)
			return
		}
		if seconds == 0 {
			p.Err(at, f.Word+`: "`+part+`" is no time at all`, "", `write how long it keeps, or "straight on"`)
			return
		}
		k, ok := p.where(f.Word, part, strings.TrimSpace(rest), at)
		if !ok {
			return
		}
		k.Seconds, faulty = seconds, false
		out = append(out, k)
	})
	return out
}

// keepPlace returns the place in [keepPlaces] that the words mean. ok is false
// when they mean none.
func keepPlace(s string) (place string, ok bool) {
	switch s = bareWords(s); s {
	case "chilled", "cold", "refrigerated":
		return "chilled", true
	case "frozen":
		return "frozen", true
	case "room", "room temperature", "ambient", "cool place", "dry place":
		return "room", true
	case "hot", "warm":
		return "hot", true
	}
	if in := holder(s); in != "" {
		return document.HoldsFood(in), true
	}
	return "", false
}

// String returns the hold in words: "4 d chilled", "25 min hot in the oven at 70 °C, 1 shelf",
// or "straight on".
func (k Keep) String() string { return k.with(k.Shelves.Words) }

// with returns the hold in words, with the words for its shelves.
func (k Keep) with(shelves string) string {
	if k.Seconds == 0 {
		return k.Place
	}
	text := document.FormatSeconds(k.Seconds) + " " + k.where()
	if shelves != "" {
		text += ", " + shelves
	}
	return text
}

// held returns a hold as the stove shows it, with the shelves that the batch takes.
func (s *Scaled) held(k Keep) string {
	switch n := math.Ceil(s.Card.ShelvesFor(k.Shelves, s.Factor)); n {
	case 0:
		return k.with("")
	case 1:
		return k.with("1 shelf")
	default:
		return k.with(strconv.Itoa(int(n)) + " shelves")
	}
}

// where returns where something is held, in words: "hot in the oven at 70 °C".
func (k Keep) where() string {
	text := k.Place
	if k.In != "" {
		text += " in the " + k.In
	}
	if k.HasTemp {
		text += " at " + celsius(math.Round(k.TempC*10)/10) // 160 °F are 71.1 °C
	}
	return text
}
