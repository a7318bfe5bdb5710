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
	var later [baths][]int // indexes of the items that only partly stay
	for i := range c.Items {
		if in, ok := bathOf(w.cards, c, &c.Items[i]); ok && !c.Items[i].Uneaten && !c.Items[i].Amount.ToTaste {
			later[in] = append(later[in], i)
			continue
		}
		w.item(&f, c, i, ratios, 1)
	}
	for in, items := range later {
		w.bath(&f, c, bath(in), items, ratios)
	}
	f.gives(c, w.table)
	slices.Sort(f.Assumed)
	return f
}

// item adds so much of one item of a card: share is 1 for all of it.
func (w *factsWalk) item(f *Facts, c *card.Card, i int, ratios []Ratio, share float64) {
	switch it := c.Items[i]; {
	case it.Uneaten:
		f.assume(it.Name + " is not eaten and not counted")
	case it.Amount.ToTaste:
		f.assume(it.Name + " to taste is not counted")
	case it.Card != "":
		w.component(f, it, share)
	case ratios[i].Why != "" && c.OwnOf(&it).Size == larder.Zest:
		f.assume("the zest of " + it.Name + " is not counted")
	case ratios[i].Why != "":
		f.miss(it.Name + ": " + ratios[i].Why)
	default:
		f.take(w.table, c.Foods, it.Name, share*float(ratios[i].Grams))
	}
}

// component adds so much of a line that another card makes.
func (w *factsWalk) component(f *Facts, it card.Item, keep float64) {
	sub := w.cards[it.Card]
	if sub == nil || it.Amount.Unit == nil {
		f.miss(it.Name)
		return
	}
	gram, _ := quantity.LookupUnit("g")
	n, _, err := larder.Convert(sub.Title, it.Amount.Need(), it.Amount.Unit, gram, sub.Own())
	grams := keep * float(n)
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
		share = keep * float(it.Amount.Need()) / float(sub.Makes.Qty)
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

// thrownAway reports whether a step of a card strains something off.
func thrownAway(c *card.Card) bool {
	return stepSays(c, "strain", "discard", "throw away", "sieve", "drain")
}

// stepSays reports whether a step of a card has one of some words.
func stepSays(c *card.Card, words ...string) bool {
	for i := range c.Steps {
		low := strings.ToLower(c.Steps[i].Sentence())
		for _, word := range words {
			if strings.Contains(low, word) {
				return true
			}
		}
	}
	return false
}
