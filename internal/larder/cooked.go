package larder

import (
	_ "embed"
	"strings"

	"hobside/internal/quantity"
)

// A Cooked is what is left of a food's raw weight when it is cooked: less for
// what drips and steams, more than all for what takes up water.
type Cooked struct {
	Low, High quantity.Number // in percent of the raw weight; equal where one figure is published
	Method    string          // the word of the method that was met
	Source    string
}

type cookedRow struct {
	methods []string
	Cooked
}

//go:embed cooked.txt
var cookedText string

var cooked = readCooked(cookedText)

// CookedYield says what the table knows of an item cooked as a method's words
// say ("roast until 74 °C at the core"). It is for telling a cook, beside its
// source; nothing is ever worked out with it that nobody wrote down.
func CookedYield(item, method string) (Cooked, bool) {
	method = strings.ToLower(method)
	for _, phrase := range phrases(item) {
		for _, row := range cooked[phrase] {
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

// String is "60–70 % of its raw weight (own working range)".
func (c Cooked) String() string {
	share := quantity.ShowNumber(c.Low)
	if c.High.Cmp(c.Low) > 0 {
		share += "–" + quantity.ShowNumber(c.High)
	}
	return share + " % of its raw weight (" + c.Source + ")"
}

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
