package larder

import (
	"strings"

	"hobside/internal/quantity"
)

// A Figure is a value of the food table and where it comes from.
type Figure struct {
	Value  quantity.Number
	Source string // "SR28 11282, as for onion", "common practice"
}

// practice marks a figure without a published source.
const practice = "common practice"

// Known reports whether the table has the figure, 0 included: "no trim" is known.
func (f Figure) Known() bool { return f.Source != "" }

// Trim returns the share of the purchased weight that is lost.
func (n Near) Trim() Figure {
	f := n.figure("t")
	f.Value = f.Value.Quo(quantity.Int(100))
	return f
}

// Density returns grams in a millilitre.
func (n Near) Density() Figure { return n.figure("d") }

// Each returns the grams of one, by the name of a unit: "each", "clove".
func (n Near) Each(unit string) Figure {
	return n.figure(figureWord(unit))
}

// figureWord returns the word by which the food table has the grams of one.
func figureWord(unit string) string {
	if unit == quantity.Each.Name {
		return "e"
	}
	return unit
}

// Units returns the names of the units for which the table has a weight of one.
func (f *Food) Units() []string {
	var out []string
	for g := f; g != nil; g = g.parent {
		if g.own != nil {
			for unit := range g.own.Weights {
				out = append(out, unit)
			}
			continue
		}
		for _, token := range strings.Fields(g.tokens) {
			word, _, ok := strings.Cut(token, "=")
			if u, unit := quantity.LookupUnit(word); ok && unit && u.Dim == quantity.Count && u.Name == word {
				out = append(out, word)
			}
			if word == "e" {
				out = append(out, quantity.Each.Name)
			}
		}
	}
	return out
}

// figure reads a figure of a food, or of the broader food that it is a kind of; the
// source then says as for which food.
func (n Near) figure(word string) Figure {
	for f := n.Food; f != nil; f = f.parent {
		if f.own != nil {
			if value, ok := f.own.ownFigure(word); ok {
				return n.kitchens(value, f)
			}
			continue
		}
		text := ""
		if !f.variant {
			text = f.value(word)
		}
		if text == "" {
			continue
		}
		var out Figure
		text, row, other := strings.Cut(text, "@")
		value, own := strings.CutSuffix(text, "*")
		switch {
		case own:
			out.Source = practice
		case other:
			out.Source = "SR28 " + row
		default:
			out.Source = "SR28 " + f.row
		}
		out.Value = number(value)
		if f.Name != n.Food.Name || !n.Same {
			out.Source += ", as for " + f.Name
		}
		return out
	}
	return Figure{}
}

// kitchens returns a figure that the kitchen gives of a food.
func (n Near) kitchens(value quantity.Number, of *Food) Figure {
	out := Figure{Value: value, Source: kitchens}
	if of.Name != n.Food.Name || !n.Same {
		out.Source += ", as for " + of.Name
	}
	return out
}
