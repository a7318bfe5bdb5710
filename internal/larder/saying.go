package larder

import "strings"

// A turn is what the words around a thing do to a guest's meaning.
type turn int

const (
	plain     turn = iota // nothing: "a", "is", "strictly"
	avoids                // the guest avoids what follows: "no", "does not eat"
	ails                  // what it names makes the guest ill: "allergic to", "intolerance"
	afflicted             // "has", "with": sound only beside words that ail or name a diet
	clears                // "free", behind the thing
	alone                 // "only", "needs": beside a diet, or what is free of something
)

// openings are the words before what guests avoid, closings those behind it. A word that
// takes back what it is beside ("not", "can have", "eats") is in neither, so that
// words with it are not understood.
var (
	openings = turns(map[turn]string{
		plain: `a; an; any; all; the; is; are; am; i am; im; i; he; she; we; they; he is; she is; we are; they are; hes; shes; were; theyre; please; has a; has an; have a; have an; strict; strictly; product; trace of; of; on; on a; and; also; plus; or; products containing;
			anything containing; anything with; food containing; severe; severely; serious; bad; mild; mildly; very; highly; suffers from`,
		avoids: `no; neither; without; cant do; can not do; avoid; avoids; avoiding; free from; free of; can not eat; can not have; can not tolerate; cannot eat; cannot have; cannot tolerate; cant eat; cant have;
			cant tolerate; doesnt eat; dont eat; does not eat; do not eat; doesnt have any; must not eat; must not have; should not eat; should not have; may not eat; may not have;
			will not eat; wont eat; anything but; everything but; anything except; everything except; eats anything but; eats everything but; eats everything except; eats anything except; never eats; never eat; eats no; eat no; not eating; unable to eat; dislikes; hates; doesnt like; dont like; does not like; do not like`,
		ails:      `anaphylactic to; allergic to; allergic; allergy to; allergy; intolerant to; intolerant of; intolerant; intolerance to; intolerance of; sensitive to; sensitivity to; reacts to`,
		afflicted: `has; have; with`,
		alone:     `only eats; only eat; eats only; eat only; must have; needs; need; requires; require; keeps; keep; follows; observes`,
	})
	closings = turns(map[turn]string{
		plain:  `diet; product; containing; guest; lady; woman; person; eater; please; thanks; at all; whatsoever; protein`,
		ails:   `allergy; allergic; allergen; intolerance; intolerant; sensitivity; sensitive; disease; disorder; makes me ill; makes me sick; makes her ill; makes her sick; makes him ill; makes him sick`,
		clears: `free`,
		alone:  `only; meat only; food only`,
	})
)

// turns returns the phrases of each turn by their keys.
func turns(lists map[turn]string) map[string]turn {
	m := map[string]turn{}
	for t, list := range lists {
		for phrase := range strings.SplitSeq(list, ";") {
			m[key(strings.Join(strings.Fields(phrase), " "))] = t
		}
	}
	return m
}

// A saying is a guest's words, with what was taken off their ends so far.
type saying struct {
	list []string // the words that are left
	had  [alone + 1]int
}

// sayingOf returns a guest's words in lower case, without hyphens and apostrophes.
func sayingOf(text string) *saying {
	return &saying{list: strings.Fields(strings.ToLower(unmarked.Replace(text)))}
}

var unmarked = strings.NewReplacer("_", " ", "-", " ", "’", "", "'", "")

// words returns the words that are left.
func (s *saying) words() string { return strings.Join(s.list, " ") }

// strip takes the longest opening off the front or, where there is none, the longest
// closing off the end. It reports whether there was one.
func (s *saying) strip() bool {
	n := len(s.list)
	for size := min(n, 4); size > 0; size-- {
		if t, ok := openings[key(strings.Join(s.list[:size], " "))]; ok {
			s.list, s.had[t] = s.list[size:], s.had[t]+1
			return true
		}
	}
	for size := min(n, 3); size > 0; size-- {
		if t, ok := closings[key(strings.Join(s.list[n-size:], " "))]; ok {
			s.list, s.had[t] = s.list[:n-size], s.had[t]+1
			return true
		}
	}
	return false
}

// sound reports whether what was taken off says that the guest avoids the rest. "No nut
// allergy" and "without gluten free" say the opposite, or nothing.
func (s *saying) sound(a Avoid) bool {
	had := s.had
	switch {
	case had[avoids] > 1, had[avoids] > 0 && had[ails]+had[clears] > 0, had[ails] > 0 && had[clears] > 0:
		return false
	case had[afflicted] > 0 && had[ails] == 0 && !a.diet:
		return false
	}
	return had[alone] == 0 || a.diet || had[clears] > 0
}
