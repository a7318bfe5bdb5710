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
	at := -1
	own := false // the step that cooks uses the item itself
	var low Gap  // of a limit that is not enough
	for j := range c.steps {
		uses := slices.Contains(c.steps[j].Items, item)
		if j < from && !uses {
			continue
		}
		s := &c.steps[j]
		if c.isAbout(j, item) {
			if s.Served || s.Minutes >= wetLong && hasAny(c.words[j], wetWords) {
				return Gap{}, false
			}
			if len(s.Core) > 0 {
				kind, core, row := underRules(rules, class, item, c.inMicrowave(j), s.Core)
				switch kind {
				case TooLow:
					low = c.tooLow(rules, j, item, class, core)
				case TooShort:
					low = tooShort(j, item, class, core, row)
				default:
					return Gap{}, false
				}
			}
		}
		if c.cooks[j] && (uses || !own && c.isAbout(j, item)) {
			at, own = j, own || uses
		}
	}
	switch {
	case low.Kind != "":
		return low, true
	case at < 0:
		return Gap{}, false
	case rules != "" && len(Cook(rules, class)) == 0:
		return newGap(rules, at, item, class, NotAssessed), true
	}
	return newGap(rules, at, item, class, NoLimit), true
}

// inMicrowave reports whether step j cooks in a microwave oven.
func (c *cooking) inMicrowave(j int) bool {
	const oven = "microwave, microwaving"
	return hasAny(c.words[j], oven) || slices.ContainsFunc(c.steps[j].Equipment, func(e string) bool { return hasAny(tokens(e), oven) })
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

// tooLow returns the gap of a limit that is under every rule. A figure that is likely in
// the other unit is shown so.
func (c *cooking) tooLow(rules Rules, step int, item string, class Class, core Core) Gap {
	g := newGap(rules, step, item, class, TooLow)
	if l, ok := inMicrowave(rules, class); ok && c.inMicrowave(step) {
		g.Limits = []Limit{l}
	}
	text := item + ", critical limit " + core.text(rules) + " is lower than any rule has it"
	if c := core.C*9/5 + 32; c >= 50 && c <= 100 {
		if kind, _, _ := underRules(rules, class, item, false, []Core{{C: c}}); kind != TooLow {
			text += " (" + Celsius(c) + " typed as °F is that)"
		}
	}
	for _, l := range g.Limits {
		text += ": " + l.InBoth() + ": " + l.Source.String()
	}
	g.Text = text
	return g
}

// tooShort returns the gap of a limit that is warm enough for a row of the rules only if
// it is held longer.
func tooShort(step int, item string, class Class, core Core, row Limit) Gap {
	what := " has no holding time"
	if core.Minutes > 0 {
		what = " is shorter than any rule has it"
	}
	limits := []Limit{row}
	if l, ok := Usual(row.Rules, class); ok && l.ID != row.ID {
		limits = append(limits, l)
	}
	return Gap{Step: step, Item: item, Class: class, Kind: TooShort, Limits: limits,
		Text: item + ", critical limit " + core.text(row.Rules) + what + ": " + row.InBoth() + ": " + row.Source.String()}
}
