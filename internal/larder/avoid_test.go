package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// everyday are guests' words and the codes, classes and foods that they mean. The lists
// are Regulation (EU) No 1169/2011 Annex II and 21 U.S.C. 321(qq), read in
// ../../testdata/reference; the everyday words are common practice, no source.
const everyday = `
gluten; no gluten; gluten free; gluten-free; coeliac; coeliac disease; celiac; cereals containing gluten; gluten intolerance; gluten intolerant = EU gluten, US wheat
wheat; no wheat; wheat allergy; allergic to wheat = EU gluten, US wheat
crustaceans; no crustacea; crustacean shellfish; crustacean_shellfish = EU crustaceans, US crustacean_shellfish
molluscs; no mollusc; mollusk allergy = EU molluscs
shellfish; no shellfish; shellfish allergy; allergic to shellfish = EU crustaceans, US crustacean_shellfish, EU molluscs, animal shellfish
egg; eggs; no egg; egg allergy; egg-free; without eggs; egg intolerant = EU eggs, US egg, animal egg
fish; no fish; fish allergy; "doesn't eat fish" = EU fish, US fish, animal fish
peanut; peanuts; no peanuts; peanut allergy; groundnuts = EU peanuts, US peanuts
soya; soy; no soya beans; soybeans; soybean allergy; soy free = EU soybeans, US soybeans
milk; dairy; no dairy; dairy free; lactose; lactose intolerant; lactose intolerance; milk allergy; cow's milk protein allergy; no milk products = EU milk, US milk, animal dairy
tree nut; no tree nut; tree nuts; no tree nuts; tree_nuts; tree nut allergy = EU nuts, US tree_nuts
nuts; no nuts; nut allergy; nut free; allergic to nuts = EU nuts, US tree_nuts, EU peanuts, US peanuts
celery; no celery = EU celery
mustard; no mustard = EU mustard
sesame; sesame seeds; no sesame = EU sesame, US sesame
sulphites; sulfites; no sulphur dioxide; sulphur dioxide; sulfur dioxide = EU sulphites
lupin; no lupin = EU lupin
vegetarian; vegetarian diet; is vegetarian = EU fish, US fish, EU crustaceans, US crustacean_shellfish, EU molluscs, animal meat, animal poultry, animal fish, animal shellfish, animal gelatine
pescatarian; pescetarian = animal meat, animal poultry, animal gelatine
no meat; meat; meat free = animal meat, animal poultry
no red meat = animal meat
no poultry = animal poultry
no pork; pork = food pork
no alcohol; alcohol free = food alcohol
no raw fish = heat fish
no raw egg; raw eggs = heat egg
no walnut; walnuts; walnut allergy = food walnut
no prawn; prawns; allergic to prawns = food prawn
no coriander; cilantro = food coriander
no offal = heat offal
`

func TestEverydayWordsAreUnderstood(t *testing.T) {
	covered := map[Category]bool{}
	for line := range strings.Lines(strings.TrimSpace(everyday)) {
		words, meaning, ok := strings.Cut(strings.TrimSpace(line), " = ")
		require.True(t, ok, line)
		for text := range strings.SplitSeq(words, ";") {
			text = strings.Trim(strings.TrimSpace(text), `"`)
			a, ok := Understand(text)
			if !assert.True(t, ok, "%q is not understood", text) {
				continue
			}
			var got []string
			for _, c := range a.Allergens {
				got = append(got, string(c.List)+" "+c.Code)
				covered[c] = true
			}
			for _, animal := range a.Animals {
				got = append(got, "animal "+string(animal))
			}
			for _, h := range a.Heats {
				got = append(got, "heat "+string(h))
			}
			for _, f := range a.Foods {
				got = append(got, "food "+f)
			}
			assert.ElementsMatch(t, strings.Split(meaning, ", "), got, text)
		}
	}
	for _, c := range Categories {
		assert.True(t, covered[c], "no word is tested for %s %s", c.List, c.Code)
		for _, text := range []string{c.Code, strings.SplitN(strings.SplitN(c.Name, " and products", 2)[0], ", namely", 2)[0]} {
			a, ok := Understand(text)
			assert.True(t, ok && a.Code(c.List, c.Code), "the official %q is not understood", text)
		}
	}
}

// Words that mean nothing here are never taken for a name.
func TestWordsThatMeanNothingAreRefused(t *testing.T) {
	for text, suggestion := range map[string]string{
		"nutz": "nut", "no nutz": "nut", "glutn": "gluten", "no shelfish": "shellfish", "vegn": "vegan", "no moonflower": "", "allergic to wasps": "", "no": "", "": "", "free": "",
		"the usual": "", "wallnuts": "walnuts",
	} {
		_, ok := Understand(text)
		assert.False(t, ok, text)
		assert.Equal(t, suggestion, (*Foods)(nil).Suggest(text), text)
	}
}

