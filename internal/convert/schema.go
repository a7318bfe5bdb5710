package convert

import (
	"encoding/json"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A graph is schema.org data: what it says, and what it refers to by "@id".
type graph struct {
	ids   map[string]map[string]any
	found []map[string]any // the recipes, in order
}

// drafts returns the recipes of a page's data.
func drafts(values []any, form string) []*draft {
	g := &graph{ids: map[string]map[string]any{}}
	for _, v := range values {
		g.index(v)
	}
	var out []*draft
	for _, m := range g.found {
		if d := g.draft(m, form); len(d.items)+len(d.steps) > 0 && !slices.ContainsFunc(out, func(o *draft) bool { return sameDraft(o, d) }) {
			out = append(out, d)
		}
	}
	return out
}

// sameDraft reports whether a page has the same recipe twice.
func sameDraft(a, b *draft) bool {
	return a.title == b.title && slices.Equal(a.items, b.items) && slices.EqualFunc(a.steps, b.steps, func(s, o draftStep) bool { return s.text == o.text })
}

// index finds all things with an "@id" and all recipes.
func (g *graph) index(v any) {
	switch v := v.(type) {
	case []any:
		for _, one := range v {
			g.index(one)
		}
	case map[string]any:
		if id, ok := v["@id"].(string); ok && len(v) > 1 {
			g.ids[id] = v
		}
		if isType(v, "Recipe") {
			g.found = append(g.found, v)
		}
		for _, key := range keys(v) {
			g.index(v[key])
		}
	}
}

// keys returns the names of a thing's properties in order.
func keys(m map[string]any) []string {
	out := make([]string, 0, len(m))
	for key := range m {
		out = append(out, key)
	}
	sort.Strings(out)
	return out
}

// isType reports whether a thing is of a type.
func isType(m map[string]any, name string) bool {
	for _, kind := range asList(m["@type"]) {
		if s, ok := kind.(string); ok && plainKey(s) == name {
			return true
		}
	}
	return false
}

// asList returns a value as a list: JSON-LD writes a list of one as the one.
func asList(v any) []any {
	switch v := v.(type) {
	case nil:
		return nil
	case []any:
		return v
	case map[string]any:
		for _, key := range [...]string{"@list", "@set"} {
			if list, ok := v[key].([]any); ok {
				return list
			}
		}
	}
	return []any{v}
}

// thing returns what a reference refers to.
func (g *graph) thing(v any) any {
	if m, ok := v.(map[string]any); ok && len(m) == 1 {
		if id, ok := m["@id"].(string); ok && g.ids[id] != nil {
			return g.ids[id]
		}
	}
	return v
}

// text returns the words of a value: a string, a figure, or what a thing is called.
func (g *graph) text(v any) string {
	switch v := g.thing(v).(type) {
	case string:
		return strings.TrimSpace(htmlText(v))
	case bool:
		return strconv.FormatBool(v)
	case map[string]any:
		for _, key := range [...]string{"@value", "text", "name", "url", "@id"} {
			if v[key] != nil {
				return g.text(v[key])
			}
		}
	case []any:
		var parts []string
		for _, one := range v {
			if s := g.text(one); s != "" {
				parts = append(parts, s)
			}
		}
		return strings.Join(parts, ", ")
	}
	return ""
}

// structure are properties that say how the data hangs together and nothing of the recipe.
var structure = []string{"@type", "@id", "@context", "mainEntityOfPage", "isPartOf", "image", "thumbnailUrl", "video", "publisher", "potentialAction", "inLanguage", "datePublished", "dateModified", "dateCreated", "aggregateRating", "review", "comment", "interactionStatistic", "mainEntity", "headline"}

// draft reads one recipe.
func (g *graph) draft(m map[string]any, form string) *draft {
	d := &draft{form: form, title: g.text(m["name"]), own: g.cardWithin(m)}
	if d.title == "" {
		d.title = g.text(m["headline"])
	}
	for _, key := range keys(m) {
		v := m[key]
		switch key {
		case "name", "encoding":
		case "recipeYield", "yield":
			for _, y := range asList(v) {
				d.yields = append(d.yields, g.yield(y))
			}
		case "description":
			for p := range strings.SplitSeq(g.text(v), "\n") {
				if p = squeeze(p); p != "" {
					d.intro = append(d.intro, p)
				}
			}
		case "recipeIngredient", "ingredients", "ingredient":
			g.ingredients(d, v)
		case "recipeInstructions", "instructions":
			g.instructions(d, v, "", 0)
		case "prepTime", "cookTime", "totalTime", "performTime":
			d.notes = append(d.notes, timeNames[key]+": "+isoWords(g.text(v)))
		case "author", "creator", "url", "recipeCuisine", "recipeCategory", "keywords", "cookingMethod", "tool", "supply", "suitableForDiet", "estimatedCost", "copyrightNotice", "creditText", "license", "isBasedOn", "nutrition":
			if s := g.said(v); s != "" {
				d.notes = append(d.notes, noteNames[key]+": "+s)
			}
		case "inLanguage":
			if s := g.text(v); strings.HasPrefix(s, "de") || strings.HasPrefix(s, "en") {
				d.language = s[:2]
			}
		default:
			if !slices.Contains(structure, key) {
				if s := g.said(v); s != "" {
					d.notRead = append(d.notRead, clip(key)+": "+s)
				}
			}
		}
	}
	sortYields(d.yields)
	d.yields = slices.Compact(d.yields)
	return d
}

// timeNames and noteNames are what the notes call a property.
var (
	timeNames = map[string]string{"prepTime": "Preparation time", "cookTime": "Cooking time", "performTime": "Cooking time", "totalTime": "Total time"}
	noteNames = map[string]string{"author": "By", "creator": "By", "url": "Address", "recipeCuisine": "Cuisine", "recipeCategory": "Category", "keywords": "Keywords", "cookingMethod": "Cooking method", "tool": "Tools", "supply": "Supplies",
		"suitableForDiet": "Diet, as the source says", "estimatedCost": "Cost", "copyrightNotice": "Copyright", "creditText": "Credit", "license": "Licence", "isBasedOn": "Based on", "nutrition": "Nutrition, as the source says"}
)

// said returns all that a value says, for the notes.
func (g *graph) said(v any) string {
	if m, ok := g.thing(v).(map[string]any); ok {
		var parts []string
		for _, key := range keys(m) {
			if s := g.text(m[key]); s != "" && key[0] != '@' {
				parts = append(parts, key+" "+s)
			}
		}
		if name := g.text(m["name"]); name != "" && len(parts) <= 2 {
			return squeeze(name)
		}
		return squeeze(strings.Join(parts, ", "))
	}
	s := squeeze(g.text(v))
	if s == "" && v != nil {
		if b, err := json.Marshal(v); err == nil && len(b) > 4 && len(b) < 2000 {
			return string(b)
		}
	}
	return s
}

// clip shortens the name of a property to what a person reads.
func clip(s string) string {
	if s = squeeze(s); len(s) <= 40 {
		return s
	}
	end := 40
	for end > 0 && !utf8.RuneStart(s[end]) {
		end--
	}
	return s[:end]
}

// sortYields puts the yield that says most first.
func sortYields(list []string) {
	sort.SliceStable(list, func(i, j int) bool { return len(list[i]) > len(list[j]) })
}

// yield returns what a recipe makes, also where it is a QuantitativeValue.
func (g *graph) yield(v any) string {
	if m, ok := g.thing(v).(map[string]any); ok && m["value"] != nil {
		return squeeze(g.text(m["value"]) + " " + g.text(m["unitText"]))
	}
	return squeeze(g.text(v))
}

// ingredients reads the list of ingredients: strings, lines of one string, or things.
func (g *graph) ingredients(d *draft, v any) {
	section := ""
	for _, one := range asList(v) {
		one = g.thing(one)
		if m, ok := one.(map[string]any); ok {
			if list := m["itemListElement"]; list != nil {
				section = g.text(m["name"])
				for _, in := range asList(list) {
					d.item(g.ingredient(in), section)
				}
				continue
			}
			d.item(g.ingredient(one), section)
			continue
		}
		for row := range strings.SplitSeq(g.text(one), "\n") {
			l := lines(row)[0]
			if name, ok := sectionLine(l); ok {
				section = d.heading(name)
				continue
			}
			d.item(l.words, section)
		}
	}
}

// ingredient returns an ingredient as a line: "250 g flour".
func (g *graph) ingredient(v any) string {
	m, ok := g.thing(v).(map[string]any)
	if !ok {
		return g.text(v)
	}
	if m["item"] != nil {
		return g.ingredient(m["item"])
	}
	for _, key := range [...]string{"requiredQuantity", "amount", "quantity"} {
		if m[key] == nil {
			continue
		}
		amount := g.text(m[key])
		if q, ok := g.thing(m[key]).(map[string]any); ok && q["value"] != nil {
			amount = g.text(q["value"]) + " " + g.text(q["unitText"])
		}
		return squeeze(amount + " " + g.text(m["unitText"]) + " " + g.text(m["name"]))
	}
	return g.text(v)
}
