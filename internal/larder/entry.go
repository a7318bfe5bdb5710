package larder

import (
	_ "embed"
	"slices"
	"strings"
)

//go:embed animals.txt
var animalsText string

// An entry is one row of the table as it is written there.
type entry struct {
	name     string
	section  string
	heat     Heat
	creature []Animal // beside those that its allergens tell
	category bool     // a word for many foods ("steak"): never the same good as another
	parent   *entry   // the broader food
	madeOf   []string // keys of foods that it is made of
	codes    []string // of allergens, as the table has them
}

// entries are the rows of the table by the key of every name.
var entries = readEntries(animalsText)

func readEntries(text string) map[string]*entry {
	index := map[string]*entry{}
	var block block
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if head, ok := strings.CutPrefix(line, "@"); ok {
			block = readBlock(head)
			continue
		}
		c := strings.Split(line, ";")
		e := block.row(c, index)
		for _, name := range append(strings.Split(c[1], ","), e.name) {
			if name = key(name); name != "" {
				index[name] = e
			}
		}
	}
	for name, f := range byName {
		if name = key(name); index[name] == nil {
			index[name] = &entry{name: f.Name, section: f.Section, heat: NoHeat}
		}
	}
	return index
}

// A block holds what the rows below a line with "@" have in common.
type block struct {
	section string
	tokens  []string
}

func readBlock(line string) block {
	words := strings.Fields(line)
	return block{strings.ReplaceAll(words[0], "_", " "), words[1:]}
}

// row reads one row: name ; other names ; row of USDA SR28 ; tokens. A broader food
// must stand before it.
func (b block) row(c []string, index map[string]*entry) *entry {
	e := &entry{name: c[0], section: b.section, heat: NoHeat}
	for _, token := range slices.Concat(b.tokens, strings.Fields(c[3])) {
		word, value, valued := strings.Cut(token, "=")
		switch {
		case word == "m":
			e.creature = append(e.creature, Animal(value))
		case word == "h":
			e.heat = heats[value]
		case word == "cat":
			e.category = true
		case strings.HasPrefix(word, "<"):
			e.parent = index[key(word[1:])]
		case strings.HasPrefix(word, "+"):
			e.madeOf = append(e.madeOf, key(word[1:]))
		case strings.HasPrefix(word, "!"):
			e.codes = slices.DeleteFunc(e.codes, func(code string) bool { return code == word[1:] })
		case !valued:
			e.codes = append(e.codes, word)
		}
	}
	return e
}

// carried maps the codes of allergens to the animals they are of.
var carried = map[string]Animal{"cr": Shellfish, "mo": Shellfish, "fi": Fish, "eg": Eggs, "mi": Dairy}

// animals returns the animal classes of a food, NoAnimal alone where it has none. What
// it only may hold is left out.
func (e *entry) animals() []Animal {
	out := slices.Clone(e.creature)
	for _, code := range e.codes {
		if a := carried[strings.TrimSuffix(code, "~")]; a != "" && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	if len(out) == 0 {
		out = []Animal{NoAnimal}
	}
	return out
}
