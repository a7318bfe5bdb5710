package safety

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"hobside/internal/quantity"
)

// masses are units of mass in kilograms; a litre is one of food that is mostly water.
var masses = map[string]float64{"kg": 1, "g": 0.001, "l": 1, "ml": 0.001, "lb": 0.45359237, "oz": 0.45359237 / 16}

// lengths are units of length in metres.
var lengths = map[string]float64{"mm": 0.001, "cm": 0.01, "m": 1, "in": 0.0254, "inch": 0.0254, "inches": 0.0254}

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

// vesselTokens splits a part in lower case into figures, words and signs: "53×33cm" is
// "53", "×", "33", "cm". A minus sign belongs to the figure behind it, degree signs are
// left out, and hyphens separate words.
func vesselTokens(part string) []string {
	part = strings.ReplaceAll(plain.Replace(part), "'", "")
	var out []string
	kind := 0 // of the token under way: 0 none, 1 figure, 2 word
	for _, r := range part {
		now := 0
		switch {
		case r >= '0' && r <= '9', r == '.' && kind == 1, r == '−', r == '-' && kind == 0:
			now = 1
		case unicode.IsLetter(r):
			now = 2
		case r == ' ' || r == '\t' || r == '°' || r == 'º' || r == '-' || r == '.':
		default:
			out = append(out, string(r))
		}
		if now > 0 && r == '−' {
			kind, r = 0, '-'
		}
		switch {
		case now == 0:
		case now == kind:
			out[len(out)-1] += string(r)
		default:
			out = append(out, string(r))
		}
		kind = now
	}
	for i, t := range out {
		if t == "x" && i > 0 {
			out[i] = "×"
		}
	}
	return out
}

// isFigure reports whether a token is a number.
func isFigure(t string) bool {
	_, err := strconv.ParseFloat(t, 64)
	return err == nil && (t[0] == '-' || t[0] >= '0' && t[0] <= '9')
}

// figure reads a number at the head of the rest.
func (p *vesselParser) figure() (n float64, ok bool) {
	if len(p.rest) == 0 || !isFigure(p.rest[0]) {
		return 0, false
	}
	n, _ = strconv.ParseFloat(p.rest[0], 64)
	p.rest = p.rest[1:]
	return n, true
}

// degrees reads a temperature at the head of the rest, in °C; unit says whether one was
// written. A bare figure is °C.
func (p *vesselParser) degrees() (c float64, unit, ok bool) {
	if c, ok = p.figure(); !ok {
		return 0, false, false
	}
	switch {
	case p.take("c"), p.take("celsius"), p.take("degrees c"):
		return c, true, true
	case p.take("f"), p.take("fahrenheit"), p.take("degrees f"):
		return FromF(c), true, true
	}
	return c, false, true
}

// measure reads a mass, a length or the sides of a tray.
func (p *vesselParser) measure() error {
	n, _ := p.figure()
	if n <= 0 {
		return fmt.Errorf("%q: nothing is that small; write a figure over 0, or leave it out", p.part)
	}
	unit := ""
	if len(p.rest) > 0 {
		unit, p.rest = p.rest[0], p.rest[1:]
	}
	scale, ok, err := p.mass(n, unit)
	if err != nil {
		return err
	}
	if ok {
		if p.v.Kg > 0 {
			return p.twice("how much it is")
		}
		p.v.Kg = n * scale
		for len(p.rest) > 1 && isFigure(p.rest[0]) { // "5 lb 8 oz"
			mark := p.rest
			more, _ := p.figure()
			word := p.rest[0]
			p.rest = p.rest[1:]
			less, ok, err := p.mass(more, word)
			if err != nil || !ok || less >= scale {
				p.rest = mark
				break
			}
			p.v.Kg, scale = p.v.Kg+more*less, less
		}
		if p.take("of"); len(p.rest) > 0 && !p.ends() {
			return p.food()
		}
		return nil
	}
	scale, ok = lengths[unit]
	if unit == "×" || ok && p.take("×") {
		return p.tray(n, unit)
	}
	if !ok {
		return fmt.Errorf("%q: write a mass like 4 kg, a length like 6 cm deep or 30 cm across", p.part)
	}
	switch {
	case p.take("deep"), p.take("thick"), p.take("high"):
		if p.v.DepthM > 0 {
			return p.twice("how deep it is")
		}
		p.v.DepthM = n * scale
	case p.take("across"), p.take("wide"), p.take("round"), p.take("in diameter"):
		if p.v.AcrossM > 0 || p.v.LengthM > 0 {
			return p.twice("how wide it is")
		}
		p.v.AcrossM = n * scale
	default:
		return fmt.Errorf("%q: is that how deep it is, or how wide? say %s deep or %s across", p.part, p.part, p.part)
	}
	return nil
}

// mass returns what one of a unit weighs in kilograms, where a litre is one. word is the first
// token of the unit, behind the figure n. ok is false for a word that is no unit of mass or
// volume. A bare pint, quart or gallon is an error, because there are two of each.
func (p *vesselParser) mass(n float64, word string) (kg float64, ok bool, err error) {
	if kg, ok := masses[word]; ok {
		return kg, true, nil
	}
	nation := slices.Contains([]string{"us", "american", "uk", "british", "imp", "imperial"}, word)
	u, ok := quantity.LookupUnit(word)
	for n, longer := 0, word; n < min(2, len(p.rest)); n++ { // "imperial fluid ounces"
		longer += " " + p.rest[n]
		if of, known := quantity.LookupUnit(longer); known {
			u, ok, p.rest = of, true, p.rest[n+1:]
			break
		}
	}
	if !ok || u.Dim != quantity.Mass && u.Dim != quantity.Volume || len(word) < 2 {
		return 0, false, nil
	}
	if _, imperial := quantity.LookupUnit("imperial " + u.Name); imperial && !nation {
		figure := strconv.FormatFloat(n, 'f', -1, 64) + " "
		return 0, false, fmt.Errorf("%q: which %s? write %sUS %s, %simperial %s, or litres", p.part, u.Name, figure, u.Plural, figure, u.Plural)
	}
	return u.Factor.Float64() / 1000, true, nil
}

// tray reads the second side of a tray.
func (p *vesselParser) tray(n float64, unit string) error {
	n2, ok := p.figure()
	if ok && len(p.rest) > 0 && n2 > 0 {
		if scale, known := lengths[p.rest[0]]; known {
			first := scale
			if own, ok := lengths[unit]; ok {
				first = own
			}
			if p.v.LengthM > 0 || p.v.AcrossM > 0 {
				return p.twice("how wide it is")
			}
			p.rest = p.rest[1:]
			p.v.LengthM, p.v.WidthM = n*first, n2*scale
			return nil
		}
	}
	return fmt.Errorf("%q: write a tray like 53 × 33 cm", p.part)
}

// ParseDegrees reads a temperature in °C: "85 °C", "−5 C", "41 F", "185°F". unit says
// whether one was written; a bare figure is °C. ok is false for anything else, and for a figure that can be
// read in two ways ("85,000").
func ParseDegrees(s string) (c float64, unit, ok bool) {
	if inDoubt(s) != nil {
		return 0, false, false
	}
	p := vesselParser{rest: vesselTokens(points(strings.ToLower(strings.TrimSpace(s))))}
	c, unit, ok = p.degrees()
	return c, unit, ok && len(p.rest) == 0
}
