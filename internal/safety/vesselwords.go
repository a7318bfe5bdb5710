package safety

import (
	"fmt"
	"strconv"
	"strings"
)

// PourWord begins a note that says how something cools:
// "cooling: 4 kg stock, thin, 12 cm deep, 30 cm across, in an ice bath".
const PourWord = "cooling:"

// placeWords are the words for each place, the longer first.
var placeWords = []struct{ words, place string }{
	{"stirred ice bath", "stirred ice bath"}, {"ice bath, stirred", "stirred ice bath"}, {"ice bath", "ice bath"}, {"iced water", "ice bath"}, {"ice", "ice bath"},
	{"blast chiller", "blast"}, {"blast", "blast"}, {"fridge", "fridge"}, {"cold room", "fridge"}, {"bench", "bench"}, {"room", "bench"},
}

// shortClass are other words for a class.
var shortClass = map[string]Class{"meat": Beef, "vegetables": Vegetable, "soup": Stock, "sauce": Stock, "milk": Stock, "eggs": Egg, "fish": Fish, "cooked": Cooked, "mince": Minced}

// ParseVessel reads what a cook says about something that cools: parts with commas
// between, in any order. A mass ("4 kg"), a depth ("6 cm deep"), a width ("30 cm
// across", "53 × 33 cm"), "a roll" or "a ball", "thin" or "thick", where ("in
// the fridge at 4 °C", "ice bath"), "from 85 °C", and what it is ("stock").
// Lengths may be mm, cm, m or in; temperatures °C or °F. A part that is not understood
// is an error that says what to write, and no part is then returned.
func ParseVessel(text string) (Vessel, error) {
	var v Vessel
	text = strings.TrimSpace(text)
	if len(text) > len(PourWord) && strings.EqualFold(text[:len(PourWord)], PourWord) {
		text = text[len(PourWord):]
	}
	text = strings.ReplaceAll(text, "ice bath, stirred", "stirred ice bath")
	for part := range strings.SplitSeq(points(text), ",") {
		part = strings.ToLower(strings.TrimSpace(part))
		if part == "" {
			continue
		}
		if err := v.read(part); err != nil {
			return Vessel{}, err
		}
	}
	return v, nil
}

// points replaces decimal commas by points, so that every other comma separates parts.
func points(s string) string {
	b := []byte(s)
	digit := func(i int) bool { return i >= 0 && i < len(b) && b[i] >= '0' && b[i] <= '9' }
	for i := range b {
		if b[i] == ',' && digit(i-1) && digit(i+1) {
			b[i] = '.'
		}
	}
	return string(b)
}

// read takes in one part.
func (v *Vessel) read(part string) error {
	if rest, ok := strings.CutPrefix(part, "from "); ok {
		c, left, ok := degrees(rest)
		if !ok || left != "" {
			return fmt.Errorf("%q: write it like from 85 °C", part)
		}
		v.FromC, v.HasFrom = c, true
		return nil
	}
	if n, unit, ok := leading(part); ok {
		return v.measure(part, n, unit)
	}
	switch part {
	case "thin":
		v.Thin, v.Thick = true, false
		return nil
	case "thick":
		v.Thick, v.Thin = true, false
		return nil
	case "a roll", "roll":
		v.Roll = true
		return nil
	case "a ball", "ball":
		v.Ball = true
		return nil
	}
	return v.name(part)
}

// name reads a place or a class of food.
func (v *Vessel) name(part string) error {
	bare := part
	for _, article := range [...]string{"in an ", "in a ", "in the ", "on the ", "in ", "as ", "of "} {
		if rest, ok := strings.CutPrefix(bare, article); ok {
			bare = rest
			break
		}
	}
	where, at, hasAt := strings.Cut(bare, " at ")
	for _, p := range placeWords {
		if where != p.words {
			continue
		}
		v.Place = p.place
		if hasAt {
			c, left, ok := degrees(at)
			if !ok || left != "" {
				return fmt.Errorf("%q: write it like %s at 4 °C", part, where)
			}
			v.PlaceC, v.HasPlace = c, true
		}
		return nil
	}
	if c, ok := classNamed(bare); ok {
		v.Class = c
		if bare == "milk" {
			v.Thin = !v.Thick
		}
		return nil
	}
	return fmt.Errorf("%q is not understood: say what it is (stock, rice, meat), 4 kg, 6 cm deep, 30 cm across, thin, in an ice bath, from 85 °C", part)
}

