package convert

import "strings"

// A draft is a recipe taken apart into lines, before its lines are read.
type draft struct {
	title    string
	yields   []string // all that says what it makes
	intro    []string
	items    []draftItem
	steps    []draftStep
	notes    []string
	notRead  []string
	form     string
	language string   // "" to tell by the words
	sections []string // the sub-headings, to keep those with nothing below them
	own      []byte   // a card of ours that it brings along
}

// A draftItem is a line of the ingredients.
type draftItem struct{ line, section string }

// A draftStep is the words of a step.
type draftStep struct {
	name, text, section string
	facts, bold         []string // of a card that was written out as data
}

// maxLine is how long a line of the ingredients or a step may be, in bytes.
const maxLine = 20_000

// recipe reads the lines. It returns nil where the draft is no recipe.
func (d *draft) recipe(source string) *Recipe {
	if len(d.items) == 0 && len(d.steps) == 0 {
		return nil
	}
	r := &Recipe{Title: squeeze(d.title), Intro: d.intro, Notes: d.notes, NotRead: d.notRead, Form: d.form, Source: source, Language: d.language}
	if r.Language == "" {
		r.Language = language(d.words())
	}
	r.Makes = readMakes(d.yields, r.Language)
	for _, y := range d.yields { // what was not taken for the yield stays
		if y != r.Makes.Words {
			r.Notes = append(r.Notes, y)
		}
	}
	for i, it := range d.items {
		if i >= maxItems || len(it.line) > maxLine {
			r.leave(it.section, it.line)
			continue
		}
		r.readIngredient(it)
	}
	for i, s := range d.steps {
		if i >= maxSteps || len(s.text) > maxLine {
			r.leave(s.section, squeeze(s.name+" "+s.text))
			continue
		}
		r.Steps = append(r.Steps, Step{Name: squeeze(s.name), Text: squeeze(s.text), Section: squeeze(s.section), given: s.facts, named: s.bold})
	}
	if len(r.Ingredients)+len(r.Steps) == 0 {
		return nil
	}
	r.NotRead = append(r.NotRead, d.emptySections()...)
	r.readSteps()
	return r
}

// Bounds of one recipe, well below those of a card.
const (
	maxItems = 300
	maxSteps = 300
)

// words returns all words, to tell the language by.
func (d *draft) words() string {
	var b strings.Builder
	for _, it := range d.items {
		b.WriteString(it.line + "\n")
	}
	for _, s := range d.steps {
		b.WriteString(s.text + "\n")
	}
	b.WriteString(strings.Join(d.yields, "\n"))
	return b.String()
}

// heading notes a sub-heading and returns it.
func (d *draft) heading(name string) string {
	name = strings.TrimSpace(strings.TrimRight(squeeze(name), ": "))
	d.sections = append(d.sections, name)
	return name
}

// emptySections returns the sub-headings that nothing stands below.
func (d *draft) emptySections() []string {
	var out []string
	for _, name := range d.sections {
		used := name == ""
		for _, it := range d.items {
			used = used || it.section == name
		}
		for _, s := range d.steps {
			used = used || s.section == name
		}
		if !used && !contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// rest returns all words of a draft that is no recipe.
func (d *draft) rest() []string {
	out := append([]string{}, d.yields...)
	if d.title != "" {
		out = append(out, d.title)
	}
	return append(append(append(append(out, d.intro...), d.sections...), d.notes...), d.notRead...)
}

// item adds a line of the ingredients.
func (d *draft) item(words, section string) {
	if words = squeeze(words); words != "" {
		d.items = append(d.items, draftItem{words, strings.TrimSpace(strings.TrimRight(squeeze(section), ": "))})
	}
}

// step adds a step.
func (d *draft) step(name, words, section string) {
	words = squeeze(words)
	if words == "" {
		words, name = squeeze(name), ""
	}
	if words != "" {
		d.steps = append(d.steps, draftStep{name: name, text: words, section: strings.TrimSpace(strings.TrimRight(squeeze(section), ": "))})
	}
}
