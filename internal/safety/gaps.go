package safety

import "slices"

// StepNeeds is what decides whether a step needs a critical limit.
type StepNeeds struct {
	Items     []string // names of the items it uses
	Equipment []string // names of its equipment
	Text      string   // without mark-up
	Minutes   float64  // how long it takes at least
	Core      []Core   // the core temperatures that it asks for
	HasCool   bool     // it gives a temperature for cooling
	CoolC     float64  // that temperature
	CoolMin   float64  // and its time in minutes; 0: none given
	Served    bool     // a caution says that it is served raw or undercooked, as some rules allow
}

// GapKind is what is wrong at a step.
type GapKind string

// What may be wrong: a limit is missing, or the step has one that no rule has.
const (
	NoLimit     GapKind = "no critical limit"
	TooLow      GapKind = "limit under every rule"
	TooShort    GapKind = "limit held too short"  // warm enough only if it is held longer
	NotAssessed GapKind = "not assessed for heat" // the rules have no row for the food
	NoCooling   GapKind = "cooled without a limit"
	TooSlow     GapKind = "cooling slower than the rule"
	NoReheating GapKind = "re-heated without a limit"
)

// Gap is a step that needs a critical limit and has none, or one that no rule has.
type Gap struct {
	Step   int // which step, counted from 0
	Item   string
	Class  Class
	Kind   GapKind
	Limits []Limit // what the rule set asks; none where no rule set was chosen or it has no row
	Text   string  // "chicken thighs, no critical limit: at least 74 °C, at once: US FDA Food Code …"
}

// Phrases by which a step is recognised: our own compilation.
const (
	cookWords = "roast, bake, grill, fry, deep fry, pan fry, poach, braise, sear, steam, simmer, boil, cook, stew, confit, barbecue, griddle, saute," +
		" roasting, baking, frying, cooking, scramble, sous vide, parboil, blanch, microwave, microwaving, zap"
	cookPlaces  = "hob, oven, combi, water bath, steamer, fryer, grill, griddle, barbecue, smoker, circulator, pressure cooker, microwave"
	wetWords    = "boil, simmer, braise, stew, confit, pressure cook"
	coolWords   = "cool, chill, ice bath, blast chill, cool down, chill down"
	notCooling  = "slightly, a little, cool oven, cool water, cool place, until cool enough to handle"
	reheatWords = "reheat, re heat, warm through, heat through"
)

// ServedUndercooked reports whether an author's caution says that food is served raw or
// undercooked.
func ServedUndercooked(caution string) bool {
	return hasAny(tokens(caution), "undercooked, under cooked, served raw, served rare, served pink")
}

// Wet reports whether a step's words say that food is cooked in liquid.
func Wet(text string) bool { return hasAny(tokens(text), wetWords+", poach, steam, blanch, parboil") }

// Reheats reports whether a step's words say that it heats again what was cooked before.
func Reheats(text string) bool { return hasAny(tokens(text), reheatWords) }

// Boils reports whether a step's words say that food is cooked in boiling water.
func Boils(text string) bool { return hasAny(tokens(text), "boil, simmer, blanch, parboil") }

// wetLong is the time in minutes after which food that boils is past every cooking
// limit and needs no probe: our own working rule.
const wetLong = 60.0