// classNamed returns the class with a name, another word for it, or the name of a food
// of it.
func classNamed(word string) (Class, bool) {
	for _, c := range Classes() {
		if string(c) == word || string(c)+"s" == word {
			return c, true
		}
	}
	if c, ok := shortClass[word]; ok {
		return c, true
	}
	c := ClassOf(word)
	return c, c != NotKnown
}

// measure reads a part that begins with a figure.
func (v *Vessel) measure(part string, n float64, rest string) error {
	if n <= 0 {
		return fmt.Errorf("%q: nothing is that small; write a figure over 0, or leave it out", part)
	}
	unit, rest, _ := strings.Cut(strings.TrimSpace(rest), " ")
	rest = strings.TrimSpace(rest)
	if scale, ok := map[string]float64{"kg": 1, "g": 0.001, "l": 1, "ml": 0.001, "lb": 0.45359237, "oz": 0.45359237 / 16}[unit]; ok {
		v.Kg = n * scale // a litre of food that is mostly water
		if rest != "" {
			return v.name(rest)
		}
		return nil
	}
	if unit == "×" || unit == "x" {
		n2, rest2, ok := leading(rest)
		scale, known := lengths[strings.TrimSpace(rest2)]
		if !ok || !known || n2 <= 0 {
			return fmt.Errorf("%q: write a tray like 53 × 33 cm", part)
		}
		v.LengthM, v.WidthM = n*scale, n2*scale
		return nil
	}
	scale, ok := lengths[unit]
	if !ok {
		return fmt.Errorf("%q: write a mass like 4 kg, a length like 6 cm deep or 30 cm across", part)
	}
	switch rest {
	case "deep", "thick", "high":
		v.DepthM = n * scale
	case "across", "wide", "round":
		v.AcrossM = n * scale
	default:
		return fmt.Errorf("%q: is that how deep it is, or how wide? say %s deep or %s across", part, part, part)
	}
	return nil
}

// lengths are units of length in metres.
var lengths = map[string]float64{"mm": 0.001, "cm": 0.01, "m": 1, "in": 0.0254, "inch": 0.0254, "inches": 0.0254}

// leading reads a number at the start: "6.5 cm".
func leading(s string) (n float64, rest string, ok bool) {
	end := 0
	for end < len(s) && (s[end] >= '0' && s[end] <= '9' || s[end] == '.' && end > 0) {
		end++
	}
	n, err := strconv.ParseFloat(s[:end], 64)
	return n, s[end:], err == nil
}

// degrees reads a temperature: "85 °C", "−5 °C", "185 °F"; a bare figure is °C.
func degrees(s string) (c float64, rest string, ok bool) {
	s = strings.TrimSpace(s)
	sign := 1.0
	for _, minus := range [...]string{"−", "-", "–"} {
		if r, ok := strings.CutPrefix(s, minus); ok {
			s, sign = r, -1
		}
	}
	n, rest, ok := leading(s)
	if !ok {
		return 0, s, false
	}
	rest = strings.TrimSpace(rest)
	for _, unit := range [...]string{"°c", "°f", "° c", "° f", "c", "f"} {
		if r, ok := strings.CutPrefix(rest, unit); ok {
			if strings.HasSuffix(unit, "f") {
				return FromF(sign * n), strings.TrimSpace(r), true
			}
			return sign * n, strings.TrimSpace(r), true
		}
	}
	return sign * n, rest, true
}
