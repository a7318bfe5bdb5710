package safety

import "slices"

// cooking is the steps of one card, read for what is cooked in them and with what.
type cooking struct {
	steps []StepNeeds
	words [][]string
	cooks []bool
}

// readCooking reads steps: which of them cook, by their words and equipment.
func readCooking(steps []StepNeeds) *cooking {
	c := &cooking{steps: steps, words: make([][]string, len(steps)), cooks: make([]bool, len(steps))}
	for i, s := range steps {
		c.words[i] = tokens(s.Text)
		c.cooks[i] = hasAny(c.words[i], cookWords)
		for _, e := range s.Equipment {
			c.cooks[i] = c.cooks[i] || hasAny(tokens(e), cookPlaces)
		}
	}
	return c
}

// namedAgain reports whether a later step uses an item that step at uses. What is seared
// and then roasted is looked at once, from the last step that uses it.
func (c *cooking) namedAgain(item string, at int) bool {
	return slices.ContainsFunc(c.steps[at+1:], func(s StepNeeds) bool { return slices.Contains(s.Items, item) })
}

// gap returns what is wrong with the cooking of a raw item that step from uses last; ok
// is false where nothing is. A limit counts where its step is about the item: it uses it,
// speaks of it, is about something that the item was cooked together with before, or is
// about no raw item in particular. A limit under every rule is no limit.
func (c *cooking) gap(rules Rules, item string, class Class, from int) (g Gap, ok bool) {
	at, low := -1, -1
	own := false // the step that cooks uses the item itself
	for j := range c.steps {
		uses := slices.Contains(c.steps[j].Items, item)
		if j < from && !uses {
			continue
		}
		s := &c.steps[j]
		if c.isAbout(j, item) {
			switch {
			case s.Served, s.Minutes >= wetLong && hasAny(c.words[j], wetWords):
				return Gap{}, false
			case s.HasLimit && underEvery(rules, class, s.LimitC):
				low = j
			case s.HasLimit:
				return Gap{}, false
			}
		}
		if c.cooks[j] && (uses || !own && c.isAbout(j, item)) {
			at, own = j, own || uses
		}
	}
	switch {
	case low >= 0:
		return tooLow(rules, low, item, class, c.steps[low].LimitC), true
	case at < 0:
		return Gap{}, false
	case rules != "" && len(Cook(rules, class)) == 0:
		return newGap(rules, at, item, class, NotAssessed), true
	}
	return newGap(rules, at, item, class, NoLimit), true
}

// isAbout reports whether step j is about an item.
func (c *cooking) isAbout(j int, item string) bool {
	about := c.about(j)
	if len(about) == 0 || slices.Contains(about, item) {
		return true
	}
	for i := range j {
		if c.cooks[i] && slices.Contains(c.steps[i].Items, item) &&
			slices.ContainsFunc(about, func(other string) bool { return slices.Contains(c.steps[i].Items, other) }) {
			return true
		}
	}
	return false
}

// about returns the raw items that step j uses, or speaks of when it uses none. Words
// that several items share, and the limits of two items in one step, are about all of them.
func (c *cooking) about(j int) []string {
	var uses, speaks []string
	for i := range j + 1 {
		for _, item := range c.steps[i].Items {
			if !ClassOf(item).raw() {
				continue
			}
			if i == j {
				uses = append(uses, item)
			} else if slices.ContainsFunc(tokens(item), func(w string) bool {
				return len(w) > 2 && slices.ContainsFunc(c.words[j], func(got string) bool { return same(got, w) || same(w, got) })
			}) {
				speaks = append(speaks, item)
			}
		}
	}
	if len(uses) > 0 {
		return uses
	}
	return speaks
}

// underEvery reports whether a core temperature is lower than every row of a rule set for
// raw food of a class; without rules, of all rule sets. A whole cut may be cooked as the
// table for roasts has it.
func underEvery(rules Rules, class Class, limitC float64) bool {
	sets := []Rules{rules}
	if rules == "" {
		sets = []Rules{US, UK}
	}
	under := false
	for _, r := range sets {
		rows := Cook(r, class)
		if class == Beef || class == Pork || class == Lamb {
			rows = append(rows, Cook(r, Roast)...)
		}
		for _, l := range rows {
			if limitC == 0 || limitC > l.TempC-0.05 {
				return false
			}
			under = true
		}
	}
	return under
}

// tooLow returns the gap of a limit that is under every rule. A figure that is likely in
// the other unit is shown so.
func tooLow(rules Rules, step int, item string, class Class, limitC float64) Gap {
	g := newGap(rules, step, item, class, TooLow)
	text := item + ", critical limit " + Celsius(limitC) + " is lower than any rule has it"
	if c := limitC*9/5 + 32; c >= 50 && c <= 100 && !underEvery(rules, class, c) {
		text += " (" + Celsius(c) + " typed as °F is that)"
	}
	for _, l := range g.Limits {
		text += ": " + l.String() + ": " + l.Source.String()
	}
	g.Text = text
	return g
}
