package card

import (
	"strings"
)

// contains reads a part of what the author says to be in it, "hazelnuts", "nuts
// (traces)". Words that are not understood are kept: no guest can be told that there is
// no clash.
func (p *parser) contains(part string, at int) {
	said, note := p.card.Foods.Declare(part)
	for _, d := range said {
		if !d.Known() {
			p.unknownAllergen(d.Words, at)
		}
	}
	p.card.Contains = append(p.card.Contains, said...)
	if note != "" {
		p.notes = append(p.notes, "Contains "+said[0].Words+": "+note)
	}
}

// without reads an allergen that the author takes back. The reason, in brackets,
// goes to the notes.
func (p *parser) without(part string, at int) {
	name, why, _ := strings.Cut(part, "(")
	name = strings.ToLower(strings.TrimSpace(name))
	why = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(why), ")"))
	if name == "" {
		p.Err(at, "an allergen without a name", "", `write it like "without: gluten (certified oats)"`)
		return
	}
	if _, ok := p.card.Foods.Allergen(name); !ok {
		p.unknownAllergen(name, at)
		return
	}
	p.card.Without = append(p.card.Without, name)
	if why == "" {
		p.Warn(at, `"without: `+name+`" gives no reason`, "", "add it in brackets: whoever serves it must be able to answer for it")
		return
	}
	p.notes = append(p.notes, "Without "+name+": "+why)
}

// unknownAllergen adds the problem of a word that is no allergen and no food, or that
// says the opposite of one.
func (p *parser) unknownAllergen(word string, at int) {
	if p.Full() {
		return
	}
	hint, do := p.card.Foods.Suggest(word), ""
	if _, said := p.card.Foods.Understand(word); said || hint == "" { // "no nuts", "vegan"
		hint, do = "", `write each by itself: an allergen ("milk"), a food ("hazelnuts"), or "may contain nuts"`
	}
	p.Err(at, `not counted: "`+word+`" is no allergen and no food that is known`, hint, do)
}
