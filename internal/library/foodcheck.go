package library

import (
	"strconv"

	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
)

// foodProblems returns what files of foods and the kitchens' lists of prices show only
// together: a name that two files have, a second price of one food, a second currency.
func (s Set) foodProblems() []document.Problem {
	c := foodChecker{names: map[string]place{}}
	for _, f := range s.foodFiles() {
		for i := range f.Foods.Rows {
			c.row(f.Name, &f.Foods.Rows[i])
		}
	}
	return append(c.problems, s.priceProblems()...)
}

// A place is a line of a file.
type place struct {
	file string
	line int
}

// A foodChecker holds what was seen so far of foods.
type foodChecker struct {
	names    map[string]place // by the key of a name
	problems []document.Problem
}

// add adds a problem.
func (c *foodChecker) add(severity document.Severity, file string, at document.Pos, msg, do string) {
	c.problems = append(c.problems, document.Problem{File: file, Line: at.Line, Col: at.Col, Severity: severity, Msg: msg, Do: do})
}

// row checks that no other file has a name of a row.
func (c *foodChecker) row(file string, r *kitchen.FoodRow) {
	for _, name := range append([]string{r.Name}, r.Others...) {
		k := larder.NameKey(name)
		if first, twice := c.names[k]; twice {
			c.add(document.Error, file, r.Pos, `"`+name+`" is in `+first.file+", line "+strconv.Itoa(first.line)+", too, which counts", "a name is one food's: take one of the two out")
			continue
		}
		c.names[k] = place{file, r.Pos.Line}
	}
}
