package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/menu"
)

// FuzzGuestWords gives any words as what guests can't have, and any item to a
// plate. The words that the menu understands decide the same in every place: an
// item that is excluded is a sure clash; one that nobody has assessed, or that may
// carry the allergen, is a clash that is not sure; no other item is one.
func FuzzGuestWords(f *testing.F) {
	for _, s := range [][2]string{{"no wheat", "plain flour"}, {"no fish, without milk", "river trout"}, {"no shellfish", "mussels"}, {"no trout", "trout fillet"}, {"No TREE NUTS", "walnuts"},
		{"no", "salt"}, {"no gluten (by the door)", "any oats"}, {"no egg", "moonflower paste"}, {"no sulphites", "capers"}, {"no \x00", "\xff"}} {
		f.Add(s[0], s[1])
	}
	f.Fuzz(func(t *testing.T, words, item string) {
		groups, problems := menu.ParseGuests("1 cover: "+strings.ReplaceAll(words, "\n", " "), nil)
		if len(problems) > 0 || len(groups) != 1 {
			return
		}
		exclude := groups[0].Exclude
		in := Input{Cards: map[string]*card.Card{"a": {ID: "a", Title: "A", Items: []card.Item{{Name: item}}}},
			Menu: &menu.Menu{Covers: 2, Guests: groups, Courses: []menu.Course{{Plates: []menu.Plate{{Card: "a", Name: "A"}}}}}}
		clashes := Clashes(in, &Demand{Covers: 2})
		excluded := Excluded(nil, item, exclude)
		sure := false
		for _, c := range clashes {
			require.Equal(t, 1, c.Group)
			sure = sure || c.Sure
		}
		require.Equal(t, len(excluded) > 0, sure, "no %q, of %q: %v", exclude, item, clashes)
		a, known := larder.Assess(item)
		allergens := false
		for _, avoid := range avoided(nil, exclude) {
			allergens = allergens || len(avoid.Allergens) > 0
		}
		for _, word := range exclude {
			_, ok := larder.Understand(word)
			require.True(t, ok, "a word that is taken is understood: %q", word)
		}
		if allergens && !known {
			require.NotEmpty(t, clashes, "%q is not assessed", item)
		}
		for _, c := range clashes {
			require.False(t, c.Sure && c.May)
			require.True(t, c.Sure || c.May || !known || len(a.Carries) == 0 || !allergens, "%q", item)
		}
	})
}
