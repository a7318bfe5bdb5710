package larder

import (
	"slices"
	"strings"
)

var (
	// joining are the words behind which the line of an item names what is in it: "fried
	// in butter", "with almonds".
	joining = words(`with in plus and contain containing include including from of on into`)
	// offering are those behind which it only may be: "or cod".
	offering = words(`or may might could trace possible possibly for serve kitchen factory facility handle process`)
	// concealing are words for what is made of things that the line does not name.
	concealing = words(`marinade sauce dressing glaze rub seasoning filling coating spread dip relish icing frosting stuffing`)
	// cooking are words behind a food that make it a part of the item: "beer-battered".
	cooking = words(`fried poached glazed battered crusted coated wrapped soaked dipped braised roasted basted washed marinated infused enriched topped stuffed filled brushed tossed dressed cooked cured based`)
	// likening are words that make a food a measure: "the size of a walnut", "egg-sized".
	likening = words(`size sized shape shaped like thick thickness style coloured colored`)
	// tools are words that make a food the name of a tool: "a bread knife".
	tools = words(`knife brush cutter tin pan dish bowl paper cloth wheel spoon fork board kettle press slicer grater mould peeler mill machine maker glass bottle case tray basket hook thermometer syringe bag
		container`)
	// taking are words that take back what follows them: "without butter".
	taking = words(`without no not never instead rather except`)
	// doing are names of foods that are also what a cook does with an item: "chop", "toast".
	doing = words(`chop mince toast roast mash crisp wrap roll char dab cream batter chip half juice joint cube shell skate smelt drum sole rib stock`)
)

// made maps words for what was done with a food to the food.
var made = map[string]string{"buttered": "butter", "breaded": "breadcrumbs", "crumbed": "breadcrumbs", "floured": "flour", "battered": "batter", "creamed": "cream", "cheesy": "cheese"}

// Asides returns what the line of an item says to be in it beside its name: in brackets,
// behind a comma, in its preparation. "Oat milk (with almonds)" is with almonds, and
// "chocolate, may contain hazelnuts" may be with hazelnuts. What is named without a word
// like "with" or "in" ("stock, fish") only may be in it, and a marinade or sauce that is not named is not
// [Declared.Known].
func (fs *Foods) Asides(item, prep string) []Declared {
	name, rest := item, ""
	if i := strings.IndexAny(item, ",(;:["); i >= 0 {
		name, rest = item[:i], item[i:]
	}
	if rest == "" && prep == "" {
		return nil
	}
	var out []Declared
	for phrase := range strings.FieldsFuncSeq(rest+","+prep, func(r rune) bool { return strings.ContainsRune(",;:()[].|", r) }) {
		for _, d := range fs.aside(key(name), strings.TrimSpace(phrase)) {
			if !slices.ContainsFunc(out, func(o Declared) bool { return o.Words == d.Words && o.May == d.May }) {
				out = append(out, d)
			}
		}
	}
	return out
}

// aside returns what one phrase beside an item's name says to be in it.
func (fs *Foods) aside(name, phrase string) []Declared {
	list := strings.Fields(key(phrase))
	if whole := strings.Join(list, " "); len(list) > 0 && !doing[whole] {
		if f := fs.lookup(whole + " " + name); name != "" && f != nil {
			return fs.declared(nil, whole+" "+name, false, phrase) // "mushrooms, oyster"
		}
		if out := fs.declared(nil, whole, name != "", phrase); len(out) > 0 {
			return out
		}
	}
	var out []Declared
	joined, may := false, false
	for i := 0; i < len(list); {
		word := list[i]
		switch {
		case taking[word], word == "free" && i+1 < len(list) && (list[i+1] == "of" || list[i+1] == "from"):
			return out
		case offering[word]:
			joined, may = true, true
		case joining[word]:
			joined = true
		case made[word] != "":
			out = fs.declared(out, made[word], may, phrase)
		}
		n := 1
		for j := min(len(list), i+5); j > i; j-- {
			if fs.names(strings.Join(list[i:j], " ")) {
				n = j - i
				break
			}
		}
		behind := ""
		if i+n < len(list) {
			behind = list[i+n]
		}
		plain := n == 1 && parts[word] || tools[behind] || likening[behind] || behind == "free" || slices.ContainsFunc(list[max(0, i-3):i], func(w string) bool { return likening[w] })
		switch named := strings.Join(list[i:i+n], " "); {
		case joined && concealing[named]:
			out = append(out, Declared{Words: named, May: true, Says: phrase})
		case !plain && (joined || cooking[behind]):
			out = fs.declared(out, named, may, phrase)
		}
		i += n
	}
	return out
}

// names reports whether words are a food, an allergen or a class of animals.
func (fs *Foods) names(words string) bool {
	_, said := meanings[words]
	return said || fs.lookup(words) != nil
}

// declared adds a thing to what a phrase says, unless the words are none.
func (fs *Foods) declared(out []Declared, words string, may bool, says string) []Declared {
	a, ok := fs.understood(words)
	if !ok || a.diet {
		return out
	}
	return append(out, Declared{Words: words, May: may, Says: says, means: a})
}
