package larder

import (
	"slices"
	"strings"
)

// Certainty is how surely an item carries an allergen.
type Certainty string

// Probably is for an item that the table knows only by a broader food or by parts of its
// name.
const (
	Always   Certainty = "always"
	Usually  Certainty = "usually"
	Probably Certainty = "probably"
	May      Certainty = "may"
)

// Certainties are all of them, the surest first.
var Certainties = []Certainty{Always, Usually, Probably, May}

// A Carry is an allergen that an item carries, by one of the two official lists.
type Carry struct {
	List      List
	Code      string // as [Categories] has it
	Certainty Certainty
}

// An Assessment is what the table knows of an item's allergens.
type Assessment struct {
	Carries []Carry // none: the item is in neither list, which is never shown as "free of"
	Foods   []string
	// Foods are those by which the item was assessed, where it is none of them itself.
	Open bool // it may carry others too: not all of its words say what is in it
}

// Certainty returns how surely the item carries an allergen, "" where it does not.
func (a Assessment) Certainty(list List, code string) Certainty {
	for _, c := range a.Carries {
		if c.List == list && c.Code == code {
			return c.Certainty
		}
	}
	return ""
}

// official maps the codes of the table to those of the two lists.
var official = map[string][2]string{
	"gl": {"gluten"}, "wh": {1: "wheat"}, "cr": {"crustaceans", "crustacean_shellfish"}, "eg": {"eggs", "egg"}, "fi": {"fish", "fish"},
	"pe": {"peanuts", "peanuts"}, "so": {"soybeans", "soybeans"}, "mi": {"milk", "milk"}, "nu": {"nuts", "tree_nuts"}, "tn": {1: "tree_nuts"},
	"ce": {"celery"}, "mu": {"mustard"}, "se": {"sesame", "sesame"}, "su": {"sulphites"}, "lu": {"lupin"}, "mo": {"molluscs"},
}

// A codeOf is an allergen as the table has it.
type codeOf struct {
	code      string
	certainty Certainty
}

// codes returns the allergens of a food in the table's codes.
func (f *Food) codes() []codeOf {
	var out []codeOf
	list := f.list()
	if f.own != nil && f.own.Assessed {
		list = f.own.Allergens
	}
	for _, token := range list {
		c := codeOf{token, Always}
		switch token[len(token)-1] {
		case '?':
			c = codeOf{token[:len(token)-1], May}
		case '~':
			c = codeOf{token[:len(token)-1], Usually}
		}
		if not, ok := strings.CutPrefix(token, "!"); ok {
			out = slices.DeleteFunc(out, func(c codeOf) bool { return c.code == not && c.certainty == Always })
		} else if _, ok := official[c.code]; ok {
			out = append(out, c)
		}
	}
	return out
}

// Assess returns the allergens of an item as cooks type it. An item that the table has
// only by a broader food or by parts of its name carries what they carry, probably.
// known is false where nothing is known or where a word of the item is neither a food
// nor one that changes nothing ("large"); the caller shows it as "not assessed".
func (fs *Foods) Assess(item string) (a Assessment, known bool) {
	m := fs.resolve(item)
	if m.same && m.food.byWords() && !m.food.own.Assessed {
		return m.food.assess(item)
	}
	if m.same {
		a.take(m.food, false)
		a.Open = m.food.open()
		return a, true
	}
	if m.denied {
		return a, false
	}
	all := m.named
	if m.food != nil && !slices.Contains(all, m.food) {
		all = append(all, m.food)
	}
	unsure := false
	for _, f := range all {
		if f.byWords() && !f.own.Assessed {
			of, ok := f.assess(f.Name)
			a.add(of.Carries)
			unsure = unsure || !ok
		} else {
			a.take(f, true)
		}
		a.Foods = append(a.Foods, f.Name)
	}
	a.Open = unsure || m.vague() || slices.ContainsFunc(all, (*Food).open)
	if len(a.Carries) > 0 {
		return a, true
	}
	known = len(all) > 0 && !unsure && !m.vague()
	for _, f := range all {
		known = known && (!f.Category() || f.plant() || f.Heat() != NoHeat || f.has("plain"))
	}
	if !known {
		return Assessment{}, false
	}
	return a, true
}

// Assess returns the allergens of an item by the built-in table, as [Foods.Assess] does.
func Assess(item string) (a Assessment, known bool) { return (*Foods)(nil).Assess(item) }

// take adds what a food carries.
func (a *Assessment) take(f *Food, probably bool) {
	for _, c := range f.codes() {
		if probably && c.certainty != May {
			c.certainty = Probably
		}
		for i, name := range official[c.code] {
			if name == "" {
				continue
			}
			a.add([]Carry{{[]List{EU, US}[i], name, c.certainty}})
		}
	}
}

// add adds allergens, each once, by its surest certainty.
func (a *Assessment) add(carries []Carry) {
	for _, carry := range carries {
		at := slices.IndexFunc(a.Carries, func(o Carry) bool { return o.List == carry.List && o.Code == carry.Code })
		if at < 0 {
			a.Carries = append(a.Carries, carry)
		} else if slices.Index(Certainties, carry.Certainty) < slices.Index(Certainties, a.Carries[at].Certainty) {
			a.Carries[at] = carry
		}
	}
}

// harmless are words beside a food's name that add no allergen.
var harmless = words(`large small medium big little tiny thick thin ripe unripe fresh raw whole good best cold warm hot soft softened melted firm hard
	chopped sliced diced peeled unpeeled grated ground crushed picked washed trimmed boned skinned shredded torn halved quartered cubed minced
	free range organic unwaxed fine coarse finely coarsely roughly thinly thickly young baby new plain local homegrown wild farmed forced
	red green white yellow black brown purple pink orange golden mixed assorted seasonal summer winter spring autumn early late english british
	french italian spanish greek of a an the some any and or with in on extra more for to tender sweet bitter frozen cooked roasted roast boiled
	steamed grilled baked braised poached blanched shelled podded pitted stoned cored deseeded seedless drained rinsed dry dried tinned canned`)
