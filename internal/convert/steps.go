package convert

import (
	"sort"
	"strings"

	"hobside/internal/document"
)

// readSteps reads what the steps say: times, temperatures, equipment, signs of done,
// by-products, and the ingredients that they use.
func (r *Recipe) readSteps() {
	oven, ovenTyped := 0.0, "" // what the oven was last set to
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.given != nil {
			s.take()
			r.setAside(i)
			continue
		}
		s.Equipment = equipmentIn(s.Text)
		c, typed, ok := temperature(s.Text)
		inside, hasCore := coreOf(s.Text)
		core := ok && hasCore && inside == c
		if ok {
			s.Celsius = &c
		}
		if contains(s.Equipment, "oven") {
			switch {
			case ok && !core:
				oven, ovenTyped = c, typed
			case oven > 0 && !ok:
				set := oven
				s.Celsius, typed = &set, ovenTyped
			}
		}
		s.time(timesIn(s.Text))
		s.equip(typed, core)
		if sign := signOfDone(s.Text); hasCore {
			s.facts = append(s.facts, "until: core "+degrees(inside))
		} else if sign != "" {
			s.facts = append(s.facts, "until: "+sign)
		}
		r.setAside(i)
	}
	r.uses()
}

// take takes the facts that the source has over.
func (s *Step) take() {
	var times []timeSaid
	for _, f := range s.given {
		word, value, _ := strings.Cut(f, ":")
		e, isEquipment := document.FindEquipment(word)
		c, typed, ok := temperature(value)
		switch {
		case isEquipment && !contains(s.Equipment, e.Name):
			s.Equipment = append(s.Equipment, e.Name)
		case word == "hands" || word == "wait":
			for _, t := range timesIn(value) {
				t.attended = word == "hands"
				times = append(times, t)
			}
		}
		if ok && typed != "" && s.Celsius == nil {
			s.Celsius = &c
		}
	}
	s.time(times)
	s.facts = s.given
}

// equip proposes the step's equipment, with its temperature where it has one.
func (s *Step) equip(typed string, core bool) {
	for _, name := range s.Equipment {
		fact := name
		if heated[name] && typed != "" && !core {
			fact += ": " + typed
			typed = ""
		}
		s.facts = append(s.facts, fact)
	}
}

// time works out how long the step takes: the attended times together, the others together.
func (s *Step) time(said []timeSaid) {
	var counted []timeSaid
	for _, t := range said {
		if !t.within && !t.keeping {
			counted = append(counted, t)
		}
	}
	if len(counted) == 0 {
		for _, t := range said { // "after 20 minutes, turn it" says how long it takes
			if !t.keeping && len(said) == 1 && !everyTime(s.Text, t) {
				counted = append(counted, t)
			}
		}
	}
	var hands, wait []timeSaid
	for _, t := range counted {
		if t.attended {
			hands = append(hands, t)
		} else {
			wait = append(wait, t)
		}
		s.Low += t.low
		if t.form == document.Overnight {
			s.High += t.low
		} else {
			s.High += t.high
		}
	}
	if fact := timeFact(hands); fact != "" {
		s.facts = append(s.facts, "hands: "+fact)
	}
	if fact := timeFact(wait); fact != "" {
		s.facts = append(s.facts, "wait: "+fact)
	}
	s.Left = len(wait) > 0
}

// everyTime reports whether a time is how often something is done.
func everyTime(s string, t timeSaid) bool {
	before := strings.ToLower(strings.TrimSpace(s[:t.at]))
	return strings.HasSuffix(before, "every") || strings.HasSuffix(before, "alle")
}

// timeFact writes times as one fact: one as it was typed, several added up.
func timeFact(list []timeSaid) string {
	low, high := 0, 0
	for _, t := range list {
		low += t.low
		high += t.high
	}
	span := timeSpan(low, high)
	switch {
	case len(list) == 0:
		return ""
	case len(list) > 1:
		return span
	case list[0].form == document.Overnight:
		return "overnight"
	case list[0].form == document.AtLeast:
		return "at least " + document.FormatSeconds(low)
	case list[0].form == document.About:
		return "about " + span
	}
	return span
}

// timeSpan writes a length of time or a range of two: "12–15 min".
func timeSpan(low, high int) string {
	from, to := document.FormatSeconds(low), document.FormatSeconds(high)
	n, unit, one := strings.Cut(from, " ")
	_, unit2, _ := strings.Cut(to, " ")
	switch {
	case low == high:
		return from
	case one && unit == unit2:
		return n + "–" + to
	}
	return from + "–" + to
}

