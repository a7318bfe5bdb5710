package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
	"hobside/internal/menu"
)

// Every word that guests may use for an allergen, with the items of a plate that
// it excludes. Items carry what the food table says; the words are common usage,
// no source, the groups those of Regulation (EU) No 1169/2011 Annex II. A guest
// who says wheat is kept from all cereals with gluten: more than asked, never less.
func TestGuestWordsExcludeWhatTheyMean(t *testing.T) {
	items := []string{"wheat flour", "rye flour", "pearl barley", "hake", "prawns", "mussels", "eggs", "cream", "almonds", "pine nuts", "peanuts", "tofu", "sesame seeds",
		"celery", "dijon mustard", "lupin flour", "white wine", "carrots"}
	gluten := []string{"wheat flour", "rye flour", "pearl barley"}
	tested := 0
	for words, want := range map[string][]string{
		"gluten, wheat, cereal": gluten,
		"fish":                  {"hake"},
		"crustaceans, crustacean, crustacean_shellfish": {"prawns"},
		"molluscs, mollusc":                             {"mussels"},
		"shellfish":                                     {"prawns", "mussels"},
		"egg, eggs":                                     {"eggs"},
		"milk, dairy, lactose":                          {"cream"},
		"tree nuts, tree_nuts":                          {"almonds", "pine nuts"},
		"nuts, nut":                                     {"almonds", "pine nuts", "peanuts"},
		"peanut, peanuts":                               {"peanuts"},
		"soya, soy, soybeans":                           {"tofu"},
		"sesame":                                        {"sesame seeds"},
		"celery":                                        {"celery"},
		"mustard":                                       {"dijon mustard"},
		"lupin":                                         {"lupin flour"},
		"sulphites, sulfites":                           {"dijon mustard", "white wine"},
	} {
		for word := range strings.SplitSeq(words, ", ") {
			tested++
			_, ok := larder.Understand(word)
			require.True(t, ok, word)
			var got []string
			for _, it := range items {
				if len(Excluded(nil, it, []string{word})) > 0 {
					got = append(got, it)
				}
			}
			assert.Equal(t, want, got, word)
		}
	}
	assert.Equal(t, 30, tested)
	assert.Equal(t, []string{"trout"}, Excluded(nil, "river trout", []string{"trout"}))
}

// A guest's own menu line gives the same answer as the words by themselves: the
// plate with wheat flour clashes with "no wheat".
func TestGuestWhoExcludesWheatClashesWithFlour(t *testing.T) {
	for word, sure := range map[string]bool{"wheat": true, "gluten": true, "cereal": true, "milk": false, "fish": false} {
		in := dinner(t, "---\ncovers: 6\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: no "+word+"\n", map[string]string{
			"a": made("makes: 1 plate", "20 g wheat flour"),
		})
		d, _ := Explode(in)
		clashes := Clashes(in, d)
		assert.Equal(t, sure, len(clashes) == 1 && clashes[0].Sure, word)
	}
}

// A free mix ("any butter") names no one item: the cook chooses at the stove. It
// is not assessed, even where the food table knows the word behind "any".
func TestFreeMixIsNotAssessed(t *testing.T) {
	for _, item := range []string{"10 g any butter", "10 g butter, any good one"} {
		in := dinner(t, "---\ncovers: 6\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: no milk\n- 1 cover: no fish\n", map[string]string{
			"a": made("makes: 1 plate", item, "5 g salt"),
		})
		carried, not := sheetLines(Allergens(in)[0])
		assert.Empty(t, carried, item)
		require.Len(t, not, 1, item)
		d, _ := Explode(in)
		clashes := Clashes(in, d)
		require.Len(t, clashes, 2, "%s: for milk and for fish alike", item)
		for _, c := range clashes {
			assert.False(t, c.Sure, item)
			assert.True(t, strings.HasSuffix(c.Via[len(c.Via)-1], "(not assessed)"), item)
		}
	}
}

// An item that only may carry an allergen is told as not sure, with what to do;
// one that usually does is told as sure. Both certainties are those of the food
// table (own compilation).
func TestClashCertainty(t *testing.T) {
	for item, want := range map[string]string{
		"malt vinegar":  "sure malt vinegar",
		"demi-glace":    "sure demi-glace",
		"baking powder": "not sure baking powder (may contain it: read the label)",
		"salt":          "",
	} {
		in := dinner(t, "---\ncovers: 6\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## Guests\n\n- 1 cover: no gluten\n", map[string]string{
			"a": made("makes: 1 plate", "10 g "+item),
		})
		d, _ := Explode(in)
		got := ""
		for _, c := range Clashes(in, d) {
			got += map[bool]string{true: "sure ", false: "not sure "}[c.Sure] + c.Via[len(c.Via)-1]
		}
		assert.Equal(t, want, got)
	}
}

// What no table tells of a guest's words is on every plate they get, beside what was found.
func TestDietCheckedInPartIsOnEveryPlate(t *testing.T) {
	in := dinner(t, "---\ncovers: 6\n---\n# M\n\n## A\n\n- [A](a.md)\n\n## B\n\n- [B](b.md)\n", map[string]string{
		"a": made("makes: 1 plate", "20 g bacon"),
		"b": made("makes: 1 plate", "20 g carrots"),
	})
	in.Menu.Guests, _ = menu.ParseGuests("1 cover: halal\n1 cover: low salt", nil)
	d, _ := Explode(in)
	var got []string
	for _, c := range Clashes(in, d) {
		require.True(t, c.NotChecked || c.Sure || c.May)
		if !c.NotChecked {
			continue
		}
		assert.Empty(t, c.DidYouMean)
		got = append(got, c.Plate+": "+strings.SplitN(c.Word, ":", 2)[0])
	}
	assert.ElementsMatch(t, []string{"A: halal", "A: low salt", "B: halal", "B: low salt"}, got)
	assert.True(t, Excluded(nil, "bacon", []string{"halal"}) != nil)
}
