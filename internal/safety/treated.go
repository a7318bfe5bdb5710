package safety

import (
	"slices"
	"strings"
)

// Words for what carries germs from the surface of meat to its middle. The code's are in
// US FDA Food Code 3-401.11(A)(2), read, and in its definition of "mechanically
// tenderized" (blade tenderizing, jaccarding, pinning, needling, injecting), read in the
// Conference for Food Protection's issue 2018 I-013. "Cube steak" and the spellings are
// our own compilation.
const (
	piercedWords = "tenderized, tenderised, blade tenderized, blade tenderised, mechanically tenderized, mechanically tenderised, needle tenderized, needle tenderised," +
		" jaccarded, needled, pinned, injected, brine injected, pump marinated, pumped, stitch pumped, cube steak, cubed steak, swiss steak, enhanced pork, enhanced beef"
	piercingWords = "inject, injecting, injector, tenderize, tenderise, tenderizing, tenderising, tenderizer, tenderiser, jaccard, needling, pump marinate, stitch pump"
	mincedWords   = "mince, minced, ground, comminuted, restructured, reformed"
	mincingWords  = "mince, minced, grind"
	mincers       = "mincer, meat grinder, through the grinder"
	stuffingWords = "stuff, stuffing"
	poolingWords  = "beat, whisk, scramble, pool" // eggs, into one another
	betweenWords  = "the, all, both, half, of, rest, each, every, your, this, raw, cold, chilled, finely, coarsely"
)

// TreatsMeat reports whether the words of a preparation say that a meat is minced,
// tenderised, injected or stuffed: it is then cooked hotter than the whole cut.
func TreatsMeat(prep string) bool {
	return hasAny(tokens(prep), piercedWords+", stuffed") || mincedByName(prep)
}

// mincedByName reports whether a name, or a phrase of it between commas, begins or ends
// with a word for minced: "beef, finely minced". "Lamb with minced garlic" is not minced.
func mincedByName(name string) bool {
	for part := range strings.SplitSeq(name, ",") {
		t := tokens(part)
		for len(t) > 0 && hasAny(t[:1], "finely, coarsely, freshly, twice") {
			t = t[1:]
		}
		if n := len(t); n > 0 && (hasAny(t[:1], mincedWords) || hasAny(t[n-1:], mincedWords)) {
			return true
		}
	}
	return false
}

// treated returns the class of a raw food whose name says what was done with it: a
// tenderised steak is no whole cut.
func treated(class Class, name string) Class {
	switch class {
	case Beef, Pork, Lamb:
		if hasAny(tokens(name), piercedWords) || mincedByName(name) {
			return Minced
		}
	case Fish, Shellfish:
		if mincedByName(name) {
			return Minced
		}
	}
	return class
}

// ClassIn returns the class of a raw item on a card, by its name and by what the steps do
// with it: a pork loin that a step injects or minces is no whole cut any more.
func ClassIn(steps []StepNeeds, item string) Class { return readCooking(steps).class(item) }

// class returns the class of an item by its name and by what the steps do with it.
func (c *cooking) class(item string) Class {
	class := ClassOf(item)
	if class == Egg && slices.ContainsFunc(c.words, func(words []string) bool { return doneTo(words, poolingWords, item) }) {
		return PooledEgg
	}
	whole := class == Beef || class == Pork || class == Lamb
	if !whole && class != Fish && class != Shellfish && class != Minced {
		return class
	}
	for j, words := range c.words {
		uses := slices.Contains(c.steps[j].Items, item)
		switch {
		case doneTo(words, stuffingWords, item):
			return Stuffed
		case class == Minced:
		case whole && hasAny(words, piercingWords) && slices.Contains(c.about(j), item),
			uses && hasAny(words, mincers), doneTo(words, mincingWords, item):
			class = Minced
		}
	}
	return class
}

// doneTo reports whether one of several verbs comes before a word of the item's name:
// "stuff each squid", "mince the cold pork".
func doneTo(text []string, verbs, item string) bool {
	name := tokens(item)
	for i := range text {
		if !hasAny(text[i:i+1], verbs) {
			continue
		}
		rest := text[i+1:]
		for len(rest) > 0 {
			switch {
			case hasAny(rest[:1], betweenWords):
				rest = rest[1:]
				continue
			case len(rest) > 2 && hasAny(rest[:1], "and, then"): // "mince and fry the steak"
				rest = rest[2:]
				continue
			}
			break
		}
		if len(rest) > 0 && slices.ContainsFunc(name, func(w string) bool { return len(w) > 2 && (same(rest[0], w) || same(w, rest[0])) }) {
			return true
		}
	}
	return false
}
