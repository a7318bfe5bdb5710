package card

import (
	"strings"

	"hobside/internal/document"
)

// keepPlaces are the places that a hold may name, as [Keep.Place] holds them.
var keepPlaces = [...]string{"chilled", "frozen", "room", "hot"}

// keeps reads how long something may be held: "4 d chilled, 90 d frozen" or
// "straight on". A part that is not understood is a problem.
func (p *parser) keeps(f document.Fact) []Keep {
	var out []Keep
	f.Split(func(part string, at int) {
		low := strings.ToLower(part)
		switch low {
		case "straight on", "straight away", "at once", "immediately":
			out = append(out, Keep{Place: "straight on"})
			return
		}
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
		place, ok := keepPlace(strings.TrimSpace(rest))
		if !ok {
			rest = strings.TrimSpace(rest)
			if rest == "" {
				p.Err(at, f.Word+`: "`+part+`" does not say where`, "", `add "chilled", "frozen", "room" or "hot"`)
			} else {
				p.Err(at, f.Word+`: "`+rest+`" is not a place to keep food`, document.Nearest(rest, keepPlaces[:]), `the places are chilled, frozen, room, hot`)
			}
			return
		}
		out = append(out, Keep{Seconds: seconds, Place: place})
	})
	return out
}

// keepPlace returns the place in [keepPlaces] that the words mean. ok is false
// when they mean none.
func keepPlace(s string) (place string, ok bool) {
	for again := true; again; {
		s, again = document.CutAny(s, "in ", "at ", "the ", "a ", "kept ", "held ")
	}
	switch s {
	case "chilled", "fridge", "cold", "refrigerated":
		return "chilled", true
	case "frozen", "freezer":
		return "frozen", true
	case "room", "room temperature", "ambient", "cool place", "dry place":
		return "room", true
	case "hot", "warm", "hot cupboard", "bain-marie", "oven":
		return "hot", true
	}
	return "", false
}