// clashes are guests' words and items: "!" is a clash, "?" may be one, "-" is none, "."
// is not assessed. Each row of the first group was passed without a clash once.
const clashes = `
nut allergy ! walnuts, ground almonds, peanuts, praline paste, hazelnut oil, pine nuts ? pink peppercorns - coconut, chestnuts, nutmeg, butternut squash . moonflower paste
coeliac ! plain flour, beer, pearl barley, soy sauce, oats, panko ? miso, baking powder - buckwheat, polenta, rice
no tree nut ! walnut - peanut
no walnut ! walnuts, walnut oil, mixed nuts, chopped walnuts - almonds . moonflower tomatoes, vegan mayonnaise
no sulphur dioxide ! white wine, dried apricots ? capers - grapes
no soya beans ! soy sauce, tofu ? vegetable oil - onions
no prawn ! prawns, tiger prawns, frozen prawns - mussels
no crustacea ! prawns, crab, lobster bisque - mussels
no molluscs ! mussels, squid, oyster sauce - prawns, oyster mushrooms
no meat ! beef shin, chicken thighs, bacon, chicken stock, duck fat, lard - cod, eggs, beef tomatoes
vegetarian ! beef, chicken, cod, prawns, gelatine, fish sauce, chicken stock, anchovies ? parmesan - eggs, butter, tofu, oyster mushrooms
vegan ! eggs, butter, honey, gelatine, brioche, milk chocolate, cod ? dark chocolate - tofu, oat milk, olive oil, cocoa butter
pescatarian ! beef, chicken stock, gelatine - cod, prawns, eggs
no pork ! pork belly, bacon, ham, lard, lardons, sausages, chorizo, pork sausages, ham stock - beef, turkey
no alcohol ! white wine, brandy, beer, sherry - white wine vinegar, grape juice
raw fish ? cod, salmon - smoked salmon, tinned tuna
raw egg ? eggs, egg yolks - hard-boiled eggs, pasteurised egg
no wheat ! plain flour, couscous, rye flour - rice
no tomato ! tomatoes, cherry tomatoes, tinned tomatoes, tomato purée, ketchup - aubergine
dairy free ! milk, ghee, ricotta, double cream, aged mountain cheese - oat milk, coconut milk, peanut butter
no celery ! celeriac, celery salt, vegetable stock - parsley
no beef ! beef mince, oxtail, beef stock, burgers - lamb
no coriander ! coriander, fresh coriander - parsley
milk allergy ! moonflower butter - almond paste . moonflower almond paste
`

func TestGuestsWordsAgainstItems(t *testing.T) { checkClashes(t, clashes) }

// checkClashes checks each row of guests' words and items.
func checkClashes(t *testing.T, rows string) {
	for line := range strings.Lines(strings.TrimSpace(rows)) {
		text := strings.TrimSpace(line)
		at := strings.IndexAny(text, "!?")
		words := strings.TrimSpace(text[:at])
		a, ok := Understand(words)
		require.True(t, ok, words)
		var sign byte
		for part := text[at:]; part != ""; {
			sign, part = part[0], part[1:]
			end := nextSign(part)
			for item := range strings.SplitSeq(part[:end], ",") {
				item = strings.TrimSpace(item)
				v := a.Of(item, nil)
				assert.Equal(t, map[byte]Verdict{'!': {Sure: true, May: v.May}, '?': {May: true}, '-': {}, '.': {Unknown: true}}[sign], v, "%s: %s", words, item)
			}
			part = part[end:]
		}
	}
}

// nextSign returns where the next of " ! ", " ? ", " - " or " . " is.
func nextSign(s string) int {
	for i := 1; i+1 < len(s); i++ {
		if strings.IndexByte("!?-.", s[i]) >= 0 && s[i-1] == ' ' && s[i+1] == ' ' {
			return i
		}
	}
	return len(s)
}

func TestOneWordCoversAnother(t *testing.T) {
	get := func(text string) Avoid {
		a, ok := Understand(text)
		require.True(t, ok, text)
		return a
	}
	for _, tt := range []struct {
		a, b   string
		covers bool
	}{
		{"shellfish", "molluscs", true}, {"molluscs", "shellfish", false}, {"coeliac", "gluten", true}, {"nut allergy", "tree nuts", true}, {"tree nuts", "nuts", false},
		{"vegan", "vegetarian", true}, {"vegetarian", "vegan", false}, {"vegetarian", "no meat", true}, {"no walnut", "no walnuts", true}, {"no walnut", "no almond", false},
	} {
		assert.Equal(t, tt.covers, get(tt.a).Covers(get(tt.b)), "%s covers %s", tt.a, tt.b)
	}
	assert.True(t, get("shellfish").Meets(get("molluscs")))
	assert.False(t, get("fish").Meets(get("molluscs")))
}
