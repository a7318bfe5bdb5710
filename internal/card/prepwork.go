package card

import (
	"slices"
	"strings"
	"unicode"
)

// prepVerbs are the verbs of work that gets an ingredient ready, by their participle.
var prepVerbs = map[string]string{
	"beaten": "beat", "blanched": "blanch", "boned": "bone", "bruised": "bruise", "chopped": "chop", "cleaned": "clean",
	"cored": "core", "cracked": "crack", "crumbled": "crumble", "crushed": "crush", "cubed": "cube", "cut": "cut",
	"deseeded": "deseed", "destoned": "destone", "diced": "dice", "drained": "drain", "filleted": "fillet", "grated": "grate",
	"ground": "grind", "gutted": "gut", "halved": "halve", "hulled": "hull", "husked": "husk", "juiced": "juice",
	"melted": "melt", "minced": "mince", "peeled": "peel", "picked": "pick", "pin-boned": "pin-bone", "pitted": "pit",
	"podded": "pod", "quartered": "quarter", "rinsed": "rinse", "scaled": "scale", "scooped": "scoop", "scored": "score",
	"scraped": "scrape", "scrubbed": "scrub", "seeded": "seed", "separated": "separate", "shaved": "shave", "shelled": "shell",
	"shredded": "shred", "sieved": "sieve", "sifted": "sift", "skinned": "skin", "sliced": "slice", "soaked": "soak",
	"softened": "soften", "squeezed": "squeeze", "stoned": "stone", "stripped": "strip", "thawed": "thaw", "toasted": "toast",
	"topped": "top", "torn": "tear", "trimmed": "trim", "washed": "wash", "wiped": "wipe", "zested": "zest",
}

// stepVerbs are those of them that a step begins with where it gets an ingredient ready
// itself. The others are as often a part of cooking: "Melt the **butter**".
var stepVerbs = []string{
	"bone", "chop", "core", "deseed", "destone", "dice", "fillet", "grate", "gut", "halve", "hull", "husk", "juice", "mince", "peel",
	"pick", "pin-bone", "pit", "pod", "quarter", "scrub", "seed", "shell", "shred", "skin", "slice", "stone", "trim", "wash", "zest",
}

// participle returns the participle of a verb that a step begins with where it gets an
// ingredient ready, "" for any other word.
func participle(verb string) string {
	if !slices.Contains(stepVerbs, verb) {
		return ""
	}
	for done, of := range prepVerbs {
		if of == verb {
			return done
		}
	}
	return ""
}

// shapes are words that ask for work without a verb: "in chunks", "leaves".
var shapes = []string{
	"batons", "chunks", "cubes", "dice", "florets", "half-moons", "leaves", "matchsticks", "moons", "pieces", "rings", "rounds",
	"segments", "shavings", "slices", "stalks", "sticks", "strips", "wedges", "zest",
}

// fineness are words that ask for work on what grows, and say how other food is bought:
// shallots are chopped fine, salt is fine.
var fineness = []string{"fine", "finely", "thin", "thinly"}

// growing are the sections of the shop whose food is cut.
var growing = []string{"vegetables", "fruit", "herbs"}

// PrepWork returns what is done to an item before a step uses it: the phrases of its
// preparation that are work ("peeled", "grated fine"), or else, in the same form, what
// the first step that names it begins with: "Peel and grate the **horseradish**". It
// returns "" where there is nothing to do. Index counts from 0.
func (c *Card) PrepWork(index int) string {
	it := &c.Items[index]
	var out []string
	for phrase := range strings.SplitSeq(it.Prep, ",") {
		if phrase = strings.TrimSpace(phrase); !strings.HasPrefix(strings.ToLower(phrase), boughtPhrase) && c.isWork(it, phrase) {
			out = append(out, phrase)
		}
	}
	if len(out) == 0 && it.Card == "" {
		out = c.workInSteps(index + 1)
	}
	if work := unready[it.Bought]; work != "" && !slices.ContainsFunc(out, func(phrase string) bool { return strings.Contains(phrase, work) }) {
		out = append([]string{work}, out...)
	}
	return strings.Join(out, ", ")
}

// isWork reports whether a phrase of a preparation asks for work.
func (c *Card) isWork(it *Item, phrase string) bool {
	words := strings.FieldsFunc(strings.ToLower(phrase), func(r rune) bool { return !unicode.IsLetter(r) && r != '-' })
	if slices.Contains(words, "not") || slices.Contains(words, "no") {
		return false
	}
	for _, w := range words {
		if prepVerbs[w] != "" || slices.Contains(shapes, w) {
			return true
		}
	}
	if len(words) == 1 && slices.Contains(fineness, words[0]) {
		food := c.Foods.Nearest(it.Name).Food
		return food != nil && slices.Contains(growing, food.Section)
	}
	return false
}

// workInSteps returns the participles of the verbs that the first step which names an
// item puts directly before it.
func (c *Card) workInSteps(item int) []string {
	for i := range c.Steps {
		var said []string // by the item before, which "and" may share with the next
		for k, r := range c.Steps[i].Text {
			if r.Item == 0 {
				continue
			}
			before := ""
			if k > 0 && c.Steps[i].Text[k-1].Item == 0 {
				before = c.Steps[i].Text[k-1].Text
			}
			verbs, joins := verbsBefore(before)
			if !joins || k == 0 {
				said = verbs
			}
			if r.Item == item {
				return said
			}
		}
	}
	return nil
}

// joinWords are words that may stand between a verb and what it is done to.
var joinWords = []string{"the", "a", "an", "all", "each", "both", "and", "then"}

// verbsBefore returns the participles of the verbs at the end of some words, in their
// order. joins reports that the words have nothing else in them: they join two items.
func verbsBefore(words string) (done []string, joins bool) {
	if at := strings.LastIndexAny(words, ".;:"); at >= 0 {
		words = words[at+1:]
	}
	list := strings.Fields(strings.ToLower(words))
	for i := len(list) - 1; i >= 0; i-- {
		w := strings.Trim(list[i], ",()")
		verb := participle(w)
		noun := i > 0 && (list[i-1] == "the" || list[i-1] == "a") // "with the skin"
		switch {
		case verb != "" && !noun:
			done = append(done, verb)
		case verb != "" || w != "" && !slices.Contains(joinWords, w):
			slices.Reverse(done)
			return done, false
		}
	}
	slices.Reverse(done)
	return done, len(done) == 0
}

// Takes reports whether a step names an item. The first step takes what no step names.
// Both count from 0.
func (c *Card) Takes(step, item int) bool {
	named := false
	for i := range c.Steps {
		for _, r := range c.Steps[i].Text {
			if r.Item == item+1 {
				if i == step {
					return true
				}
				named = true
			}
		}
	}
	return !named && step == 0
}
