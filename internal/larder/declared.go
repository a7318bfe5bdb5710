package larder

import (
	"slices"
	"strings"
)

// A Declared is one thing that a text says to be in something, such as the "contains" of
// a card: an allergen, a class of animals or a food of the table.
type Declared struct {
	Words string // "hazelnuts", without "may contain" and the like
	May   bool   // it is only said that it may be in it
	Says  string // the text that says it
	means Avoid
}

// Known reports whether the words are understood. Of words that are not, nothing can be
// said for any guest.
func (d Declared) Known() bool { return d.means.Words != "" }

// String returns what is said: "hazelnuts", "may contain hazelnuts".
func (d Declared) String() string {
	if d.May {
		return "may contain " + d.Words
	}
	return d.Words
}

// maying are the words that make a declaration one of what only may be there.
var maying = []string{"may contain", "might contain", "could contain", "may have", "may", "possible", "possibly", "traces of", "trace of", "traces", "trace", "contains", "contain"}

// Declare reads what an author says to be in something: "hazelnuts", "milk and nuts",
// "may contain nuts", "nuts (traces)". Each thing is one Declared; words that are not
// understood, or that say the opposite ("no nuts"), are one that is not [Declared.Known].
// Other words in brackets are a note.
func (fs *Foods) Declare(text string) (said []Declared, note string) {
	text = strings.TrimSpace(text)
	words, inside := text, ""
	if open, end := strings.IndexByte(text, '('), strings.LastIndexByte(text, ')'); open >= 0 && end > open {
		words, inside = strings.TrimSpace(text[:open]+" "+text[end+1:]), strings.TrimSpace(text[open+1:end])
	}
	words, may := cutMay(words)
	if rest, maybe := cutMay(inside); rest == "" {
		may, inside = may || maybe, ""
	}
	for _, part := range fs.phrases(words) {
		d := Declared{Words: part, May: may, Says: text}
		if a, ok := fs.meant(part); ok {
			d.Words, d.means = a.Words, a
		}
		said = append(said, d)
	}
	if len(said) == 0 {
		said = []Declared{{Words: words, May: may, Says: text}}
	}
	if inside == "" {
		return said, ""
	}
	more, _ := fs.Declare(inside)
	if slices.ContainsFunc(more, func(d Declared) bool { return !d.Known() }) {
		more, note = slices.DeleteFunc(fs.Asides("", inside), func(d Declared) bool { return !d.Known() }), inside
	}
	return append(said, more...), note
}

// cutMay takes words like "may contain" and "traces" off both ends of a text, and returns
// the rest in lower case.
func cutMay(text string) (rest string, may bool) {
	rest = strings.Join(strings.Fields(strings.ToLower(text)), " ")
	for again := true; again; {
		again = false
		for _, words := range maying {
			cut := strings.TrimSpace(strings.TrimPrefix(rest+" ", words+" "))
			if cut == rest {
				cut = strings.TrimSpace(strings.TrimSuffix(" "+rest, " "+words))
			}
			if cut != rest {
				rest, may, again = cut, may || !strings.HasPrefix(words, "contain"), true
				break
			}
		}
	}
	return rest, may
}

// meant returns what a thing means that is said to be in something. ok is false for a
// diet and for words that say more than the thing: "no nuts", "nut free".
func (fs *Foods) meant(text string) (a Avoid, ok bool) {
	for s := sayingOf(text); len(s.list) > 0; {
		if a, ok = fs.understood(s.words()); ok {
			ok = !a.diet && s.had[avoids]+s.had[ails]+s.had[clears]+s.had[afflicted]+s.had[alone] == 0
			break
		}
		if !s.strip() {
			break
		}
	}
	if !ok {
		return Avoid{}, false
	}
	return a, true
}

// Allergen returns the words for a thing that an author takes back, "gluten", and
// whether they are understood.
func (fs *Foods) Allergen(text string) (words string, ok bool) {
	a, ok := fs.meant(text)
	return a.Words, ok
}

// Carries returns the official allergens of what is declared, by the foods given.
func (d Declared) Carries(fs *Foods) []Carry {
	var a Assessment
	for _, c := range d.means.Allergens {
		a.add([]Carry{{c.List, c.Code, Always}})
	}
	if len(d.means.Foods) > 0 {
		of, _ := fs.Assess(d.means.Words)
		a.add(of.Carries)
	}
	for i := range a.Carries {
		if d.May {
			a.Carries[i].Certainty = May
		}
	}
	return a.Carries
}

// OfDeclared returns whether what is declared is what the guest avoids. A word for many
// goods may be the one that the guest avoids: nuts may be walnuts.
func (a Avoid) OfDeclared(d Declared, fs *Foods) Verdict {
	if !d.Known() || a.unread {
		return Verdict{Unknown: true}
	}
	m := d.means
	v := Verdict{Sure: a.Meets(m)}
	if len(m.Foods) > 0 {
		of := a.Of(m.Words, fs)
		v.Sure, v.May = v.Sure || of.Sure, of.May || of.Unknown
	}
	v.May = v.May || shared(a.mayCodes, m.codes) || shared(a.mayAnimals, m.Animals)
	for _, name := range a.Foods {
		f := fs.lookup(key(name))
		if f == nil {
			continue
		}
		for _, k := range m.keys { // "contains citrus", for a guest without lemon
			v.May = v.May || f.among(families[k].has) || f.among(families[k].may)
		}
		for _, c := range f.codes() {
			v.May = v.May || slices.Contains(m.codes, c.code)
		}
		for _, animal := range append(f.creatures(false), f.creatures(true)...) {
			v.May = v.May || slices.Contains(m.Animals, animal)
		}
	}
	for _, heat := range a.Heats {
		v.May = v.May || slices.Contains(m.Heats, heat)
		for _, code := range m.codes {
			v.May = v.May || rawOf[code] == heat
		}
		for _, animal := range m.Animals {
			v.May = v.May || rawMeats[animal] && heat != HeatEgg && heat != HeatFish && heat != HeatShellfish
		}
	}
	if d.May && v.Sure {
		v.Sure, v.May = false, true
	}
	return v
}

// rawOf maps the allergens to the classes of raw food that they may be.
var rawOf = map[string]Heat{"eg": HeatEgg, "fi": HeatFish, "cr": HeatShellfish, "mo": HeatShellfish}

// rawMeats are the classes of animals that are eaten as meat.
var rawMeats = map[Animal]bool{Meat: true, Poultry: true}