// setAside notes what a step keeps for later.
func (r *Recipe) setAside(i int) {
	for _, m := range append(setAside.FindAllStringSubmatch(r.Steps[i].Text, -1), setAsideDE.FindAllStringSubmatch(r.Steps[i].Text, -1)...) {
		r.ByProducts = append(r.ByProducts, ByProduct{Name: strings.ToLower(m[1]), Step: i + 1})
	}
}

// A span is a piece of a step's text that names an ingredient.
type span struct{ from, to int }

// uses finds in each step the ingredients that it names. A name that fits two of them is
// left alone.
func (r *Recipe) uses() {
	names := r.names()
	for i := range r.Steps {
		s := &r.Steps[i]
		low := strings.ToLower(s.Text)
		if len(low) != len(s.Text) {
			continue // a letter that is longer in lower case: places would be off
		}
		done := map[int]bool{}
		from := 0
		for _, name := range s.named {
			if at := strings.Index(s.Text[from:], name); at >= 0 && name != "" {
				s.bold = append(s.bold, span{from + at, from + at + len(name)})
				from += at + len(name)
			}
		}
		if s.given != nil {
			continue
		}
		for _, n := range names {
			if done[n.item] {
				continue
			}
			if at, ok := mention(low, n.words, s.bold); ok {
				done[n.item] = true
				s.bold = append(s.bold, at)
			}
		}
		sort.Slice(s.bold, func(a, b int) bool { return s.bold[a].from < s.bold[b].from })
	}
}

// A naming is one way to name an ingredient.
type naming struct {
	item  int
	words string
}

// names returns how steps may name the ingredients, the longest first: by the whole name or
// by its last words, in the singular and the plural.
func (r *Recipe) names() []naming {
	count := map[string]int{}
	of := map[string]int{}
	whole := map[string]int{} // how many have a name like this, all of it
	for i, it := range r.Ingredients {
		list := strings.Fields(strings.ToLower(strings.Trim(inBrackets.ReplaceAllString(it.Item, ""), " ")))
		seen := map[string]bool{}
		add := func(words []string) {
			for _, w := range forms(strings.Join(words, " ")) {
				if len(w) >= 3 && !seen[w] {
					seen[w] = true
					if count[w]++; whole[w] == 0 {
						of[w] = i
					}
				}
			}
		}
		for _, w := range forms(strings.Join(list, " ")) {
			if whole[w]++; whole[w] == 1 {
				of[w] = i
			}
		}
		for n := range list {
			add(list[n:])
		}
		if len(list) > 1 && !tooCommon[list[0]] {
			add(list[:1])
		}
	}
	var out []naming
	for w, n := range count {
		if (n == 1 || whole[w] == 1) && !tooCommon[w] {
			out = append(out, naming{of[w], w})
		}
	}
	sort.Slice(out, func(a, b int) bool {
		if len(out[a].words) != len(out[b].words) {
			return len(out[a].words) > len(out[b].words)
		}
		return out[a].words < out[b].words
	})
	return out
}

// tooCommon are words that end or begin names and alone name nothing.
var tooCommon = wordSet(`fresh large small ripe whole dried ground plain white black red green brown cold hot warm soft dark light fine strong good free-range raw cooked frozen powder leaves seeds juice pieces the and oder und for to of with mixed extra
	large medium dry sweet sour spring self-raising all-purpose unsalted salted double single heavy baking hard half full fat low thin thick long short young old big alter frischer frische große kleine`)

func wordSet(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

// forms returns a word in the singular and the plural.
func forms(w string) []string {
	out := []string{w}
	for _, f := range [...][2]string{{"ies", "y"}, {"oes", "o"}, {"ves", "f"}, {"s", ""}} {
		if head, ok := strings.CutSuffix(w, f[0]); ok && len(head) > 2 {
			return append(out, head+f[1])
		}
	}
	if head, ok := strings.CutSuffix(w, "y"); ok {
		return append(out, head+"ies")
	}
	return append(out, w+"s", w+"es")
}

// mention finds the first place where a text in lower case names an ingredient by itself,
// with the share of it that is meant.
func mention(low, words string, taken []span) (span, bool) {
	for from := 0; ; {
		i := strings.Index(low[from:], words)
		if i < 0 {
			return span{}, false
		}
		at, end := from+i, from+i+len(words)
		from = end
		if at > 0 && isWordEnd(low[:at]) || end < len(low) && isWordBegin(low[end:]) || overlaps(taken, at, end) {
			continue
		}
		if notAll.MatchString(low[:at]) {
			continue
		}
		if m := sharePhrase.FindStringIndex(low[:at]); m != nil {
			at = m[0]
		}
		return span{at, end}, true
	}
}

func overlaps(taken []span, from, to int) bool {
	for _, t := range taken {
		if from < t.to && t.from < to {
			return true
		}
	}
	return false
}
