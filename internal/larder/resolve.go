package larder

import "strings"

// A match is what the table knows of an item's words.
type match struct {
	food    *Food    // the food itself, or the broader food at the head of the words; nil where none is known
	same    bool     // it is the same good
	changed bool     // a word says that it is cooked, cured or preserved
	denied  bool     // a word takes back what it names: "vegan", "free", "mock"
	named   []*Food  // every food that its words name, when it is not the same good
	rest    []string // the words that name none
	cut     *Food    // the cut that its last word is, nil for none: "honey rib"
}

var (
	changing = words(`cooked roasted roast boiled poached grilled fried braised steamed baked smoked cured dried tinned canned jarred pickled salted
		powdered powder confit leftover candied preserved fermented crystallised dehydrated toasted`)
	denying = words(`vegetarian vegan plant meatless mock imitation substitute replacer replacement alternative free without not no analogue`)
	// parts are words for a part of what is named before them: celery leaf is of celery.
	parts = words(`fillet loin steak leaf stalk stem sprig top root bulb head heart tip spear floret bone skin peel rind chunk cube strip slice piece wedge
		half ring stick baton cheek tail belly collar leg breast thigh wing neck shoulder neck rib shank saddle rack haunch mince medallion escalope cutlet
		chop joint roast mince goujon portion flesh meat kernel flower pod shoot trimming mixture`)
)

func words(list string) map[string]bool {
	m := map[string]bool{}
	for word := range strings.FieldsSeq(list) {
		m[word] = true
	}
	return m
}

// resolve finds the food that an item is. Where the table does not have it, the head of
// its words may be a broader food: the last words ("wild cherry tomato" is a tomato),
// what comes before a part ("celeriac steak" is of celeriac) or before and after a
// preposition ("shoulder of mutton"). Nothing of a broader food may be taken without
// saying so.
func (fs *Foods) resolve(item string) match {
	k := key(item)
	if e := fs.lookup(k); e != nil && !e.Category() {
		return match{food: e, same: true}
	}
	list := strings.Fields(k)
	m := match{food: fs.head(list)}
	kept := fs.withoutParts(list)
	m.named, m.rest = fs.named(kept)
	if n := len(kept); n > 0 && parts[kept[n-1]] {
		m.cut = fs.lookup(kept[n-1])
	}
	for i, word := range list {
		m.changed = m.changed || changing[word] && !rawJoint(list, i)
		freeRange := word == "free" && i+1 < len(list) && list[i+1] == "range"
		m.denied = m.denied || denying[word] && !freeRange
	}
	return m
}

// rawJoint reports whether a word for cooked is the noun for a raw joint, at the end of the
// words or before "of": "rib roast", "roast of pork". "Roast pork" is cooked.
func rawJoint(list []string, i int) bool {
	return list[i] == "roast" && (i > 0 && i == len(list)-1 || i+1 < len(list) && list[i+1] == "of")
}

// vague reports whether a word of an item is neither a food nor one that changes nothing:
// nobody knows what else is in "moonflower almond paste".
func (m match) vague() bool {
	for _, word := range m.rest {
		if !harmless[word] && !parts[word] {
			return true
		}
	}
	return false
}

// head returns the broader food of a list of words, nil where none is known.
func (fs *Foods) head(list []string) *Food {
	for i, word := range list {
		switch word {
		case "in", "with", "on", "from", "for", "off", "and", "or":
			if i > 0 {
				return fs.head(list[:i])
			}
		case "of":
			if e := fs.head(list[i+1:]); e != nil {
				return e
			}
		}
	}
	n := len(list)
	for i := 0; i < n-1; i++ {
		if e := fs.lookup(strings.Join(list[i:], " ")); e != nil {
			return e
		}
	}
	if n == 0 {
		return nil
	}
	if n > 1 && parts[list[n-1]] {
		if e := fs.head(list[:n-1]); e != nil {
			return e
		}
	}
	return fs.lookup(list[n-1])
}

// named returns every food that a list of words names, from the left and the longest
// first, and the words that name none.
func (fs *Foods) named(list []string) (out []*Food, rest []string) {
	for i := 0; i < len(list); {
		n := 0
		for j := min(len(list), i+5); j > i && n == 0; j-- {
			if e := fs.lookup(strings.Join(list[i:j], " ")); e != nil {
				out, n = append(out, e), j-i
			}
		}
		if n == 0 {
			rest, n = append(rest, list[i]), 1
		}
		i += n
	}
	return out, rest
}
