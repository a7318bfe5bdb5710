package safety

// StepNeeds is what decides whether a step needs a critical limit.
type StepNeeds struct {
	Items     []string // names of the items it uses
	Equipment []string // names of its equipment
	Text      string   // without mark-up
	Minutes   float64  // how long it takes at least
	HasLimit  bool     // it has a core temperature, or a check with one
	HasCool   bool     // it gives a temperature and a time for cooling
}

// Gap is a step that needs a critical limit and has none.
type Gap struct {
	Step   int // which step, counted from 0
	Item   string
	Class  Class
	Kind   Kind    // CookTo, Cool or Reheat
	Limits []Limit // what the rule set asks; none where no rule set was chosen or it has no row
	Text   string  // "chicken thighs, no critical limit: at least 74 °C, at once: US FDA Food Code …"
}

// Phrases by which a step is recognised: our own compilation.
const (
	cookWords = "roast, bake, grill, fry, deep fry, pan fry, poach, braise, sear, steam, simmer, boil, cook, stew, confit, barbecue, griddle, saute," +
		" roasting, baking, frying, cooking, scramble, sous vide, parboil, blanch"
	cookPlaces  = "hob, oven, combi, water bath, steamer, fryer, grill, griddle, barbecue, smoker, circulator, pressure cooker"
	wetWords    = "boil, simmer, braise, stew, confit, pressure cook"
	coolWords   = "cool, chill, ice bath, blast chill, cool down, chill down"
	notCooling  = "slightly, a little, cool oven, cool water, cool place, until cool enough to handle"
	reheatWords = "reheat, re heat, warm through, heat through"
)

// Wet reports whether a step's words say that food is cooked in liquid.
func Wet(text string) bool { return hasAny(tokens(text), wetWords+", poach, steam, blanch, parboil") }

// Boils reports whether a step's words say that food is cooked in boiling water.
func Boils(text string) bool { return hasAny(tokens(text), "boil, simmer, blanch, parboil") }

// wetLong is the time in minutes after which food that boils is past every cooking
// limit and needs no probe: our own working rule.
const wetLong = 60.0

// Gaps returns the steps of one card that need a critical limit and have none: raw
// animal food that is cooked without a core temperature in its step or a later one, and
// cooked food that is cooled or re-heated without a limit. steps are in order. Food is
// recognised by its name: an unknown name gives no gap.
func Gaps(rules Rules, steps []StepNeeds) []Gap {
	words := make([][]string, len(steps))
	cooks := make([]bool, len(steps))
	for i, s := range steps {
		words[i] = tokens(s.Text)
		cooks[i] = hasAny(words[i], cookWords)
		for _, e := range s.Equipment {
			cooks[i] = cooks[i] || hasAny(tokens(e), cookPlaces)
		}
	}
	var out []Gap
	cooked := ""    // the name of the animal food or stock that has been cooked so far
	cooled := false // and a step with a limit has cooled it since
	for i, s := range steps {
		for _, item := range s.Items {
			class := ClassOf(item)
			if class.raw() {
				if at, ok := cookedWithoutLimit(steps, words, cooks, i, item); ok {
					out = append(out, newGap(rules, at, item, class, CookTo))
				}
			}
			if cooks[i] && (class.raw() || class == Bones || class == Rice) || class == Stock {
				cooked = item
			}
		}
		cooled = (cooled || s.HasCool) && !cooks[i]
		if cooked != "" && !cooled && hasAny(words[i], coolWords) && !hasAny(words[i], notCooling) && !s.HasCool {
			out = append(out, newGap(rules, i, cooked, Cooked, Cool))
		}
		if hasAny(words[i], reheatWords) && !s.HasLimit {
			name := cooked
			if name == "" {
				name = "what is re-heated"
			}
			out = append(out, newGap(rules, i, name, Cooked, Reheat))
		}
	}
	return out
}

// cookedWithoutLimit returns the last step that cooks an item which is added in step
// from; ok is false when a step from there on has a limit or boils it for long.
func cookedWithoutLimit(steps []StepNeeds, words [][]string, cooks []bool, from int, item string) (at int, ok bool) {
	at = -1
	own := false // the step names the item itself
	for j := from; j < len(steps); j++ {
		if steps[j].HasLimit || steps[j].Minutes >= wetLong && hasAny(words[j], wetWords) {
			return 0, false
		}
		if !cooks[j] {
			continue
		}
		names := false
		for _, it := range steps[j].Items {
			names = names || it == item
		}
		if j > from && names {
			return 0, false // it is added again there, and checked from there
		}
		if names || !own {
			at, own = j, own || names
		}
	}
	return at, at >= 0
}

// newGap returns a gap with the limits and the text of a rule set.
func newGap(rules Rules, step int, item string, class Class, kind Kind) Gap {
	g := Gap{Step: step, Item: item, Class: class, Kind: kind}
	switch kind {
	case CookTo:
		g.Text = item + ", no critical limit"
		if l, ok := Usual(rules, class); ok {
			g.Limits = []Limit{l}
		}
	case Cool:
		g.Text = item + ", cooled without a limit"
		g.Limits = CoolingRules(rules)
	case Reheat:
		g.Text = item + ", re-heated without a limit"
		for _, l := range For(rules, Reheat, Cooked) {
			if l.HasTemp && l.Bound == AtLeast && !l.Stand {
				g.Limits = append(g.Limits, l)
			}
		}
	}
	for i, l := range g.Limits {
		g.Text += [...]string{": ", ", and "}[min(i, 1)] + l.String()
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
