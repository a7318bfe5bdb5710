package convert

import (
	"encoding/json"

	"hobside/internal/quantity"
)

// A Recipe is one recipe as it was read.
type Recipe struct {
	Title       string
	Makes       Makes
	Intro       []string // paragraphs before the ingredients
	Ingredients []Ingredient
	Steps       []Step
	ByProducts  []ByProduct // what steps set aside: "reserve the whites"
	Notes       []string    // what the source says beside the recipe: tips, times, its author
	NotRead     []string    // what could not be placed, word for word
	Form        string      // what it was read from: "plain text", "schema.org data (JSON-LD)"
	Source      string      // where it came from: a file's name or an address
	Language    string      // "en" or "de"
	Doubts      []string    // what was decided between two readings, or stands in for a missing figure

	formula quantity.Amount // what percentages weigh in all
	own     []byte          // the text, where it is one of our cards already
}

// Makes is what a recipe gives.
type Makes struct {
	Amount quantity.Amount // zero when the source does not say
	Each   quantity.Amount // what one piece weighs: "2 loaves of 850 g"
	Words  string          // as the source has it
}

// An Ingredient is one line of the list of ingredients.
type Ingredient struct {
	Amount   quantity.Amount
	Percent  quantity.Number // of the items at 100 %; 0 when typed as an amount
	Item     string          // "plain flour"
	Prep     string          // "sifted"
	Section  string          // "For the pastry", ""
	Optional bool
	Line     string // as the source has it

	typed string // as the card has it, without the dash
}

// A Step is one step of the method.
type Step struct {
	Name      string // a heading of its own, ""
	Text      string
	Section   string
	Low, High int      // seconds in all, equal when exact; 0 when not said
	Celsius   *float64 // the first temperature, nil when none is said
	Equipment []string // "oven"
	Left      bool     // most of its time nobody is at it

	bold  []span   // items named in Text
	facts []string // proposed facts: "oven: 180 °C"
	given []string // facts that the source has
	named []string // items that the source names, in order
}

// A ByProduct is what a step sets aside.
type ByProduct struct {
	Name string
	Step int // from 1
}

// figure is an amount in JSON: a number, or [low, high].
type figure quantity.Amount

// MarshalJSON writes the figure, null for none.
func (f figure) MarshalJSON() ([]byte, error) {
	switch {
	case f.Unit == nil:
		return []byte("null"), nil
	case !f.To.IsZero():
		return json.Marshal([2]float64{f.Qty.Float64(), f.To.Float64()})
	}
	return json.Marshal(f.Qty.Float64())
}

// MarshalJSON writes what was read, for other programs. Minutes are the step's time in all,
// the longer where it is a range.
func (r *Recipe) MarshalJSON() ([]byte, error) {
	type makes struct {
		Amount figure `json:"amount"`
		Unit   string `json:"unit"`
		Words  string `json:"words,omitempty"`
	}
	type ingredient struct {
		Amount   figure `json:"amount"`
		Unit     string `json:"unit"`
		Item     string `json:"item"`
		Prep     string `json:"prep"`
		Section  string `json:"section"`
		Optional bool   `json:"optional"`
		ToTaste  bool   `json:"to_taste"`
	}
	type step struct {
		Name       string   `json:"name,omitempty"`
		Text       string   `json:"text"`
		Section    string   `json:"section"`
		Minutes    *float64 `json:"minutes"`
		MinutesLow *float64 `json:"minutes_low,omitempty"`
		Celsius    *float64 `json:"temperature_c"`
		Equipment  []string `json:"equipment"`
		Unattended bool     `json:"unattended"`
	}
	type byProduct struct {
		Name string `json:"name"`
		Step int    `json:"step"`
	}
	out := struct {
		Title       string       `json:"title"`
		Makes       *makes       `json:"makes"`
		Ingredients []ingredient `json:"ingredients"`
		Steps       []step       `json:"steps"`
		ByProducts  []byProduct  `json:"by_products"`
		Notes       []string     `json:"notes"`
		NotRead     []string     `json:"not_read"`
		Doubts      []string     `json:"doubts"`
		Form        string       `json:"form"`
		Source      string       `json:"source"`
		Language    string       `json:"language"`
	}{Title: r.Title, Ingredients: []ingredient{}, Steps: []step{}, ByProducts: []byProduct{}, Notes: append([]string{}, r.Notes...),
		NotRead: append([]string{}, r.NotRead...), Doubts: append([]string{}, r.Doubts...), Form: r.Form, Source: r.Source, Language: r.Language}
	if r.Makes.Amount.Unit != nil {
		out.Makes = &makes{figure(r.Makes.Amount), symbol(r.Makes.Amount), r.Makes.Words}
	}
	for _, it := range r.Ingredients {
		one := ingredient{figure(it.Amount), symbol(it.Amount), it.Item, it.Prep, it.Section, it.Optional, it.Amount.ToTaste}
		if !it.Percent.IsZero() && it.Amount.Unit == nil {
			one.Amount, one.Unit = figure{Qty: it.Percent, Unit: quantity.Each}, "%"
		}
		out.Ingredients = append(out.Ingredients, one)
	}
	for _, s := range r.Steps {
		one := step{Name: s.Name, Text: s.Text, Section: s.Section, Celsius: s.Celsius, Equipment: append([]string{}, s.Equipment...), Unattended: s.Left}
		if s.High > 0 {
			most := float64(s.High) / 60
			one.Minutes = &most
			if least := float64(s.Low) / 60; s.Low != s.High {
				one.MinutesLow = &least
			}
		}
		out.Steps = append(out.Steps, one)
	}
	for _, b := range r.ByProducts {
		out.ByProducts = append(out.ByProducts, byProduct(b))
	}
	return json.Marshal(out)
}

// symbol returns the unit of an amount as JSON has it, "" for a bare count.
func symbol(a quantity.Amount) string {
	if a.Unit == nil {
		return ""
	}
	return a.Unit.Symbol
}
