package card

import (
	"strings"

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
			e.TempC, e.HasTemp = c, true
			return
		}
		if part == "" || !document.IsDigit(part[0]) {
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
	switch strings.ToLower(strings.TrimSpace(s[i:])) {
	case "", "ring", "rings", "burner", "burners", "pan", "pans", "pot", "pots", "shelf", "shelves", "tray", "trays",
		"rack", "racks", "place", "places", "basket", "baskets":
		return n, true
	}
	return 0, false
}
