package safety

import "slices"

// StepFacts is what is known about one step of a card. Any part may be empty.
type StepFacts struct {
	Equipment []string // names of the equipment the step uses: "deep fryer"
	Items     []string // names of the items it uses: "free-range eggs"
	Text      string   // its text, without mark-up
	Said      []string // the author's own cautions, as typed: "hot oil: keep the lid by you"
	Allergens []string // allergens of its items, by name, where they are known
}

// Caution is one usual caution for the work of a step.
type Caution struct {
	Topic  string // the danger: "hot oil"; one word for one danger, so that a caller can show it once
	Text   string // the topic, a colon, and what to do, in the form of an author's caution
	Source Source // the code that asks for it, or "common practice, no source"
}

// trigger is one row of the table. It applies when the equipment or the text has one
// of its phrases, or an item one of its phrases or classes. Where `when` is given, one
// of its phrases must be in the text or the equipment as well.
type trigger struct {
	topic   string
	does    string // what to do
	equip   string // phrases with commas between, looked for in the names of the equipment
	text    string // looked for in the text
	items   string // looked for in the names of the items
	classes []Class
	when    string // looked for in text and equipment: one must be there
	unless  string // looked for in text, items and equipment: none may be there
	source  Source
}

// Cautions returns the usual cautions for the work of a step, the worst first, each
// topic once. A topic for which the author has written a caution is left out. No
// caution means that no word of the step is in the table, not that nothing can happen.
func Cautions(f StepFacts) []Caution {
	var equipment, items, said []string
	for _, e := range f.Equipment {
		equipment = append(append(equipment, tokens(e)...), "")
	}
	classes := make([]Class, 0, len(f.Items))
	for _, i := range f.Items {
		items = append(append(items, tokens(i)...), "")
		classes = append(classes, ClassOf(i))
	}
	for _, s := range f.Said {
		said = append(append(said, tokens(s)...), "")
	}
	text := tokens(f.Text)
	var out []Caution
	for _, t := range triggers {
		hit := hasAny(equipment, t.equip) || hasAny(text, t.text) || hasAny(items, t.items) ||
			slices.ContainsFunc(classes, func(c Class) bool { return slices.Contains(t.classes, c) })
		if !hit || has(said, t.topic) || t.when != "" && !hasAny(text, t.when) && !hasAny(equipment, t.when) ||
			hasAny(text, t.unless) || hasAny(items, t.unless) || hasAny(equipment, t.unless) ||
			slices.ContainsFunc(out, func(c Caution) bool { return c.Topic == t.topic }) {
			continue
		}
		out = append(out, Caution{t.topic, t.topic + ": " + t.does, t.source})
	}
	if len(f.Allergens) > 0 && !has(said, "allergen") {
		list := ""
		for i, a := range f.Allergens {
			if i > 0 {
				list += ", "
			}
			list += a
		}
		out = append(out, Caution{"allergens", "allergens: " + list + ": wash hands, board and tools before the next job",
			Source{"US FDA Food Code 2022", "3-302.11(A)", Memory}})
	}
	return out
}

// HigherRisk names the people for whom the codes ask for more care: FDA Food Code
// 1-201.10 (highly susceptible population) and 3-801.11, from memory. The code is about
// care homes, hospitals and nurseries; here it is about any guest.
const HigherRisk = "small children, older people, the pregnant, anybody with weak defences"
