package convert

import (
	"strings"

	"hobside/internal/card"
)

// ofCard returns a card as a recipe. Its text stays as it is.
func ofCard(c *card.Card, name string) *Recipe {
	r := &Recipe{Title: c.Title, Makes: Makes{Amount: c.Makes, Each: c.Each}, Form: "a card", Source: name, Language: "en", own: c.Source}
	for _, it := range c.Items {
		r.Ingredients = append(r.Ingredients, Ingredient{Amount: it.Amount, Percent: it.Percent, Item: it.Name, Prep: it.Prep, Section: it.Group, Optional: it.Optional})
	}
	for _, s := range c.Steps {
		one := Step{Text: stepText(s.Text), Low: s.Hands.Low + s.Wait.Low, High: s.Hands.High + s.Wait.High, Left: !s.Wait.IsZero()}
		for _, e := range s.Equipment {
			one.Equipment = append(one.Equipment, e.Name)
		}
		r.Steps = append(r.Steps, one)
	}
	return r
}

// stepText returns the words of a step.
func stepText(runs []card.Run) string {
	var b strings.Builder
	for _, run := range runs {
		b.WriteString(run.Text)
	}
	return b.String()
}
