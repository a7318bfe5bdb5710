package engine

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/menu"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// warned is what a cook of one card has been told already: a danger is said
// once, where it comes first, and not at every step after.
type warned struct {
	said   []string // the author's own cautions so far
	topics map[string]bool
	avoid  []string // what guests of this dinner exclude
}

// cautions are the author's own, then the usual ones for what the step handles.
func (w *warned) cautions(s *card.Step, items []string) []string {
	w.said = append(w.said, s.Caution...)
	f := safety.StepFacts{Items: items, Text: wordsOf(s), Said: w.said, Equipment: equipmentOf(s)}
	for _, it := range items {
		for _, a := range demand.Excluded(it, w.avoid) {
			if !slices.Contains(f.Allergens, a) {
				f.Allergens = append(f.Allergens, a)
			}
		}
	}
	out := append([]string{}, s.Caution...)
	for _, c := range safety.Cautions(f) {
		if !w.topics[c.Topic] {
			w.topics[c.Topic] = true
			out = append(out, c.Text)
		}
	}
	return out
}

// cautionsOf are the cautions of each step of a card done in one way, at a dinner
// whose guests exclude so much. They are looked up once: a change of covers
// changes none.
func (d *document) cautionsOf(way int, avoid []string) [][]string {
	key := itoa(way) + "," + strings.Join(avoid, ",")
	if got, ok := d.warnings[key]; ok {
		return got
	}
	c := d.card
	w := &warned{topics: map[string]bool{}, avoid: avoid}
	out := make([][]string, len(c.Steps))
	for i := range c.Steps {
		s := &c.Steps[i]
		if s.Way != 0 && s.Way != way {
			continue
		}
		var items []string
		for _, r := range s.Text {
			if r.Item > 0 {
				items = append(items, c.Items[r.Item-1].Name)
			}
		}
		out[i] = w.cautions(s, items)
	}
	if d.warnings == nil {
		d.warnings = map[string][][]string{}
	}
	d.warnings[key] = out
	return out
}

// avoided lists what the guests of a menu exclude, each word once.
func avoided(m *menu.Menu) []string {
	var out []string
	if m == nil {
		return nil
	}
	for _, g := range m.Guests {
		for _, ex := range g.Exclude {
			if !slices.Contains(out, ex) {
				out = append(out, ex)
			}
		}
	}
	return out
}

// wordsOf is all a step says of the work: its sentence, and its sign of done,
// where a syrup's temperature stands.
func wordsOf(s *card.Step) string {
	var b strings.Builder
	for _, r := range s.Text {
		b.WriteString(r.Text)
	}
	if s.Until.Words != "" {
		b.WriteString(" . " + s.Until.Words)
	}
	return b.String()
}

func equipmentOf(s *card.Step) []string {
	var out []string
	for _, q := range s.Equipment {
		out = append(out, q.Name)
	}
	return out
}

// gaps are the problems on what can hurt someone in a set of files: steps that
// need a critical limit of the kitchen's rules and have none, and temperatures
// that can't be had at the kitchen's altitude.
func gaps(docs map[string]*document) []card.Problem {
	var out []card.Problem
	rules, altitude := rulesOf(docs)
	for _, name := range sortedNames(docs) {
		if d := docs[name]; d.card != nil {
			out = append(out, gapsOf(d.card, docs, rules)...)
			out = append(out, thinAir(d.card, altitude)...)
		}
	}
	return out
}

// rulesOf lists the rule sets of the kitchens in a set of files, "" alone when
// none names one, and the highest altitude.
func rulesOf(docs map[string]*document) (rules []safety.Rules, altitudeM int) {
	for _, name := range sortedNames(docs) {
		k := docs[name].kitchen
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

// gapsOf looks through one card, each of its ways by itself.
func gapsOf(c *card.Card, docs map[string]*document, rules []safety.Rules) []card.Problem {
	var out []card.Problem
	said := map[string]bool{}
	for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
		needs, at := needsOf(c, docs, way)
		for _, r := range rules {
			for _, g := range safety.Gaps(r, needs) {
				s := &c.Steps[at[g.Step]]
				f := card.Problem{File: c.File, Line: s.Pos.Line, Col: s.Pos.Col, Severity: card.Warning, Msg: "step " + itoa(s.Number) + ": " + g.Text, Do: gapDo(g)}
				if key := itoa(f.Line) + f.Msg; !said[key] {
					said[key] = true
					out = append(out, f)
				}
			}
		}
	}
	return out
}

// gapDo is what to type.
func gapDo(g safety.Gap) string {
	switch g.Kind {
	case safety.Cool:
		within := "6 h"
		if len(g.Limits) > 0 && g.Limits[0].Rules == safety.UK {
			within = "4 h"
		}
		return `add "cool: 5 °C within ` + within + `" to the step, or what your rules ask`
	case safety.CookTo:
		return `add "check: core ` + limitC(g, 70) + `" there or at a later step, or "not eaten" to the item if it is thrown away`
	}
	return `add "check: core ` + limitC(g, 75) + `" to the step`
}

func limitC(g safety.Gap, usual float64) string {
	for _, l := range g.Limits {
		if l.HasTemp {
			usual = l.TempC
		}
	}
	return safety.Celsius(usual)
}

// needsOf writes the steps of one way down as safety reads them, and which step
// of the card each is.
func needsOf(c *card.Card, docs map[string]*document, way int) (needs []safety.StepNeeds, at []int) {
	for i := range c.Steps {
		s := &c.Steps[i]
		if s.Way != 0 && s.Way != way {
			continue
		}
		hands, wait := c.Time(s, quantity.Int(1))
		n := safety.StepNeeds{Equipment: equipmentOf(s), Text: textOf(s), Minutes: float64(hands.Low+wait.Low) / 60, HasCool: s.Cool.Set, HasLimit: s.Until.HasCore}
		for _, k := range s.Check {
			n.HasLimit = n.HasLimit || k.HasC
		}
		for _, r := range s.Text {
			if r.Item > 0 && !c.Items[r.Item-1].Uneaten {
				n.Items = append(n.Items, asFood(c.Items[r.Item-1], docs))
			}
		}
		needs, at = append(needs, n), append(at, i)
	}
	return needs, at
}

func textOf(s *card.Step) string {
	var b strings.Builder
	for _, r := range s.Text {
		b.WriteString(r.Text)
	}
	return b.String()
}

// asFood is an item's name as the food it is when it comes in: what another
// card has cooked is cooked, whatever animal its name holds.
func asFood(it card.Item, docs map[string]*document) string {
	if it.Card == "" || it.Save != "" {
		return it.Name
	}
	d := docs[it.Card+".md"]
	if d == nil || d.card == nil || safety.ClassOf(it.Name) == safety.Stock {
		return it.Name
	}
	for i := range d.card.Steps {
		for _, q := range d.card.Steps[i].Equipment {
			if e, ok := card.FindEquipment(q.Name); ok && e.Heat {
				return "cooked " + it.Name
			}
		}
	}
	return it.Name
}
