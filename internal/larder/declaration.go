package larder

import (
	"math"
	"strconv"
)

// A DeclarationLine is one line of a nutrition declaration.
type DeclarationLine struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"` // not rounded, in Unit; for energy in kJ (EU) or kcal (US)
	Unit  string  `json:"unit"`
	Text  string  `json:"text"` // rounded as the rules say: "1.3 g", "<0.5 g"
}

// EUDeclaration returns the lines in the order of Regulation (EU) No 1169/2011 Annex XV,
// rounded by the EU's guidance on tolerances (December 2012). A nutrient that is not
// known for at least 95 % of the weight has no figure.
func (n Nutrition) EUDeclaration() []DeclarationLine {
	kJ, kcal := n.Kilojoules(), n.Kilocalories()
	return []DeclarationLine{
		{"energy", kJ, "kJ", whole(kJ) + " kJ / " + whole(kcal) + " kcal"},
		n.line("fat", Fat, n.Has[Fat], roundEU),
		n.line("of which saturates", Saturates, n.Has[Saturates], roundSaturates),
		n.line("carbohydrate", Carbohydrate, n.available(), roundEU),
		n.line("of which sugars", Sugars, n.Has[Sugars], roundEU),
		n.line("fibre", Fibre, n.Has[Fibre], roundEU),
		n.line("protein", Protein, n.Has[Protein], roundEU),
		n.line("salt", Sodium, n.Salt(), roundSalt),
	}
}

// USDeclaration returns the lines of 21 CFR 101.9(c), rounded as it says (order and
// rounding from memory).
func (n Nutrition) USDeclaration() []DeclarationLine {
	kcal := n.Kilocalories()
	out := []DeclarationLine{
		{"calories", kcal, "kcal", steps(kcal, 5, 50, 5, 10)},
		n.line("total fat", Fat, n.Has[Fat], roundUSFat),
		n.line("saturated fat", Saturates, n.Has[Saturates], roundUSFat),
		n.line("sodium", Sodium, n.Has[Sodium], func(mg float64) string { return steps(mg, 5, 140, 5, 10) + " mg" }),
		n.line("total carbohydrate", Carbohydrate, n.Has[Carbohydrate], roundUS),
		n.line("dietary fiber", Fibre, n.Has[Fibre], roundUS),
		n.line("total sugars", Sugars, n.Has[Sugars], roundUS),
		n.line("protein", Protein, n.Has[Protein], roundUS),
	}
	out[3].Unit = "mg"
	return out
}

// line returns a line, without a figure where the nutrient is not known well enough.
func (n Nutrition) line(name string, of Nutrient, value float64, round func(float64) string) DeclarationLine {
	if n.Known[of] < 0.95*n.Grams {
		return DeclarationLine{Name: name, Unit: "g", Text: "not known"}
	}
	return DeclarationLine{name, value, "g", round(value)}
}

func whole(x float64) string { return strconv.FormatFloat(math.Round(x), 'f', 0, 64) }

func tenth(x float64) string { return strconv.FormatFloat(math.Round(10*x)/10, 'f', -1, 64) }

// roundEU rounds fat, carbohydrate, sugars, protein and fibre.
func roundEU(g float64) string {
	switch {
	case g <= 0:
		return "0 g"
	case g <= 0.5:
		return "<0.5 g"
	case g < 10:
		return tenth(g) + " g"
	}
	return whole(g) + " g"
}

func roundSaturates(g float64) string {
	switch {
	case g <= 0:
		return "0 g"
	case g <= 0.1:
		return "<0.1 g"
	case g < 10:
		return tenth(g) + " g"
	}
	return whole(g) + " g"
}

func roundSalt(g float64) string {
	switch {
	case g <= 0:
		return "0 g"
	case g <= 0.0125:
		return "<0.01 g"
	case g < 1:
		return strconv.FormatFloat(math.Round(100*g)/100, 'f', -1, 64) + " g"
	}
	return tenth(g) + " g"
}

func roundUSFat(g float64) string {
	switch {
	case g < 0.5:
		return "0 g"
	case g < 5:
		return tenth(math.Round(2*g)/2) + " g"
	}
	return whole(g) + " g"
}

func roundUS(g float64) string {
	switch {
	case g < 0.5:
		return "0 g"
	case g < 1:
		return "less than 1 g"
	}
	return whole(g) + " g"
}

// steps rounds to fine steps up to a bound and to coarse ones above; below least it is 0.
func steps(x, least, bound, fine, coarse float64) string {
	switch {
	case x < least:
		return "0"
	case x <= bound:
		return whole(fine * math.Round(x/fine))
	}
	return whole(coarse * math.Round(x/coarse))
}
