package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A kitchen's own foods are understood by all their names, and its allergens and animals
// count for guests. Behind the words: items with "!" clash, with "?" may,
// with "-" do not, and of those with "." nobody knows the animals.
func TestGuestsWordsKnowTheKitchensFoods(t *testing.T) {
	fs := NewFoods([]OwnFood{
		{Name: "topping", Others: []string{"seed mix"}, Allergens: []string{"se", "nu?"}, Assessed: true},
		{Name: "Herd butter", Others: []string{"butter"}},
		{Name: "meadow drink", Allergens: []string{"gl"}, Assessed: true},
		{Name: "shore flakes", Allergens: []string{"fi"}, Assessed: true},
		{Name: "cellar powder", Allergens: []string{"mi?", "eg?"}, Assessed: true},
		{Name: "moonflower honey"},
	})
	for _, line := range strings.Split(`no topping ! topping, seed mix, toasted seed mix - carrots
topping allergy ! topping - carrots
allergic to seed mixes ! topping - carrots
no Herd butter ! butter, herd butter, brown butter - carrots
no sesame ! topping, seed mix - carrots
nut allergy ? topping - shore flakes
no tree nuts ? seed mix - meadow drink
coeliac ! meadow drink - topping
vegetarian ! shore flakes . topping, meadow drink
no fish ! shore flakes - topping
vegan ! shore flakes, moonflower honey ? cellar powder . topping
no milk ? cellar powder - topping, shore flakes
no honey ! moonflower honey . topping
no moonflower honey ! moonflower honey - topping`, "\n") {
		words, items, _ := cutAtSign(line)
		a, unknown := fs.UnderstandList(words)
		require.Empty(t, unknown, words)
		for sign, list := range items {
			for _, item := range list {
				v := a.Of(item, fs)
				assert.Equal(t, map[byte]Verdict{'!': {Sure: true, May: v.May}, '?': {May: true, Unknown: v.Unknown}, '-': {}, '.': {Unknown: true}}[sign], v, "%s: %s", words, item)
			}
		}
	}
	_, ok := Understand("no topping")
	assert.False(t, ok, "without the kitchen's foods nobody knows it")
	assert.Equal(t, "topping", fs.Suggest("no toping"))
	assert.Contains(t, fs.EverydayWords(), "topping")
	words, ok := fs.Exclusions("no topping or fish")
	assert.True(t, ok)
	assert.Equal(t, []string{"topping", "fish"}, words)
	said, _ := fs.Declare("topping and shore flakes")
	require.Len(t, said, 2)
	assert.True(t, said[0].Known() && said[1].Known())
	assert.NotEmpty(t, said[0].Carries(fs), "what it carries comes with it")
}

// cutAtSign splits "words ! item, item - item" into the words and the items by their sign.
func cutAtSign(line string) (words string, items map[byte][]string, ok bool) {
	at := strings.IndexAny(line, "!?")
	if i := strings.Index(line, " - "); i >= 0 && (at < 0 || i < at) {
		at = i + 1
	}
	if at < 0 {
		return line, nil, false
	}
	items = map[byte][]string{}
	words = strings.TrimSpace(line[:at])
	for text := line[at:]; text != ""; {
		sign, rest := text[0], text[1:]
		end := nextSign(rest)
		for item := range strings.SplitSeq(rest[:end], ",") {
			items[sign] = append(items[sign], strings.TrimSpace(item))
		}
		text = rest[end:]
	}
	return words, items, true
}

// A kitchen's own food is understood by each of its names, however it is said, and is
// found in an item of each of its names.
func TestOwnFoodIsReachedByAllItsNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.StringMatching(`(zyz|qua|vor)[a-z]{2,5}[dmnrt]( (plo|dru)[a-z]{1,4}[dmnrt])?`), 1, 3, key).Draw(t, "names")
		if rapid.Bool().Draw(t, "built in") {
			names = append(names, foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")].Name)
		}
		for _, n := range names {
			if meanings[key(n)] != "" || NotAFood(n) != "" {
				return
			}
		}
		fs := NewFoods([]OwnFood{{Name: names[0], Others: names[1:]}})
		for _, n := range names {
			shape := rapid.SampledFrom([]string{"%", "no %", "no %s", "% allergy", "allergic to %", "%-free", "does not eat %", "No % please"}).Draw(t, "shape")
			if strings.HasSuffix(n, "s") || strings.HasSuffix(n, "u") {
				shape = strings.ReplaceAll(shape, "%s", "%")
			}
			a, ok := fs.Understand(strings.ReplaceAll(shape, "%", n))
			if !ok {
				t.Fatalf("%q is not understood for %q", shape, n)
			}
			for _, item := range names {
				if v := a.Of(item, fs); !v.Sure {
					t.Fatalf("%q does not reach %q: %+v", n, item, v)
				}
			}
		}
	})
}
