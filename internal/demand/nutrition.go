package demand

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// Facts is what one batch of a card consists of, as far as its items are known.
type Facts struct {
	Nutrition larder.Nutrition // of all that it makes
	Grams     float64          // what it makes weighs; 0 when that is not known
	Portions  float64          // plates or pieces that it makes; 0 when it makes neither
	In        float64          // grams that go in
	Known     float64          // grams of them that have a composition
	Missing   []string         // what has none, or no weight
	Assumed   []string         // what was taken as so, in words
}

// Share returns how much of the weight that goes in has a composition, from 0 to 1.
func (f *Facts) Share() float64 {
	if f.In <= 0 {
		return 0
	}
	return f.Known / f.In
}

// Enough is the share of the weight below which no figure is shown.
const Enough = 0.95

// stays is the share of the other items' weight that stays of the oil in which something
// is fried: our own working assumption, no source.
const stays = 0.1

// NutritionOf returns what a card consists of, through every component. Table holds the
// compositions of foods. Nutrients are neither made nor lost: what boils away is water.
func NutritionOf(cards map[string]*card.Card, id string, table larder.Compositions) Facts {
	w := factsWalk{cards: cards, table: table, on: map[string]bool{}}
	return w.card(id)
}

type factsWalk struct {
	cards map[string]*card.Card
	table larder.Compositions
	on    map[string]bool // cards on the path, against loops
}

func (w *factsWalk) card(id string) (f Facts) {
	c := w.cards[id]
	if c == nil || w.on[id] {
		f.Missing = append(f.Missing, id)
		return f
	}
	w.on[id] = true
	defer delete(w.on, id)
	ratios, _ := Ratios(c, nil)
	oils := map[int]float64{}
	for i, it := range c.Items {
		grams := float(ratios[i].Grams)
		switch {
		case it.Uneaten:
			f.assume(it.Name + " is not eaten and not counted")
		case it.Amount.ToTaste:
			f.assume(it.Name + " to taste is not counted")
		case it.Card != "":
			w.component(&f, it)
		case ratios[i].Why != "":
			f.miss(it.Name + ": " + ratios[i].Why)
		case frying(it):
			oils[i] = grams
		default:
			f.take(w.table, c.Foods, it.Name, grams)
		}
	}
	for i, grams := range oils {
		it := c.Items[i]
		if most := stays * f.In; grams > most {
			f.assume(it.Name + " is for frying: a tenth of the weight of what is fried is taken to stay")
			grams = most
		}
		f.take(w.table, c.Foods, it.Name, grams)
	}
	f.gives(c, w.table)
	slices.Sort(f.Assumed)
	return f
}

// component adds a line that another card makes.
func (w *factsWalk) component(f *Facts, it card.Item) {
	sub := w.cards[it.Card]
	if sub == nil || it.Amount.Unit == nil {
		f.miss(it.Name)
		return
	}
	gram, _ := quantity.LookupUnit("g")
	n, _, err := larder.Convert(sub.Title, it.Amount.Need(), it.Amount.Unit, gram, sub.Own())
	grams := float(n)
	if it.Save != "" {
		if err == nil {
			f.take(w.table, sub.Foods, strings.ReplaceAll(it.Save, "-", " "), grams)
		} else {
			f.miss(it.Name + ": " + err.Error())
		}
		return
	}
	of := w.card(it.Card)
	share := 0.0
	switch {
	case err == nil && of.Grams > 0:
		share = grams / of.Grams
	case sub.Makes.Unit == it.Amount.Unit && sub.Makes.Qty.Sign() > 0:
		share = float(it.Amount.Need()) / float(sub.Makes.Qty)
	default:
		f.miss(it.Name + ": what it weighs is not known")
		return
	}
	f.Nutrition.Add(share*of.Nutrition.Grams, of.Nutrition)
	f.In += share * of.In
	f.Known += share * of.Known
	for _, m := range of.Missing {
		f.miss(m)
	}
	for _, a := range of.Assumed {
		f.assume(a)
	}
}

// take adds so many grams of a bought item.
func (f *Facts) take(table larder.Compositions, foods *larder.Foods, item string, grams float64) {
	f.In += grams
	c, _, ok := table.Of(item, foods)
	if !ok {
		f.miss(item)
		return
	}
	f.Known += grams
	f.Nutrition.Add(grams, c.Nutrition)
}

// gives sets what the batch weighs and how many portions it is. What is set aside for
// other cards is taken off: as the food that it is or, where the table does not have it,
// by its weight.
func (f *Facts) gives(c *card.Card, table larder.Compositions) {
	gram, _ := quantity.LookupUnit("g")
	if c.Makes.Unit == nil {
		return
	}
	if c.Makes.Unit.Dim == quantity.Count {
		f.Portions = float(c.Makes.Qty)
	}
	if n, _, err := larder.Convert(c.Title, c.Makes.Qty, c.Makes.Unit, gram, c.Own()); err == nil {
		f.Grams = float(n)
	} else if c.IsPlate() {
		f.Grams = f.In
	}
	aside := 0.0
	for _, s := range c.Saves {
		n, _, err := larder.Convert(s.Name, s.Amount.Qty, s.Amount.Unit, gram, larder.Own{Foods: c.Foods})
		if s.Amount.Unit == nil || err != nil {
			continue
		}
		grams := float(n)
		if of, _, ok := table.Of(s.Name, c.Foods); ok && grams < f.Known {
			f.Nutrition.Add(-grams, of.Nutrition)
			f.Nutrition.NotBelowZero()
			f.In, f.Known = f.In-grams, f.Known-grams
			continue
		}
		aside += grams
	}
	if aside > 0 && f.Grams > 0 {
		f.assume("what " + c.Title + " sets aside is taken to be like the rest of it")
		f.scale(f.Grams / (f.Grams + aside))
	}
	if f.Grams < 0.6*f.In && thrownAway(c) {
		f.Known = 0
		f.miss("what is strained off " + c.Title)
	}
}

// scale keeps a share of everything.
func (f *Facts) scale(share float64) {
	f.Nutrition = f.Nutrition.Per(share, 1)
	f.In *= share
	f.Known *= share
}

func (f *Facts) miss(what string) {
	if !slices.Contains(f.Missing, what) {
		f.Missing = append(f.Missing, what)
	}
}

func (f *Facts) assume(what string) {
	if !slices.Contains(f.Assumed, what) {
		f.Assumed = append(f.Assumed, what)
	}
}

// frying reports whether an item is a fat in which something is fried.
func frying(it card.Item) bool {
	low := strings.ToLower(it.Name + " " + it.Prep)
	return strings.Contains(low, "frying") || strings.Contains(low, "to fry") || strings.Contains(low, "for deep")
}

// thrownAway reports whether a step of a card strains something off.
func thrownAway(c *card.Card) bool {
	for i := range c.Steps {
		for _, r := range c.Steps[i].Text {
			low := strings.ToLower(r.Text)
			for _, word := range [...]string{"strain", "discard", "throw away", "sieve", "drain"} {
				if strings.Contains(low, word) {
					return true
				}
			}
		}
	}
	return false
}
