package convert

import (
	"encoding/csv"
	"regexp"
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// readCSV returns the lines of a file of comma-separated values, parted by what its first
// row has most of.
func readCSV(s string) []line {
	first, _, _ := strings.Cut(s, "\n")
	comma := ','
	for _, c := range ";\t" {
		if strings.Count(first, string(c)) > strings.Count(first, string(comma)) {
			comma = c
		}
	}
	r := csv.NewReader(strings.NewReader(s))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = comma, -1, true, true
	var out []line
	for {
		cells, err := r.Read()
		if err != nil {
			return out
		}
		for i := range cells {
			cells[i] = squeeze(cells[i])
		}
		l := line{cells: cells, words: squeeze(strings.Join(cells, " ")), raw: strings.Join(cells, ", ")}
		if filled := fullCells(cells); len(filled) == 1 {
			l.words, l.cells = filled[0], nil
			mark(&l, filled[0])
		}
		l.blank = l.words == ""
		out = append(out, l)
	}
}

// fullCells returns the cells that have words.
func fullCells(cells []string) []string {
	var out []string
	for _, c := range cells {
		if c != "" {
			out = append(out, c)
		}
	}
	return out
}

// columnOf returns what a column holds by its heading, "" for an unknown one.
func columnOf(heading string) string {
	return columns[strings.ToLower(strings.Trim(heading, " :*."))]
}

// tableHead reports whether a row names the columns of a table of ingredients.
func tableHead(l line) bool {
	known := 0
	for _, c := range l.cells {
		if columnOf(c) != "" {
			known++
		}
	}
	return known >= 2 || known == 1 && len(l.cells) == 2 && columnOf(l.cells[0]) == "item"
}

// readTable reads the rows of a table of ingredients.
func readTable(d *draft, rows []line, section string) {
	if len(rows) == 0 {
		return
	}
	var kinds []string
	if tableHead(rows[0]) {
		for _, c := range rows[0].cells {
			kinds = append(kinds, columnOf(c))
		}
		rows = rows[1:]
	} else {
		kinds = guessColumns(rows)
	}
	for _, l := range rows {
		if filled := fullCells(l.cells); len(filled) == 1 && !figureFirst.MatchString(filled[0]) && columnAt(kinds, l.cells, filled[0]) != "item" {
			section = d.heading(filled[0])
			continue
		}
		if name, of := rowItem(l.cells, kinds); strings.HasSuffix(name, ":") {
			section = d.heading(name)
		} else {
			if of != "" {
				section = of
			}
			d.item(name, section)
		}
	}
}

// columnAt returns what the column of a cell holds.
func columnAt(kinds, cells []string, cell string) string {
	for i, c := range cells {
		if c == cell && i < len(kinds) {
			return kinds[i]
		}
	}
	return ""
}

// guessColumns says what the columns of a table without a heading hold: the first that has
// figures is the amount, one of units behind it the unit, the first of words the item.
func guessColumns(rows []line) []string {
	width := 0
	for _, l := range rows {
		width = max(width, len(l.cells))
	}
	kinds := make([]string, width)
	for i := range kinds {
		figures, units, shares, filled := 0, 0, 0, 0
		for _, l := range rows {
			if i >= len(l.cells) || l.cells[i] == "" {
				continue
			}
			filled++
			_, unit := quantity.LookupUnit(l.cells[i])
			switch {
			case strings.HasSuffix(l.cells[i], "%"):
				shares++
			case figureFirst.MatchString(l.cells[i]):
				figures++
			case unit || unitsInGerman[strings.ToLower(strings.TrimRight(l.cells[i], "."))] != "":
				units++
			}
		}
		switch {
		case filled == 0:
		case shares*2 > filled:
			kinds[i] = "percent"
		case figures*2 > filled && !contains(kinds, "amount"):
			kinds[i] = "amount"
		case units*2 > filled:
			kinds[i] = "unit"
		case !contains(kinds, "item"):
			kinds[i] = "item"
		default:
			kinds[i] = "prep"
		}
	}
	return kinds
}

func contains(list []string, s string) bool {
	for _, one := range list {
		if one == s {
			return true
		}
	}
	return false
}

// bareFigure is a figure without a unit.
var bareFigure = regexp.MustCompile(`^\d+(?:[.,]\d+)?$`)

// rowItem writes a row as a line of ingredients: "1.5 kg red cabbage, shredded". Section is
// what its own column says.
func rowItem(cells, kinds []string) (item, section string) {
	var amount, unit, name, percent string
	var prep []string
	for i, c := range cells {
		if c == "" || c == "-" || c == "–" {
			continue
		}
		kind := ""
		if i < len(kinds) {
			kind = kinds[i]
		}
		switch kind {
		case "amount":
			amount = c
		case "g":
			if amount = c; bareFigure.MatchString(c) {
				unit = "g"
			}
		case "unit":
			unit = c
		case "item":
			name = c
		case "percent":
			if percent = c; !strings.HasSuffix(c, "%") {
				percent += " %"
			}
		case "section":
			section = c
		default:
			prep = append(prep, c)
		}
	}
	if name == "" && len(prep) > 0 {
		name, prep = prep[0], prep[1:]
	}
	if unit != "" && amount != "" && !bareFigure.MatchString(amount) && !document.BeginsWithAmount(amount) {
		prep = append([]string{amount}, prep...)
		amount = ""
	}
	switch {
	case percent != "" && amount != "":
		name += " (" + percent + ")"
	case percent != "":
		amount = percent
	}
	words := squeeze(amount + " " + unit + " " + name)
	return strings.Join(append([]string{words}, prep...), ", "), section
}
