package larder

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// diets are guests' words of which only a part can be checked, and items as in [clashes]: common
// practice, no source. Each was refused once.
const diets = `
pregnant ! cured ham, brie, gorgonzola, liver, white wine, sushi ? eggs, mayonnaise, salmon, feta, salami, lamb shoulder - hard-boiled eggs, pasteurised egg, cheddar, tinned tuna, carrots
she is pregnant ! camembert
halal ! pork belly, bacon, lard, white wine, beer ? lamb shoulder, chicken thighs, gelatine - cod, rice, eggs
halal meat only ! ham ? beef mince
kosher ! pork belly, prawns, mussels, rabbit, eel ? beef, chicken - rice, butter
keeps kosher ! crab
jain ! onions, garlic, potatoes, honey, eggs, beef - rice, milk
low FODMAP ! onions, garlic, plain flour ? apples, milk, mushrooms, honey - rice, carrots
no sugar ! caster sugar - carrots
no salt ! sea salt - carrots
`

// Words that are understood in part say what is not checked, and go on saying it.
func TestDietsAreCheckedAsFarAsTheyCanBe(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(diets)) {
		words, _, _ := strings.Cut(line, " ! ")
		a, ok := Understand(words)
		require.True(t, ok, words)
		assert.NotEmpty(t, a.Unchecked, words)
		assert.Equal(t, a.Words+": "+a.Unchecked, (*Foods)(nil).NotChecked(words), words)
		both, unknown := (*Foods)(nil).UnderstandList(words + ", no celery")
		assert.Equal(t, a.Unchecked, both.Unchecked, words)
		assert.Empty(t, unknown, words)
		vegan, _ := Understand("vegan")
		assert.False(t, vegan.Covers(a), words)
	}
	checkClashes(t, diets)
}

// Words that no table can check are refused, with what to do.
func TestUncheckableWordsSayWhatToDo(t *testing.T) {
	for text, say := range map[string]string{
		"low salt": "salt of each plate", "low-sodium diet": "salt of each plate", "is diabetic": "sugars", "diabetic": "sugars", "keto": "carbohydrate", "no added sugar": "sugars", "low fat": "fat",
		"hindu": "religion", "Muslim": "religion", "latex allergy": "which foods", "histamine intolerance": "which foods", "gout": "doctor", "IBS": "doctor", "baby": "can't have", "fussy eater": "can't have",
		"paleo": "which foods", "raw vegan": "which foods", "may contain": "labels", "allergies": "can't have",
		"no milk but butter is fine": "exception", "eats fish": "can't have", "coconut is fine": "can't have", "no nuts but coconut and almonds are fine": "exception", "vegan but sometimes cheese": "exception",
	} {
		_, ok := Understand(text)
		assert.False(t, ok, text)
		assert.Contains(t, (*Foods)(nil).WhyUnchecked(text), say, text)
		_, unknown := (*Foods)(nil).UnderstandList(text)
		assert.NotEmpty(t, unknown, text)
	}
	assert.Empty(t, (*Foods)(nil).WhyUnchecked("nutz"))
	assert.Empty(t, (*Foods)(nil).NotChecked("nutz"))
	assert.Empty(t, (*Foods)(nil).NotChecked("nuts"))
	for word := range strings.SplitSeq(strings.ReplaceAll(uncheckable, "\n", ","), ",") {
		word, _, _ = strings.Cut(word, ":")
		if word = strings.TrimSpace(word); word != "" && reasons[key(word)] != "" {
			_, ok := Understand(word)
			assert.False(t, ok, "%q is understood, and its reason never said", word)
		}
	}
}

// An exception is taken off where it is a whole allergen or class; where it is none of what is avoided
// nothing changes; all others are refused.
func TestExceptions(t *testing.T) {
	for _, tt := range []struct{ text, words, clashes, none string }{
		{"vegetarian but eats fish", "vegetarian except fish", "beef, prawns, gelatine", "cod, fish sauce"},
		{"vegetarian who eats fish", "vegetarian except fish", "beef", "cod"},
		{"vegetarian except seafood", "vegetarian except seafood", "beef", "cod, prawns"},
		{"vegan but eggs are ok", "vegan except eggs", "butter, honey", "eggs"},
		{"vegan except honey", "vegan except honey", "butter, eggs", "honey"},
		{"no nuts but coconut is fine", "nuts except coconut", "walnuts, peanuts", "coconut"},
		{"nut allergy, ", "nut", "walnuts", "coconut"},
		{"no nuts except peanuts", "nuts except peanuts", "walnuts", "peanuts"},
		{"nut allergy but can have peanuts", "nut except peanuts", "walnuts, pine nuts", "peanuts"},
		{"no meat but chicken stock is fine", "", "", ""},
		{"no fish but fish", "", "", ""},
		{"no milk except butter", "", "", ""},
		{"no nuts but almonds ok", "", "", ""},
		{"coeliac but oats are fine", "", "", ""},
		{"no shellfish but prawns are fine", "", "", ""},
		{"no fish but not shellfish", "", "", ""},
		{"no fish except when cooked", "", "", ""},
		{"halal except pork", "", "", ""},
		{"anything but nuts", "nuts", "walnuts", "cod"},
		{"eats everything except fish", "fish", "cod", "walnuts"},
	} {
		a, ok := Understand(tt.text)
		require.Equal(t, tt.words != "", ok, "%s: %+v", tt.text, a)
		if !ok {
			continue
		}
		assert.Equal(t, tt.words, a.Words, tt.text)
		again, _ := Understand(a.Words)
		assert.Equal(t, a, again, tt.text)
		for item := range strings.SplitSeq(tt.clashes, ", ") {
			assert.True(t, a.Of(item, nil).Sure, "%s: %s", tt.text, item)
		}
		for item := range strings.SplitSeq(tt.none, ", ") {
			assert.Equal(t, Verdict{}, a.Of(item, nil), "%s: %s", tt.text, item)
		}
	}
	words, ok := (*Foods)(nil).Exclusions("vegetarian but no eggs")
	assert.True(t, ok && slices.Equal(words, []string{"vegetarian", "eggs"}), words)
}
