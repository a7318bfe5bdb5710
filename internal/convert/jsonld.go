package convert

import (
	"bytes"
	"encoding/json"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// The shapes of schema.org that a card is written in, each with the properties that
// schema.org gives its type.
type (
	ldRecipe struct {
		Context      string        `json:"@context"`
		Type         string        `json:"@type"`
		Name         string        `json:"name"`
		Description  string        `json:"description,omitempty"`
		Yield        string        `json:"recipeYield"`
		PrepTime     string        `json:"prepTime,omitempty"`
		CookTime     string        `json:"cookTime,omitempty"`
		TotalTime    string        `json:"totalTime,omitempty"`
		Ingredients  []string      `json:"recipeIngredient"`
		Instructions []ldSection   `json:"recipeInstructions"`
		Tools        []ldNamed     `json:"tool,omitempty"`
		Nutrition    *ldNutrition  `json:"nutrition,omitempty"`
		Encoding     ldMediaObject `json:"encoding"`
	}
	ldSection struct {
		Type  string   `json:"@type"`
		Name  string   `json:"name"`
		Steps []ldStep `json:"itemListElement"`
	}
	ldStep struct {
		Type     string `json:"@type"`
		Position int    `json:"position"`
		Text     string `json:"text"`
		Parts    []any  `json:"itemListElement,omitempty"`
	}
	ldDirection struct {
		Type        string    `json:"@type"`
		Text        string    `json:"text"`
		PerformTime string    `json:"performTime,omitempty"`
		TotalTime   string    `json:"totalTime,omitempty"`
		Tools       []ldNamed `json:"tool,omitempty"`
		Supplies    []ldNamed `json:"supply,omitempty"`
	}
	ldTip struct {
		Type string `json:"@type"`
		Text string `json:"text"`
	}
	ldNamed struct {
		Type string `json:"@type"`
		Name string `json:"name"`
	}
	ldNutrition struct {
		Type        string `json:"@type"`
		ServingSize string `json:"servingSize,omitempty"`
		Calories    string `json:"calories,omitempty"`
		Fat         string `json:"fatContent,omitempty"`
		Saturates   string `json:"saturatedFatContent,omitempty"`
		Carbs       string `json:"carbohydrateContent,omitempty"`
		Sugars      string `json:"sugarContent,omitempty"`
		Fibre       string `json:"fiberContent,omitempty"`
		Protein     string `json:"proteinContent,omitempty"`
	}
	ldMediaObject struct {
		Type   string `json:"@type"`
		Format string `json:"encodingFormat"`
		Text   string `json:"text"`
	}
)

// JSONLD writes a card as a schema.org Recipe. Times are the longer ones, hands-on as
// preparation and unattended as cooking. The card itself stands in it as Markdown, which a
// reader of other programs' recipes leaves alone and [Read] takes back byte for byte. Portion is what
// one portion consists of, and its size; nil where too little is known.
func JSONLD(c *card.Card, portion []larder.DeclarationLine, size string) ([]byte, error) {
	r := ldRecipe{Context: "https://schema.org", Type: "Recipe", Name: c.Title, Description: c.Intro, Yield: makesFact(Makes{Amount: c.Makes}), Ingredients: []string{},
		Instructions: []ldSection{}, Nutrition: nutrition(portion, size), Encoding: ldMediaObject{"MediaObject", "text/markdown", string(c.Source)}}
	scaled := c.Scale(quantity.Int(1), 0, quantity.Prefs{AsTyped: true})
	for i := range c.Items {
		r.Ingredients = append(r.Ingredients, ingredientLine(&c.Items[i], scaled.Items[i].Amount))
	}
	hands, wait := 0, 0
	for i := range c.Steps {
		s := &c.Steps[i]
		if s.Way <= 1 { // the first of several ways
			hands, wait = hands+s.Hands.High, wait+s.Wait.High
		}
		name := "Method"
		if s.Way > 0 {
			name = "Way: " + c.Ways[s.Way-1].Name
		}
		if n := len(r.Instructions); n == 0 || r.Instructions[n-1].Name != name {
			r.Instructions = append(r.Instructions, ldSection{"HowToSection", name, nil})
		}
		section := &r.Instructions[len(r.Instructions)-1]
		section.Steps = append(section.Steps, stepOf(scaled, i))
		for _, q := range s.Equipment {
			if tool := (ldNamed{"HowToTool", q.Name}); !hasNamed(r.Tools, tool) {
				r.Tools = append(r.Tools, tool)
			}
		}
	}
	r.PrepTime, r.CookTime, r.TotalTime = isoOrNone(hands), isoOrNone(wait), isoOrNone(hands+wait)
	var out bytes.Buffer
	e := json.NewEncoder(&out) // "<" is written as \u003c, so that the data may stand in a page
	e.SetIndent("", "  ")
	err := e.Encode(r)
	return out.Bytes(), err
}

func hasNamed(list []ldNamed, one ldNamed) bool {
	for _, have := range list {
		if have == one {
			return true
		}
	}
	return false
}

// isoOrNone writes a time, "" for none.
func isoOrNone(seconds int) string {
	if seconds == 0 {
		return ""
	}
	return iso(seconds)
}

// stepOf writes a step: its words, then a direction with its times, tools and supplies, then
// a tip for each fact.
func stepOf(scaled *card.Scaled, i int) ldStep {
	s := &scaled.Card.Steps[i]
	direction := ldDirection{Type: "HowToDirection", Text: stepText(s.Text), PerformTime: isoOrNone(s.Hands.High), TotalTime: isoOrNone(s.Hands.High + s.Wait.High)}
	for _, q := range s.Equipment {
		direction.Tools = append(direction.Tools, ldNamed{"HowToTool", q.Name})
	}
	for _, run := range s.Text {
		if run.Item > 0 {
			direction.Supplies = append(direction.Supplies, ldNamed{"HowToSupply", run.Text})
		}
	}
	out := ldStep{"HowToStep", s.Number, direction.Text, []any{direction}}
	for _, f := range scaled.Facts(i) {
		out.Parts = append(out.Parts, ldTip{"HowToTip", f.String()})
	}
	return out
}

// ingredientLine writes an item as the card's own grammar reads it: "500 g onions, sliced".
// Shown is its amount rounded, which stands for one that was worked out of a percentage.
func ingredientLine(it *card.Item, shown string) string {
	line := it.Name
	switch {
	case it.Amount.ToTaste:
		line += ", to taste"
	case it.Amount.Unit != nil:
		if it.Percent.IsZero() {
			line = quantity.Written(it.Amount) + " " + line
		} else {
			line = shown + " " + line + " (" + quantity.ShowPercent(it.Percent) + ")"
		}
	case !it.Percent.IsZero():
		line = quantity.ShowPercent(it.Percent) + " " + line
	}
	prep := []string{it.Prep}
	if !it.Trim.IsZero() {
		prep = append(prep, "trim "+quantity.ShowShare(it.Trim))
	}
	if it.Each.Unit != nil {
		prep = append(prep, "each "+quantity.Written(it.Each))
	}
	if it.Pack.Unit != nil {
		prep = append(prep, "pack "+quantity.Written(it.Pack))
	}
	if it.Optional {
		prep = append(prep, "optional")
	}
	return joinPrep(line, prep...)
}

// nutrition writes what a portion consists of, in the units that schema.org names.
func nutrition(lines []larder.DeclarationLine, size string) *ldNutrition {
	n := &ldNutrition{Type: "NutritionInformation", ServingSize: size}
	for _, l := range lines {
		text := l.Text
		if _, kcal, ok := strings.Cut(text, " / "); ok {
			text = kcal
		}
		switch name := strings.ToLower(l.Name); {
		case strings.Contains(name, "energy"):
			n.Calories = text
		case name == "fat":
			n.Fat = text
		case strings.Contains(name, "saturates"):
			n.Saturates = text
		case strings.Contains(name, "carbohydrate"):
			n.Carbs = text
		case strings.Contains(name, "sugars"):
			n.Sugars = text
		case strings.Contains(name, "fibre"):
			n.Fibre = text
		case name == "protein":
			n.Protein = text
		}
	}
	if *n == (ldNutrition{Type: n.Type, ServingSize: size}) {
		return nil
	}
	return n
}

// cardWithin returns the card that a schema.org Recipe brings along, nil where it has none
// that is a whole card of that name.
func (g *graph) cardWithin(m map[string]any) []byte {
	for _, one := range asList(m["encoding"]) {
		media, ok := g.thing(one).(map[string]any)
		if !ok || media["encodingFormat"] != "text/markdown" {
			continue
		}
		source, _ := media["text"].(string)
		if r := ownCard("card.md", []byte(source)); r != nil && r.Title == g.text(m["name"]) && len(source) <= document.MaxBytes {
			return []byte(source)
		}
	}
	return nil
}
