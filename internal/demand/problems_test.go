package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
)

// dinnerOf is a dinner of a menu's text and cards by their IDs.
func dinnerOf(t *testing.T, text string, cards map[string]string) Input {
	t.Helper()
	m, problems := menu.Parse("m.md", []byte(text))
	require.Empty(t, problems)
	in := Input{Menu: m, Cards: map[string]*card.Card{}}
	for id, text := range cards {
		in.Cards[id], _ = card.Parse(id+".md", []byte(text))
	}
	return in
}

// The UK's rules have no count of days (the reference has none): the card's word is needed.
func TestLabelWithoutADateIsTold(t *testing.T) {
	const menu = "---\ncovers: 8\n---\n# M\n\n## A\n\n- [Soup](soup.md)\n"
	for front, want := range map[string]int{"makes: 8 pieces": 1, "makes: 8 pieces\nkeeps: 2 d chilled": 0, "makes: 1 plate": 0} {
		in := dinnerOf(t, menu, map[string]string{"soup": made(front, "20 g butter")})
		for rules, want := range map[string]int{"uk": want, "us": 0, "": 0} {
			k, _ := kitchen.Parse("k.md", []byte("---\ncooks: 1\nrules: "+rules+"\nhob: 2 rings\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n"))
			d, _ := Explode(in)
			got := Problems(in, d, k, Shop{Prices: k.Prices})
			assert.Len(t, got, want, "%s, %s", front, rules)
			for _, p := range got {
				assert.Equal(t, `soup.md:1:1: warning: the label of "Card" has no date: the rules here set no count of days, and the card does not say how long it keeps; `+
					`add "keeps: 2 d chilled", or what it is, between the "---" lines at the top`, p.Error())
			}
		}
	}
}

func TestProblemsOfADinner(t *testing.T) {
	kitchenWith := func(prices string) string {
		return "---\ncooks: 1\nhob: 2 rings\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n\n## Prices\n\n- " + prices + "\n"
	}
	const head = "---\ncovers: 8\n---\n# M\n\n## A\n\n- [Soup](soup.md)"
	for _, tt := range []struct{ name, menu, soup, prices, want string }{
		{"nothing", head + "\n", made("makes: 1 plate", "20 g butter"), "butter: €9 per kg", ""},
		{"a clash", head + "\n\n## Guests\n\n- 2 covers: no milk\n", made("makes: 1 plate", "20 g butter"), "butter: €9 per kg",
			`m.md:8:4: guests (2 covers: no milk) get "Soup", which has what they can't have: Card → butter; add a plate of their own below it, "for no milk", or take the item out`},
		{"an item that nobody assessed", head + "\n\n## Guests\n\n- 1 cover: no milk\n", made("makes: 1 plate", "20 g zzyzx"), "butter: €9 per kg",
			`m.md:8:4: warning: guests (1 cover: no milk) get "Soup", and nobody has assessed Card → zzyzx (not assessed); read its label, then say it on the card: "without: milk" or "contains: milk"`},
		{"a weighed card without an amount a cover", head + "\n", made("makes: 2 kg", "2 kg peas"), "butter: €9 per kg",
			`m.md:8:4: "Card" makes 2 kg, and nothing says how much of it a cover gets; write it behind the link, like "120 g per cover", or add "portion: 120 g" to soup.md`},
		{"the same with it", head + ": 200 g per cover\n", made("makes: 2 kg", "2 kg peas"), "butter: €9 per kg", ""},
		{"and with a portion", head + "\n", made("makes: 2 kg\nportion: 200 g", "2 kg peas"), "butter: €9 per kg", ""},
		{"a price for nothing", head + "\n", made("makes: 1 plate", "20 g butter"), "buttr: €9 per kg",
			`k.md:14:3: warning: nothing is called "buttr": its price is for nothing; did you mean "butter"?; write it as a card names it`},
		{"a price of what is not bought this time", head + "\n", made("makes: 1 plate", "20 g butter"), "peas: €4 per kg", ""},
		{"a price in a unit that can't be reached", head + "\n", made("makes: 1 plate", "20 g zzyzx"), "zzyzx: €1 per bunch",
			`k.md:14:3: warning: the price of "zzyzx" can't be used: what one bunch of zzyzx weighs is not known: give it by weight, or put "each" on the card; give the price by what the order list buys it by`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := dinnerOf(t, tt.menu, map[string]string{"soup": tt.soup})
			k, _ := kitchen.Parse("k.md", []byte(kitchenWith(tt.prices)))
			d, problems := Explode(in)
			got := ""
			for _, p := range append(problems, Problems(in, d, k, Shop{Prices: k.Prices})...) {
				got += p.Error() + "\n"
			}
			if tt.want != "" {
				tt.want += "\n"
			}
			assert.Equal(t, tt.want, got)
		})
	}
}
