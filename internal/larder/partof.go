package larder

import "slices"

// plantParts are the words for parts of animals that plants have too, and the plants that
// have them: our own compilation. "Pepper steak" is steak, so that every plant is named.
var plantParts = map[string]map[string]bool{
	"rib":    words("celery chard kale cabbage lettuce rhubarb corn sweetcorn fennel romaine cress"),
	"heart":  words("wheat oat coconut celery chard kale cabbage lettuce artichoke palm fennel romaine endive chicory"),
	"steak":  words("cauliflower cabbage celeriac aubergine eggplant watermelon pumpkin squash tofu tempeh swede beetroot broccoli kohlrabi"),
	"wing":   words("cauliflower jackfruit broccoli tofu tempeh"),
	"cutlet": words("cauliflower cabbage aubergine eggplant chickpea lentil bean vegetable nut tofu tempeh"),
	"fillet": words("tofu tempeh"),
	"roast":  words("nut lentil"),
	"chop":   words("lettuce cabbage"),
}

// milked are the animals that a word before milk, or what is made of it, is of.
var milked = words("goat sheep ewe cow buffalo camel mare")

// withoutParts returns the words of an item without those that name a part of what stands
// beside them and would be taken for meat: "celery rib" and "rib of celery" are celery,
// "cod cheek" is cod, and goat butter is butter.
func (fs *Foods) withoutParts(list []string) []string {
	drop := func(i int) bool {
		word := list[i]
		next := func(j int) string {
			if j < 0 || j >= len(list) {
				return ""
			}
			return list[j]
		}
		after := next(i + 1)
		if after == "of" {
			after = next(i + 2)
		}
		if word == "roast" && i == 0 { // "roast carrots", but "roast chicken"
			if e := fs.head(list[1:]); e != nil && e.plant() {
				return true
			}
		}
		if milked[word] {
			e := fs.lookup(next(i + 1))
			return e != nil && slices.Equal(e.Animals(), []Animal{Dairy})
		}
		for _, beside := range [...]string{next(i - 1), after} {
			if plantParts[word][beside] {
				return true
			}
			if !parts[word] || beside == "" {
				continue
			}
			if e := fs.lookup(beside); e != nil && (e.Heat() == HeatFish || e.Heat() == HeatShellfish) {
				return true
			}
		}
		return false
	}
	var out []string
	for i, word := range list {
		if !drop(i) {
			out = append(out, word)
		}
	}
	return out
}
