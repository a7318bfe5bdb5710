package card

import "strings"

// keepPlaces are the places a keeping time may name, as [Keep.Place] has them.
var keepPlaces = [...]string{"chilled", "frozen", "room", "hot"}

// keeps reads "4 d chilled, 90 d frozen" or "straight on".
func (d *Doc) keeps(f Fact) []Keep {
	var out []Keep
	d.Split(f, func(part string, at int) {
		low := strings.ToLower(part)
		switch low {
		case "straight on", "straight away", "at once", "immediately":
			out = append(out, Keep{Place: "straight on"})
			return
		}
		trimAny(&low, "up to ", "for ", "at most ")
		seconds, _, rest, what := readTime(low) // of a range the shorter: it must still be good then
		if what != "" {
			d.Err(at, f.Word+": "+what+` in "`+part+`"`, "", `write it like "4 d chilled", "2 h room" or "straight on"`)
			return
		}
		place, ok := keepPlace(strings.TrimSpace(rest))
		if !ok {
			rest = strings.TrimSpace(rest)
			if rest == "" {
				d.Err(at, f.Word+`: "`+part+`" does not say where`, "", `add "chilled", "frozen", "room" or "hot"`)
			} else {
				d.Err(at, f.Word+`: "`+rest+`" is no place to keep food`, Nearest(rest, keepPlaces[:]), `the places are chilled, frozen, room, hot`)
			}
			return
		}
		out = append(out, Keep{Seconds: seconds, Place: place})
	})
	return out
}

func keepPlace(s string) (place string, ok bool) {
	for again := true; again; {
		again = trimAny(&s, "in ", "at ", "the ", "a ", "kept ", "held ")
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

// Split hands on the parts of a value that commas part. A comma between figures
// ("1,5 kg") or within brackets parts nothing.
func (d *Doc) Split(f Fact, each func(part string, at int)) { splitList(f.Value, f.ValueAt, each) }

func splitList(s string, at int, each func(part string, at int)) {
	depth, start := 0, 0
	emit := func(end int) {
		part := s[start:end]
		lead := len(part) - len(leftTrimmed(part))
		if part = strings.TrimSpace(part); part != "" {
			each(part, at+start+lead)
		}
		start = end + 1
	}
	for i := range len(s) {
		switch c := s[i]; c {
		case '(', '[':
			depth++
		case ')', ']':
			depth = max(0, depth-1)
		case ',', ';':
			if depth > 0 || c == ',' && i > 0 && i+1 < len(s) && digit(s[i-1]) && digit(s[i+1]) {
				continue
			}
			emit(i)
		}
	}
	emit(len(s))
}

func digit(c byte) bool { return c >= '0' && c <= '9' }
