package larder

import (
	"cmp"
	"slices"
	"strings"

	"hobside/internal/quantity"
)

// Foods are the foods that items name: a kitchen's own, and below them those of the
// built-in table. The nil Foods has the built-in ones alone.
type Foods struct {
	own map[string]*Food // by the keys of all their names
}

// An OwnFood is one row of a kitchen's own foods. What it does not say is taken from
// the built-in table.
type OwnFood struct {
	Name      string
	Others    []string                   // other names of the same good
	Section   string                     // of the shop; "" where the row does not say
	Weights   map[string]quantity.Number // grams of one, by the name of a unit: "each", "clove"
	Density   *quantity.Number           // grams in a millilitre
	Trim      *quantity.Number           // percent of the purchased weight
	Allergens []string                   // as [OfficialAllergen] returns them
	Assessed  bool                       // Allergens is what the kitchen says, none of them included
	Loose     bool                       // sold by weight, in no pack
	Pack      quantity.Amount            // what one pack holds
	By        *quantity.Unit             // sold by the piece, bunch or head
	Keeps     int                        // days as bought; 0 where the row does not say
}

// kitchens marks a figure of the kitchen's own foods.
const kitchens = "the kitchen's foods"

// NewFoods returns the foods of a kitchen above the built-in table: nil, which has the
// built-in ones alone, where there are no rows. Of two rows with one name the first counts.
func NewFoods(rows []OwnFood) *Foods {
	if len(rows) == 0 {
		return nil
	}
	fs := &Foods{own: make(map[string]*Food, 2*len(rows))}
	for i := range rows {
		row := &rows[i]
		f := &Food{Name: row.Name, Section: row.Section, others: strings.Join(row.Others, ","), own: row}
		if base := builtIn(row); base != nil {
			f.base, f.parent = base, base
			f.tokens, f.block = base.tokens, base.block
			if base.others != "" {
				f.others = strings.Trim(f.others+","+base.others, ",")
			}
		} else {
			f.parent = Nearest(row.Name).Food
		}
		if f.Section == "" && f.parent != nil {
			f.Section = f.parent.Section
		}
		if f.Section == "" {
			f.Section = "other"
		}
		for _, name := range append([]string{row.Name}, row.Others...) {
			if k := key(name); fs.own[k] == nil {
				fs.own[k] = f
			}
		}
	}
	return fs
}

// builtIn returns the food of the built-in table that a row is about, by any of its
// names, nil for none.
func builtIn(row *OwnFood) *Food {
	for _, name := range append([]string{row.Name}, row.Others...) {
		if f, ok := Find(name); ok {
			return f
		}
	}
	return nil
}

