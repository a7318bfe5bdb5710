package library

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// gaps returns a warning for every step of a card that needs a critical limit
// by one of the rule sets and has none. Each way of the card is looked at by
// itself.
func (s Set) gaps(c *card.Card, rules []safety.Rules) []document.Problem {
	var out []document.Problem
	said := map[string]bool{}
	for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
		needs, at := s.StepNeeds(c, way)
		for _, r := range rules {
			for _, g := range safety.Gaps(r, needs) {
				step := &c.Steps[at[g.Step]]
				p := stepWarning(c, step, g.Text, limitToType(g))
				if key := strconv.Itoa(p.Line) + p.Msg; !said[key] {
					said[key] = true
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// stepWarning is a warning on one step of a card.
func stepWarning(c *card.Card, s *card.Step, msg, do string) document.Problem {
	return document.Problem{File: c.File, Line: s.Pos.Line, Col: s.Pos.Col, Severity: document.Warning,
		Msg: "step " + strconv.Itoa(s.Number) + ": " + msg, Do: do}
}

// limitToType says what to type to close a gap.
func limitToType(g safety.Gap) string {
	switch g.Kind {
	case safety.TooSlow:
		return `write "cool: ` + coolToType(g.Limits) + `", or the figures of your own food safety plan`
	case safety.NoCooling:
		return `add "cool: ` + coolToType(g.Limits) + `" to the step, or the figures of your own food safety plan`
	case safety.TooShort:
		var ways []string
		for _, l := range g.Limits {
			ways = append(ways, `"check: core `+l.ToType()+`"`)
		}
		return "write " + strings.Join(ways, " or ") + " at a step that cooks it"
	case safety.TooLow:
		return `write "check: core ` + limitC(g, "75 °C") + `" at a step that cooks it, or, where your rules allow it, "caution: served undercooked" and tell the guests`
	case safety.NotAssessed:
		if g.Class == safety.Unnamed {
			return `name the meat, like "chicken ` + g.Item + `", or write the limit that your own rules have: "check: core 74 °C"`
		}
		return `write the limit that your own rules have, "check: core 70 °C" or another, at the step that cooks it`
	case safety.NoLimit:
		return `add "check: core ` + limitC(g, "75 °C") + `" there or at a later step, or "not eaten" to the item if it is thrown away`
	}
	return `add "check: core ` + limitC(g, "75 °C") + `" to the step`
}

// coolToType writes the cooling limit that a rule set's rows come to: the coldest
// temperature and its time. The UK's advice has a time alone; the temperature is then the
// one by which the law keeps food cold. Without rules it is that of the US code.
func coolToType(limits []safety.Limit) string {
	if len(limits) == 0 {
		limits = safety.CoolingRules(safety.US)
	}
	l := limits[len(limits)-1]
	c := l.ToC
	if !l.HasSpan && !l.HasTo {
		c = safety.For(l.Rules, safety.HoldCold, safety.Cooked)[0].TempC
	}
	return safety.Celsius(c) + " within " + safety.Span(l.Minutes)
}

// limitC writes the last temperature among a gap's limits with its holding time, or what
// is usual.
func limitC(g safety.Gap, usual string) string {
	for _, l := range g.Limits {
		if l.HasTemp {
			usual = l.ToType()
		}
	}
	return usual
}

// StepNeeds returns the steps of one way of a card as package safety reads
// them, and for each its index in Card.Steps.
func (s Set) StepNeeds(c *card.Card, way int) (needs []safety.StepNeeds, at []int) {
	for i := range c.Steps {
		step := &c.Steps[i]
		if !step.In(way) {
			continue
		}
		hands, wait := c.Time(step, quantity.Int(1))
		n := safety.StepNeeds{Equipment: step.EquipmentNames(), Text: step.Sentence(),
			Minutes: float64(hands.Low+wait.Low) / 60, HasCool: step.Cool.Set, CoolC: step.Cool.ToC, CoolMin: float64(step.Cool.Within) / 60}
		for _, l := range step.CoreLimits() {
			n.Core = append(n.Core, safety.Core{C: l.C, Minutes: float64(l.For) / 60})
		}
		for _, words := range step.Caution {
			n.Served = n.Served || safety.ServedUndercooked(words)
		}
		for _, r := range step.Text {
			if r.Item > 0 && !c.Items[r.Item-1].Uneaten {
				n.Items = append(n.Items, s.foodName(c, c.Items[r.Item-1]))
			}
		}
		needs, at = append(needs, n), append(at, i)
	}
	return needs, at
}

// foodName returns the name by which package safety judges an item: the name
// begins with "cooked" for what another card has heated, because its own name
// may hold a raw animal food, and it ends with the preparation where that tells that a
// meat was minced, tenderised, injected or stuffed.
func (s Set) foodName(in *card.Card, it card.Item) string {
	if it.Card == "" || it.Save != "" {
		name := in.Foods.Known(it.Name)
		if safety.TreatsMeat(it.Prep) {
			name += ", " + it.Prep
		}
		return name
	}
	c := s.Card(it.Card)
	if c == nil || safety.ClassOf(it.Name) == safety.Stock {
		return it.Name
	}
	if slices.ContainsFunc(c.Steps, func(of card.Step) bool { return of.OverHeat() }) {
		return "cooked " + it.Name
	}
	return it.Name
}
