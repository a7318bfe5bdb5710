package kitchen

import (
	"strconv"
	"strings"

	"hobside/internal/larder"
)

// named checks the names of all rows and keeps those rows whose name is one food's. A
// name that two foods have counts for the first.
func (p *foodParser) named() {
	heads := map[string]int{} // index of the row that a name heads
	for i := range p.rows {
		r := &p.rows[i]
		k := larder.NameKey(r.Name)
		first, twice := heads[k]
		switch why := larder.NotAFood(r.Name); {
		case k == "":
			p.Err(r.at, `"`+r.Name+`" is not a name`, "", "write the food's name in letters")
		case why != "":
			p.Err(r.at, `"`+r.Name+`" `+why+`, and can't be one food`, "", "name the one that you buy")
		case twice:
			p.Err(r.at, `"`+r.Name+`" is here twice: line `+p.line(first)+` has it already`, "", "put both on one row")
		default:
			heads[k] = i
			continue
		}
		r.Name = "" // dropped
	}
	taken := map[string]int{} // index of the row that has a name beside its own
	for i := range p.rows {
		if p.rows[i].Name != "" {
			p.otherNames(i, heads, taken)
		}
	}
	for i := range p.rows {
		if r := &p.rows[i]; r.Name != "" {
			p.compared(r)
			p.foods.Rows = append(p.foods.Rows, r.FoodRow)
		}
	}
}

// line returns the number of the line of a row.
func (p *foodParser) line(row int) string { return strconv.Itoa(p.rows[row].Pos.Line) }

// otherNames checks the other names of a row, and keeps those that no other food has.
func (p *foodParser) otherNames(row int, heads, taken map[string]int) {
	r := &p.rows[row]
	var kept []string
	base, _ := larder.Find(r.Name)
	for n, name := range r.Others {
		at, k := r.othersAt[n], larder.NameKey(name)
		head, heading := heads[k]
		other, twice := taken[k]
		built, known := larder.Find(name)
		switch why := larder.NotAFood(name); {
		case k == "":
			p.Err(at, `"`+name+`" is not a name`, "", "write it in letters")
		case why != "":
			p.Err(at, `"`+name+`" `+why+`, and can't be one food`, "", "take it out")
		case heading && head == row:
			p.Warn(at, `"`+name+`" is the same name again: case, hyphens and plurals make no difference`, "", "take it out")
		case heading && p.loop(head, row, heads) != nil:
			p.Err(at, "these names go in a loop: "+strings.Join(append([]string{r.Name}, p.loop(head, row, heads)...), " → "), "",
				"keep one row, with the other names beside it")
		case heading:
			p.Err(at, `"`+name+`" is another food here: line `+p.line(head)+` has it`, "", "take it out, or put both on one row")
		case twice:
			p.Err(at, `"`+name+`" is here twice: line `+p.line(other)+` has it already`, "", "a name is one food's: take one out")
		case known && base != nil && built.Name != base.Name:
			p.Err(at, `the food table has "`+name+`" apart from "`+r.Name+`"`, "", "give it a row of its own")
		default:
			if base == nil && known {
				base = built
			}
			taken[k] = row
			kept = append(kept, name)
		}
	}
	r.Others = kept
}

// loop returns the names on the way from a row, by other names that head a row, to
// another row; nil where no such way is.
func (p *foodParser) loop(from, to int, heads map[string]int) []string {
	seen := make([]bool, len(p.rows))
	var walk func(row int) []string
	walk = func(row int) []string {
		if row == to {
			return []string{p.rows[row].Name}
		}
		if seen[row] {
			return nil
		}
		seen[row] = true
		for _, name := range p.rows[row].Others {
			if next, ok := heads[larder.NameKey(name)]; ok {
				if rest := walk(next); rest != nil {
					return append([]string{p.rows[row].Name}, rest...)
				}
			}
		}
		return nil
	}
	return walk(from)
}

// compared warns of what a row takes back of the built-in table's allergens, and of a food
// that neither the row nor the table assesses.
func (p *foodParser) compared(r *parsedRow) {
	foods := larder.NewFoods([]larder.OwnFood{r.OwnFood})
	if _, known := foods.Assess(r.Name); !known {
		p.Warn(r.at, `nothing is known of the allergens of "`+r.Name+`"`, "", `read its label and write them in the column "allergens", or "none"`)
		return
	}
	lost := r.TakesBack()
	if len(lost) > 0 {
		p.Warn(r.at, `the food table has `+strings.Join(lost, ", ")+` in "`+r.Name+`", and this row does not`, "",
			"read its label: what the row says counts for every guest")
	}
}