// TakesBack returns the official allergens that the built-in table has in a food, and
// that its row does not.
func (o *OwnFood) TakesBack() []string {
	name := o.Name
	if base := builtIn(o); base != nil {
		name = base.Name
	}
	now, _ := NewFoods([]OwnFood{*o}).Assess(o.Name)
	before, _ := Assess(name)
	var out []string
	for _, c := range before.Carries {
		words := strings.ReplaceAll(c.Code, "_", " ")
		if now.Certainty(c.List, c.Code) == "" && c.Certainty != May && !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return out
}

// Has reports whether an item is one of the kitchen's own foods.
func (fs *Foods) Has(item string) bool { return fs != nil && fs.own[key(item)] != nil }

// Names reports whether the words of an item name one of the kitchen's own foods.
func (fs *Foods) Names(item string) bool {
	m := fs.resolve(item)
	return m.food != nil && m.food.own != nil || slices.ContainsFunc(m.named, func(f *Food) bool { return f.own != nil })
}

// Known returns the words by which the built-in table knows an item: another name of a
// kitchen's own food becomes the food's name, and every other item stays as it is.
func (fs *Foods) Known(item string) string {
	if !fs.Has(item) {
		return item
	}
	switch f := fs.own[key(item)]; {
	case f.base != nil:
		return f.base.Name
	case key(f.Name) != key(item):
		return f.Name + " " + item
	}
	return item
}

// lookup returns the food of a key, nil where there is none.
func (fs *Foods) lookup(k string) *Food {
	if fs != nil {
		if f := fs.own[k]; f != nil {
			return f
		}
	}
	return byName[k]
}

// ownFigure returns a figure that the kitchen gives of its food; ok is false where it
// gives none. Words are those of the table: "t", "d", "e" or the name of a unit.
func (o *OwnFood) ownFigure(word string) (n quantity.Number, ok bool) {
	given := func(p *quantity.Number) (quantity.Number, bool) {
		if p == nil {
			return n, false
		}
		return *p, true
	}
	switch word {
	case "t":
		return given(o.Trim)
	case "d":
		return given(o.Density)
	case "e":
		word = quantity.Each.Name
	}
	n, ok = o.Weights[word]
	return n, ok
}

// sold reports whether the row says how the food is sold.
func (o *OwnFood) sold() bool { return o.Loose || o.By != nil || o.Pack.Unit != nil }

// byWords reports whether nothing but the words of its name tells the class or the
// allergens of a food: it is a kitchen's own, and the built-in table does not have it.
func (f *Food) byWords() bool { return f.own != nil && f.base == nil }

// assess returns the allergens of a kitchen's food that the kitchen does not assess: what
// the built-in table says of its name and of the item, probably.
func (f *Food) assess(item string) (a Assessment, known bool) {
	a, known = Assess(f.Name)
	if key(item) == key(f.Name) {
		return a, known
	}
	more, alsoKnown := Assess(item)
	a.add(more.Carries)
	return a, known || alsoKnown
}

// classify returns the class of a kitchen's food that the built-in table does not have:
// what the table says of its name, with the animals of the allergens that the kitchen names.
func (f *Food) classify() (c Class, ok bool) {
	c, ok = Classify(f.Name)
	for _, a := range f.creatures(false) {
		if !slices.Contains(c.Animals, a) {
			c.Animals = append(slices.DeleteFunc(slices.Clone(c.Animals), func(a Animal) bool { return a == NoAnimal }), a)
		}
	}
	c.may(f)
	if !ok {
		c.Heat, c.Food, c.Probably = NoHeat, f.Name, true
	}
	return c, ok || len(c.Animals) > 0
}

// NameKey returns what names have in common that are one name to the food table: case,
// accents, hyphens and plurals make no difference.
func NameKey(name string) string { return key(name) }

// NotAFood returns why a name can't be the name of one food, "" where it can: it is a
// word for an allergen or a diet, or for many goods.
func NotAFood(name string) string {
	k := key(name)
	f := byName[k]
	switch meaning, guests := meanings[k]; {
	case f != nil && f.Category():
		return "is a word for many foods"
	case guests && (f == nil || strings.Contains(" "+meaning+" ", " nu ")): // nuts are many, milk is one
		return "is a word for what guests can't have"
	}
	return ""
}

// OfficialAllergen returns what the official lists mean by a word, for
// [OwnFood.Allergens]: "milk", "tree nuts", "may nuts" or "may contain nuts". ok is false for
// any other word; meant is then the official word that it is an everyday word for, or
// "". Gluten may be of wheat, unless it is said that it is wheat.
func OfficialAllergen(words string) (tokens []string, meant string, ok bool) {
	low := strings.ToLower(strings.TrimSpace(words))
	may := ""
	for _, w := range [...]string{"may contain ", "may be ", "may "} {
		if rest, cut := strings.CutPrefix(low, w); cut {
			low, may = strings.TrimSpace(rest), "?"
			break
		}
	}
	k := key(strings.ReplaceAll(low, "_", " "))
	for _, code := range officialCodes {
		for _, name := range official[code] {
			if name != "" && key(strings.ReplaceAll(name, "_", " ")) == k {
				return withWheat(code, may), "", true
			}
		}
	}
	if a, known := Understand(low); known && len(a.Allergens) > 0 {
		return nil, strings.ReplaceAll(a.Allergens[0].Code, "_", " "), false
	}
	if f, known := Find(low); known { // "hazelnuts" are nuts
		for _, c := range f.codes() {
			return nil, strings.ReplaceAll(cmp.Or(official[c.code][0], official[c.code][1]), "_", " "), false
		}
	}
	return nil, "", false
}

// officialCodes are the table's codes of the official allergens, in the order of the EU's
// list. "tn" is not among them: a kitchen's tree nuts count as nuts, on both lists.
var officialCodes = []string{"gl", "wh", "cr", "eg", "fi", "pe", "so", "mi", "nu", "ce", "mu", "se", "su", "lu", "mo"}

// withWheat returns a code with the code of the other list that it may or does include.
func withWheat(code, may string) []string {
	switch code {
	case "gl":
		return []string{"gl" + may, "wh?"}
	case "wh":
		return []string{"gl" + may, "wh" + may}
	}
	return []string{code + may}
}
