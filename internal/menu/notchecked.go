package menu

import "hobside/internal/larder"

// NotChecked is what of a group's words is not checked.
type NotChecked struct {
	Typed      string // the word, as typed
	Word       string // what to say of it: "nutz", "low salt: look at the salt of each plate", "halal: rennet"
	DidYouMean string // the nearest word that is understood, "" for none or where Word says what to do
}

// Unchecked returns what of the group's words is not checked, by a kitchen's own foods (nil for
// none): each word that could not be read, and of the others what no table tells.
func (g Guests) Unchecked(foods *larder.Foods) []NotChecked {
	var out []NotChecked
	for _, word := range g.NotChecked {
		n := NotChecked{Typed: word, Word: word}
		if _, ok := foods.Understand(word); !ok {
			if why := foods.WhyUnchecked(word); why != "" {
				n.Word += ": " + why
			} else {
				n.DidYouMean = foods.Suggest(word)
			}
		}
		out = append(out, n)
	}
	for _, word := range g.Exclude {
		if text := foods.NotChecked(word); text != "" {
			out = append(out, NotChecked{Typed: word, Word: text})
		}
	}
	return out
}
