package larder

import (
	"strconv"
	"strings"
)

// A Nutrient is one line of a nutrition declaration, or what it is worked out from.
type Nutrient int

// The nutrients, in grams; Sodium in milligrams. Carbohydrate is with its fibre, as USDA
// SR28 has it. Alcohol is worked out from the energy that the others do not explain.
const (
	Fat Nutrient = iota
	Saturates
	Carbohydrate
	Sugars
	Fibre
	Protein
	Sodium
	Alcohol
	nutrients
)

// Nutrition is how much of each nutrient an amount of food has, and in how many grams
// of it each nutrient is known.
type Nutrition struct {
	Grams float64 // of food with a composition
	Has   [nutrients]float64
	Known [nutrients]float64 // grams of food in which the nutrient is known
}

// Compositions are the compositions of 100 g by row of USDA SR28.
type Compositions map[string]Composition

// A Composition is what 100 g of a food consist of.
type Composition struct {
	Row, Name string // of USDA SR28: "11282", "Onions, raw"
	Nutrition
}

// ReadCompositions reads the table of compositions: row, name, fat, saturates,
// carbohydrate, sugars, fibre, protein, sodium in mg, alcohol, with ";" between; an empty
// figure is not known, and no alcohol is none.
func ReadCompositions(text string) Compositions {
	out := make(Compositions, strings.Count(text, "\n"))
	for line := range strings.Lines(text) {
		f := strings.Split(strings.TrimSpace(line), ";")
		if len(f) != 2+int(nutrients) {
			continue
		}
		c := Composition{Row: f[0], Name: f[1], Nutrition: Nutrition{Grams: 100}}
		for n := range nutrients {
			value, err := strconv.ParseFloat(f[2+n], 64)
			if err == nil || n == Alcohol {
				c.Has[n], c.Known[n] = value, 100
			}
		}
		out[c.Row] = c
	}
	return out
}

// Of returns the composition of an item as cooks type it, and its source: the row and
// the name of USDA SR28, and the food as for which it is. ok is false where none is known.
func (c Compositions) Of(item string, fs *Foods) (comp Composition, source string, ok bool) {
	near := fs.Nearest(item)
	for f := near.Food; f != nil; f = f.parent {
		if comp, ok = c[f.row]; ok {
			source = "SR28 " + comp.Row + ", " + comp.Name
			if f.Name != near.Food.Name || !near.Same {
				source += ", as for " + f.Name
			}
			return comp, source, true
		}
	}
	return Composition{}, "", false
}

// Add adds so many grams of what has a nutrition.
func (n *Nutrition) Add(grams float64, of Nutrition) {
	if of.Grams <= 0 {
		return
	}
	share := grams / of.Grams
	n.Grams += grams
	for i := range nutrients {
		n.Has[i] += share * of.Has[i]
		n.Known[i] += share * of.Known[i]
	}
}

// NotBelowZero sets to zero what is less, after something was taken off that had more of
// a nutrient than the table says of the whole.
func (n *Nutrition) NotBelowZero() {
	for i := range nutrients {
		n.Has[i], n.Known[i] = max(0, n.Has[i]), max(0, n.Known[i])
	}
}

// Per returns the nutrition of so many grams where the whole weighs whole grams.
func (n Nutrition) Per(grams, whole float64) Nutrition {
	if whole <= 0 {
		return Nutrition{}
	}
	out := Nutrition{Grams: n.Grams * grams / whole}
	for i := range nutrients {
		out.Has[i], out.Known[i] = n.Has[i]*grams/whole, n.Known[i]*grams/whole
	}
	return out
}

// available returns carbohydrate without its fibre, as Regulation (EU) No 1169/2011
// Annex I defines it.
func (n Nutrition) available() float64 { return max(0, n.Has[Carbohydrate]-n.Has[Fibre]) }

// Kilojoules returns the energy by the factors of Regulation (EU) No 1169/2011 Annex XIV.
func (n Nutrition) Kilojoules() float64 {
	return 17*n.available() + 37*n.Has[Fat] + 17*n.Has[Protein] + 8*n.Has[Fibre] + 29*n.Has[Alcohol]
}

// Kilocalories returns the energy by the factors of the same annex.
func (n Nutrition) Kilocalories() float64 {
	return 4*n.available() + 9*n.Has[Fat] + 4*n.Has[Protein] + 2*n.Has[Fibre] + 7*n.Has[Alcohol]
}

// Salt returns grams of salt: 2.5 times the sodium.
func (n Nutrition) Salt() float64 { return 2.5 * n.Has[Sodium] / 1000 }
