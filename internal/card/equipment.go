package card

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"hobside/internal/document"
)

// equipment reads what follows the name of a piece of equipment: places, a
// temperature, words.
func (p *parser) equipment(name string, f document.Fact) Equipment {
	e := Equipment{Name: name, Count: 1, Words: f.Value}
	f.Split(func(part string, at int) {
		if c, ok := document.Temperature(part); ok {
			if !document.PlausibleTemperature(c) {
				p.Err(at, name+": "+part+" is not a temperature in a kitchen", "", "check the figure and its unit")
				return
			}
			if placeWord(part) {
				p.Err(at, name+`: "`+part+`" is not understood whole`, "", `part it with a comma: "220 °C, 2 shelves"`)
			}
			if std, _ := document.FindEquipment(name); std.Heat && c < 20 {
				p.Err(at, name+`: "`+part+`" is too cold for it`, "", "check the figure and its unit")
			}
			if e.HasTemp {
				p.Err(at, name+`: "`+part+`" is a second temperature`, "", "take one out, or part the step in two")
			}
			e.TempC, e.HasTemp = c, true
			p.secondTemperature(name, part, c, at)
			return
		}
		if p.fills(&e, part) {
			return
		}
		if isPlace(strings.ToLower(part)) {
			p.Err(at, name+`: "`+part+`" does not say how many`, "", `write it like "2 shelves"`)
			return
		}
		if first, _ := utf8.DecodeRuneInString(part); unicode.IsLetter(first) || !strings.ContainsAny(part, "0123456789") {
			return // words for the cook
		}
		n, ok := places(part)
		switch bare := strings.Trim(part, "0123456789") == ""; {
		case bare && n >= leastDegrees:
			p.Err(at, name+`: "`+part+`" is neither a temperature nor a number of places`, "", `write "`+part+` °C" or "`+part+` °F"`)
		case !ok:
			p.Err(at, name+`: "`+part+`" is neither a temperature nor a number of places`, "", `write it like "220 °C" or "2 shelves", or put the words first`)
		case n < 1 || n > 99:
			p.Err(at, name+`: "`+part+`" is not a number of places`, "", "write how many it takes up, 1 or more")
		default:
			e.Count = n
		}
	})
	return e
}

// mostApart is by how much two temperatures of one setting differ at most, in °C: a fan oven
// is set 20 °C lower. Common practice, no source.
const mostApart = 25

// secondTemperature adds a problem for words with two temperatures that are no two writings
// of one: "220 °C then 180 °C". Of "180 °C (160 °C fan)" and "350 °F/180 °C" the first counts.
func (p *parser) secondTemperature(name, part string, first float64, at int) {
	for _, piece := range strings.FieldsFunc(strings.ReplaceAll(strings.ToLower(part), " then ", ";"), func(r rune) bool { return strings.ContainsRune("/();", r) }) {
		if c, ok := document.Temperature(piece); ok && math.Abs(c-first) > mostApart {
			p.Err(at, name+`: "`+document.Clip(part)+`" has two temperatures, and `+degrees(first)+` is read`, "", "take one out, or part the step in two")
			return
		}
	}
}

// leastDegrees is the least figure without a unit that is taken for a temperature and
// not for a number of places. Common practice, no source: no kitchen has 30 rings.
const leastDegrees = 30

// places reads "2 shelves", "1 ring" or a number alone. ok is false for other
// words.
func places(s string) (n int, ok bool) {
	i := 0
	for i < len(s) && document.IsDigit(s[i]) && i < 6 {
		n = n*10 + int(s[i]-'0')
		i++
	}
	if i == 0 {
		return 0, false
	}
	what := strings.ToLower(strings.TrimSpace(s[i:]))
	return n, what == "" || isPlace(what)
}

// isPlace reports whether a word in lower case is what a place of equipment is called.
func isPlace(word string) bool {
	switch word {
	case "ring", "rings", "burner", "burners", "pan", "pans", "pot", "pots", "shelf", "shelves", "tray", "trays",
		"rack", "racks", "place", "places", "basket", "baskets":
		return true
	}
	return false
}

// placeWord reports whether a figure and a place stand in a text: "| 2 shelves".
func placeWord(s string) bool {
	words := strings.Fields(strings.ToLower(s))
	for i := 1; i < len(words); i++ {
		if isPlace(words[i]) && strings.Trim(words[i-1], "0123456789") == "" {
			return true
		}
	}
	return false
}

// SaysPlaces reports whether a step says how many places of the equipment it takes.
func (q *Equipment) SaysPlaces() bool {
	return q.Count > 1 || placeWord(q.Words)
}
