package larder

import (
	"slices"

	"hobside/internal/quantity"
)

// A Description is all that the table knows of an item, each figure with its source.
type Description struct {
	Name       string             `json:"name"`
	Same       bool               `json:"same"`    // the table has this good; false: it has only a broader food
	AsFor      string             `json:"as_for"`  // the broader food that lends its figures, "" for none
	SameAs     []string           `json:"same_as"` // other names of the good
	Section    string             `json:"section"`
	EU         []string           `json:"eu"` // allergens that it always, usually or probably has
	EUMay      []string           `json:"eu_may"`
	US         []string           `json:"us"`
	USMay      []string           `json:"us_may"`
	Assessed   bool               `json:"assessed"` // false: nothing is said of its allergens
	Open       bool               `json:"open"`     // more may be in it than what is known
	Animal     Animal             `json:"animal"`   // the first of Animals
	Animals    []Animal           `json:"animals"`
	AnimalsMay []Animal           `json:"animals_may"`
	HeatClass  Heat               `json:"heat_class"`
	BoughtBy   string             `json:"bought_by"` // "weight", "each", "bunch", "250 g pack"
	Keeps      *int               `json:"keeps_days"`
	Each       *float64           `json:"each_g"`
	Weights    map[string]float64 `json:"weights_g"` // of one clove, leaf, bunch …
	Density    *float64           `json:"g_per_ml"`
	Trim       *float64           `json:"trim_pct"`
	Per100     []DeclarationLine  `json:"per_100g"` // by the EU's rules; empty where no composition is known
	Sources    map[string]string  `json:"sources"`  // by the names of the fields above
}

// Describe returns what is known of an item as cooks type it. ok is false where the table
// has neither the good nor a broader food nor a food that its words name.
func (fs *Foods) Describe(item string, compositions Compositions) (d Description, ok bool) {
	near := fs.Nearest(item)
	class, classified := fs.Classify(item)
	assessed, known := fs.Assess(item)
	if near.Food == nil && !classified && !known {
		return d, false
	}
	d = Description{Name: item, Same: near.Same, SameAs: []string{}, EU: []string{}, EUMay: []string{}, US: []string{}, USMay: []string{}, Assessed: known, Open: assessed.Open,
		Animal: NoAnimal, Animals: []Animal{}, AnimalsMay: []Animal{}, HeatClass: NoHeat, BoughtBy: "weight", Weights: map[string]float64{}, Per100: []DeclarationLine{}, Sources: map[string]string{}}
	for _, c := range assessed.Carries {
		list := map[List][2]*[]string{EU: {&d.EU, &d.EUMay}, US: {&d.US, &d.USMay}}[c.List]
		to := list[0]
		if c.Certainty == May {
			to = list[1]
		}
		*to = append(*to, c.Code)
	}
	d.Sources["eu"] = "own compilation"
	switch {
	case !near.Same || near.byWords() && !near.own.Assessed:
		d.Sources["eu"] += ", probably"
	case near.own != nil && near.own.Assessed:
		d.Sources["eu"] = kitchens
	}
	if classified {
		d.Animal, d.Animals, d.HeatClass = class.Animals[0], class.Animals, class.Heat
		d.AnimalsMay = append(d.AnimalsMay, class.May...)
		d.Sources["heat_class"] = "own compilation"
		if class.Probably {
			d.Sources["heat_class"] += ", probably, as for " + class.Food
		}
	}
	if near.Food == nil {
		return d, true
	}
	d.Section = near.Section
	if near.Same {
		d.Name, d.SameAs = near.Name, append(d.SameAs, near.SameAs()...)
		d.boughtBy(near.Food)
	} else {
		d.AsFor = near.Name
	}
	d.figures(near)
	if c, source, ok := compositions.Of(item, fs); ok {
		d.Per100, d.Sources["per_100g"] = c.EUDeclaration(), source
	}
	return d, true
}

// boughtBy sets how the good is sold and how long it keeps: the kitchen's own word, else
// common practice.
func (d *Description) boughtBy(f *Food) {
	if u := f.By(); u != nil {
		d.BoughtBy = u.Name
	}
	if pack := f.Pack(); pack.Unit != nil {
		d.BoughtBy = quantity.Show(pack, quantity.Prefs{}) + " pack"
	}
	d.Sources["bought_by"] = f.source(f.own != nil && f.own.sold())
	if days := f.Keeps(); days > 0 {
		d.Keeps, d.Sources["keeps_days"] = &days, f.source(f.own != nil && f.own.Keeps > 0)
	}
}

// source names the source of what a food's own row or the built-in table says.
func (f *Food) source(own bool) string {
	if own {
		return kitchens
	}
	return practice
}

// figures sets the weights, the density and the trim.
func (d *Description) figures(near Near) {
	set := func(to **float64, name string, f Figure) {
		if f.Known() {
			value := f.Value.Float64()
			*to, d.Sources[name] = &value, f.Source
		}
	}
	set(&d.Density, "g_per_ml", near.Density())
	set(&d.Trim, "trim_pct", near.figure("t"))
	for _, unit := range near.Units() {
		f := near.Each(unit)
		if unit == quantity.Each.Name {
			set(&d.Each, "each_g", f)
			continue
		}
		if !slices.Contains([]string{"t", "d"}, unit) && f.Known() {
			d.Weights[unit], d.Sources["weights_g."+unit] = f.Value.Float64(), f.Source
		}
	}
}
