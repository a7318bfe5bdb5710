package document

import (
	"strings"

	"hobside/internal/quantity"
)

// Rules reads the value of "rules": "us" or "uk". For another it adds a problem and returns "".
func (f *File) Rules(fact Fact) string {
	switch r := strings.ToLower(fact.Value); r {
	case "us", "uk":
		return r
	}
	f.Err(fact.ValueAt, `no rule set "`+fact.Value+`"`, "", "write us or uk, or leave the line out")
	return ""
}

// MeasureBy makes f read bare pints as those of the country that its own "rules" name, and
// where it names none, by m.
func (f *File) MeasureBy(m quantity.Measures) {
	f.Measures = m
	for _, fact := range f.Front {
		if fact.Word == "rules" {
			f.Measures = quantity.MeasuresOf(fact.Value)
		}
	}
}
