package convert

import (
	"regexp"
	"strings"
)

// instructions reads the steps in every shape they come in.
func (g *graph) instructions(d *draft, v any, section string, depth int) {
	if depth > maxDepth {
		return
	}
	list := asList(v)
	for _, one := range list {
		switch m := g.thing(one).(type) {
		case map[string]any:
			inside := m["itemListElement"]
			if inside == nil {
				inside = m["steps"]
			}
			switch {
			case isType(m, "HowToSection") || isType(m, "ItemList"):
				name := g.text(m["name"])
				if headings[strings.ToLower(name)] == partMethod {
					name = "" // it is over all of them
				}
				if name = d.heading(name); inside == nil {
					section = name
				}
				g.instructions(d, inside, name, depth+1)
			case inside != nil && m["text"] != nil:
				g.stepWith(d, m, inside, section)
			case inside != nil:
				var parts []string
				for _, direction := range asList(inside) {
					parts = append(parts, g.text(direction))
				}
				d.step(g.text(m["name"]), strings.Join(parts, " "), section)
			case m["item"] != nil:
				g.instructions(d, m["item"], section, depth+1)
			default:
				g.howTo(d, m, section)
			}
		default:
			section = g.paragraphs(d, g.text(m), section, len(list) > 1)
		}
	}
}

// factLike is a tip that is a fact of a card: "oven: 180 °C", "serve".
var factLike = regexp.MustCompile(`^[a-z][a-z -]{2,20}(?::\s.+)?$`)

// stepWith reads a step that has its words, and beside them directions, which mostly repeat
// them, and tips.
func (g *graph) stepWith(d *draft, m map[string]any, inside any, section string) {
	s := draftStep{text: squeeze(g.text(m["text"])), section: section}
	for _, one := range asList(inside) {
		part, ok := g.thing(one).(map[string]any)
		words := squeeze(g.text(one))
		switch {
		case ok && isType(part, "HowToTip") && factLike.MatchString(words) && s.text != "":
			s.facts = append(s.facts, words)
		case !strings.Contains(s.text, words):
			s.text = squeeze(s.text + " " + words)
		}
		if ok {
			for _, supply := range asList(part["supply"]) {
				s.bold = append(s.bold, squeeze(g.text(supply)))
			}
		}
	}
	before := len(d.steps)
	if d.step(g.text(m["name"]), s.text, section); len(d.steps) > before {
		d.steps[before].facts, d.steps[before].bold = s.facts, s.bold
	}
}

// howTo reads one step. A name that only repeats the step's first words is none.
func (g *graph) howTo(d *draft, m map[string]any, section string) {
	name, words := squeeze(g.text(m["name"])), squeeze(g.text(m["text"]))
	if words == "" {
		words = squeeze(g.text(m["description"]))
	}
	bare := strings.TrimRight(name, ".… ")
	if strings.HasPrefix(strings.ToLower(words), strings.ToLower(bare)) || ordinalName.MatchString(name) {
		name = ""
	}
	if l := lines(words); len(l) > 0 && l[0].number {
		words = l[0].words
	}
	d.step(name, words, section)
}

// ordinalName is the name of a step that says its number alone.
var ordinalName = regexp.MustCompile(`(?i)^(?:step|schritt)?\s*\d*\.?$`)

// paragraphs reads steps typed as text. Whole is true where the text is one of several: it
// is then one step, whatever its lines.
func (g *graph) paragraphs(d *draft, s, section string, whole bool) string {
	rows := lines(s)
	if whole && len(rows) > 0 {
		if name, ok := sectionLine(rows[0]); ok && len(rows) == 1 {
			return d.heading(name)
		}
		var parts []string
		for _, l := range rows {
			parts = append(parts, l.words)
		}
		d.step("", strings.Join(parts, " "), section)
		return section
	}
	readMethod(d, rows, section)
	return section
}
