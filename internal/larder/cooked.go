package larder

import (
	_ "embed"
	"strings"

	"hobside/internal/quantity"
)

// Cooked is what a food weighs when it is cooked, in percent of its raw weight: less
// than 100 for what loses juice and steam, more for what takes up water.
type Cooked struct {
	Low, High quantity.Number // in percent of the raw weight; equal where one figure is published
	Method    string          // the word of the method that matched
	Source    string
}

// cookedRow is one row of the table, with the words of the methods it is for.
type cookedRow struct {
	methods []string
	Cooked
}

//go:embed cooked.txt
var cookedText string

var cooked = readCooked(cookedText)

// CookedYield returns the row for an item that is cooked by a method, which is found
// by its words ("roast until 74 °C at the core"); ok is false where there is none. A
// cook is shown it with its source. No amount is computed from it unless the card
// says so.
func CookedYield(item, method string) (Cooked, bool) {
	method = strings.ToLower(method)
	for _, name := range cookedNames(item) {
		for _, row := range cooked[name] {
			for _, word := range row.methods {
				if strings.Contains(method, word) {
					row.Method = word
					return row.Cooked, true
				}
			}
		}
	}
	return Cooked{}, false
}

// cookedNames returns the names under which an item may be in the table of yields: its
// own and those of the broader foods.
func cookedNames(item string) []string {
	names := []string{key(item)}
	for f := (*Foods)(nil).resolve(item).food; f != nil; f = f.parent {
		names = append(names, key(f.Name))
	}
	return names
}

// String returns "60–70 % of its raw weight (own working range)".
func (c Cooked) String() string {
	share := quantity.ShowNumber(c.Low)
	if c.High.Cmp(c.Low) > 0 {
		share += "–" + quantity.ShowNumber(c.High)
	}
	return share + " % of its raw weight (" + c.Source + ")"
}

// readCooked reads the embedded table: names; methods; lowest; highest; source.
func readCooked(text string) map[string][]cookedRow {
	m := map[string][]cookedRow{}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		c := strings.Split(line, ";")
		row := cookedRow{strings.Split(c[1], ","), Cooked{Low: number(c[2]), High: number(c[3]), Source: c[4]}}
		for _, name := range strings.Split(c[0], ",") {
			name = singular(name)
			m[name] = append(m[name], row)
		}
	}
	return m
}