// Gaps returns the steps of one card that need a critical limit and have none, or one
// that is under every rule: raw animal food that is cooked without a core temperature of
// its own, and cooked food that is cooled or re-heated without a limit. steps are in
// order. Food is recognised by its name: an unknown name gives no gap.
func Gaps(rules Rules, steps []StepNeeds) []Gap {
	c := readCooking(steps)
	var out []Gap
	cooked := ""    // the name of the animal food or stock that has been cooked so far
	cooled := false // and a step with a limit has cooled it since
	for i, s := range steps {
		for _, item := range s.Items {
			class := c.class(item)
			if class.raw() && !c.namedAgain(item, i) {
				if g, ok := c.gap(rules, item, class, i); ok {
					out = append(out, g)
				}
			}
			if c.cooks[i] && (class.raw() || class == Bones || class == Rice) || class == Stock {
				cooked = item
			}
		}
		cooled = (cooled || s.HasCool) && !c.cooks[i]
		if cooked != "" && !cooled && hasAny(c.words[i], coolWords) && !hasAny(c.words[i], notCooling) && !s.HasCool {
			out = append(out, newGap(rules, i, cooked, Cooked, NoCooling))
		}
		if l, ok := slowerThan(rules, steps[:i+1]); ok && cooked != "" {
			g := newGap("", i, cooked, Cooked, TooSlow)
			g.Limits = []Limit{l}
			g.Text = "cooled to " + Celsius(s.CoolC) + " within " + Span(s.CoolMin) + ", which is slower than the rules ask: " + l.InBoth() + ": " + l.Source.String()
			out = append(out, g)
		}
		if hasAny(c.words[i], reheatWords) && len(s.Core) == 0 {
			name := cooked
			if name == "" {
				name = "what is re-heated"
			}
			out = append(out, newGap(rules, i, name, Cooked, NoReheating))
		}
	}
	return out
}

// slowerThan returns the rule that the cooling limit of the last of several steps is
// slower than; ok is false where there is none. A limit between the two stages of a rule
// set, "20 °C within 4 h", is slower than the first where no step before keeps that.
func slowerThan(rules Rules, steps []StepNeeds) (Limit, bool) {
	s, stages := steps[len(steps)-1], CoolingRules(rules)
	for i, l := range stages {
		last := stages[len(stages)-1]
		before := slices.ContainsFunc(steps[:len(steps)-1], func(b StepNeeds) bool { return b.HasCool && b.CoolC <= l.ToC+0.5 && b.CoolMin <= l.Minutes })
		if i == 0 && len(stages) > 1 && s.HasCool && l.HasSpan && s.CoolC < l.ToC-0.5 && s.CoolC > last.ToC+0.5 && s.CoolMin > l.Minutes && !before {
			return l, true
		}
		if s.HasCool && s.CoolMin > l.Minutes && l.HasSpan && s.CoolC <= l.FromC && s.CoolC >= l.ToC-0.5 {
			return l, true
		}
	}
	return Limit{}, false
}

// newGap returns a gap with the limits and the text of a rule set.
func newGap(rules Rules, step int, item string, class Class, kind GapKind) Gap {
	g := Gap{Step: step, Item: item, Class: class, Kind: kind, Text: item + ", " + string(kind)}
	switch kind {
	case NoLimit, TooLow:
		if l, ok := Usual(rules, class); ok {
			g.Limits = []Limit{l}
		}
	case NotAssessed:
		g.Text += ": the rules here have no row for " + string(class)
		return g
	case NoCooling:
		g.Limits = CoolingRules(rules)
	case NoReheating:
		for _, l := range For(rules, Reheat, Cooked) {
			if l.HasTemp && l.Bound == AtLeast && !l.Stand {
				g.Limits = append(g.Limits, l)
			}
		}
	}
	for i, l := range g.Limits {
		g.Text += [...]string{": ", ", and "}[min(i, 1)] + l.InBoth()
	}
	if len(g.Limits) > 0 {
		g.Text += ": " + g.Limits[0].Source.String()
	} else if rules == "" {
		g.Text += `: the kitchen names no rules; write "rules: us" or "rules: uk" there`
	}
	return g
}

// Usual returns the best known limit of a rule set for raw food of a class, where the
// code has several that are each enough. ok is false where it has none.
func Usual(rules Rules, class Class) (Limit, bool) {
	for _, l := range Cook(rules, class) {
		switch l.ID {
		case "fc_whole", "fc_ground_2017", "fc_poultry_2017", "fc_roast_62.8", "uk_cook_70":
			return l, true
		}
	}
	return Limit{}, false
}
