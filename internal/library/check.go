package library

import (
	"path"
	"slices"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/safety"
)

// A Source is a file as read from a folder.
type Source struct{ Name, Text string }

// Gather compiles files together and returns them as a set, the kitchen's own foods among
// them (nil for none), with every file's own problems and the file names as given, paths and all. Links go by a file's own name,
// whatever its folder.
func Gather(files []Source) (Set, *larder.Foods, []document.Problem) {
	set := Set{}
	problems := []document.Problem{}
	var cache Cache
	for _, src := range files {
		f := cache.Compile(src.Name, src.Text)
		base := path.Base(src.Name)
		if other, taken := set[base]; taken {
			problems = append(problems, document.Problem{File: src.Name, Line: 1, Col: 1, Severity: document.Error,
				Msg: "two files of one name: " + other.Name + " is called " + base + " too",
				Do:  "rename one; links could mean either"})
			problems = append(problems, f.Problems...)
			continue
		}
		set[base] = f
	}
	foods := cache.Stock(set)
	for _, name := range set.Names() {
		problems = append(problems, set[name].Problems...)
	}
	return set, foods, problems
}

// Check returns the problems that the files show only together: links that lead
// nowhere, cards that need each other in a loop, steps without a critical limit
// that the kitchen's rules ask for, temperatures that can't be reached at the
// kitchen's altitude.
func (s Set) Check() []document.Problem {
	out := append(append(s.links(), s.foodProblems()...), s.pints()...)
	rules, altitude := s.rules()
	for _, name := range s.Names() {
		if c := s[name].Card; c != nil {
			out = append(out, s.gaps(c, rulesOf(c, rules))...)
			out = append(out, s.reheats(c, rulesOf(c, rules))...)
			out = append(out, heldWrong(c, rulesOf(c, rules))...)
			out = append(append(out, thinAir(c, altitude)...), stages(c)...)
		}
	}
	return out
}

// CheckFile returns the problems of one file that only its neighbours in the
// set show. The file replaces the set's own of that name.
func (s Set) CheckFile(f *File) []document.Problem {
	with := make(Set, len(s)+1)
	for name, other := range s {
		with[name] = other
	}
	with[f.Name] = f
	var out []document.Problem
	for _, p := range append(append(with.links(), with.foodProblems()...), with.pints()...) {
		if p.File == f.Name {
			out = append(out, p)
		}
	}
	if f.Card == nil {
		return out
	}
	rules, altitude := with.rules()
	out = append(out, with.gaps(f.Card, rulesOf(f.Card, rules))...)
	out = append(out, heldWrong(f.Card, rulesOf(f.Card, rules))...)
	out = append(out, with.reheats(f.Card, rulesOf(f.Card, rules))...)
	return append(append(out, thinAir(f.Card, altitude)...), stages(f.Card)...)
}

// rulesOf returns the rule sets by which a card's limits are checked: those of the kitchens,
// and the card's own where no kitchen names any.
func rulesOf(c *card.Card, kitchens []safety.Rules) []safety.Rules {
	if len(kitchens) == 1 && kitchens[0] == "" {
		return []safety.Rules{safety.Rules(c.Rules)}
	}
	return kitchens
}

// rules returns the rule sets that the kitchens name, or "" alone when none
// does, and the highest altitude of a kitchen in metres.
func (s Set) rules() (rules []safety.Rules, altitudeM int) {
	for _, name := range s.Names() {
		k := s[name].Kitchen
		if k == nil {
			continue
		}
		altitudeM = max(altitudeM, k.AltitudeM)
		if r := safety.Rules(k.Rules); r != "" && !slices.Contains(rules, r) {
			rules = append(rules, r)
		}
	}
	if len(rules) == 0 {
		rules = []safety.Rules{""}
	}
	return rules, altitudeM
}
