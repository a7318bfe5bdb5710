package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Words that say the opposite were taken for what they name: "not vegan" was vegan.
func TestWordsThatSayTheOppositeAreRefused(t *testing.T) {
	for _, text := range []string{"not vegan", "is not vegan", "isn't vegan", "non-vegan", "not allergic to nuts", "is not allergic to nuts", "can have nuts", "can eat nuts", "eats nuts", "eats fish",
		"has nuts", "does eat fish", "do fish", "no nut allergy", "without a nut allergy", "no lactose intolerance", "has no nut allergy", "no gluten free", "avoids gluten-free", "allergic to gluten free",
		"not nuts", "likes nuts", "ok with nuts", "only nuts", "nuts only", "no no nuts", "not without nuts", "may have nuts", "was vegan", "no allergies", "mostly vegan"} {
		a, ok := Understand(text)
		assert.False(t, ok, "%q is understood as %+v", text, a)
		_, unknown := (*Foods)(nil).UnderstandList(text)
		assert.NotEmpty(t, unknown, text)
	}
	_, unknown := (*Foods)(nil).UnderstandList("vegetarian, eats fish")
	assert.Equal(t, "eats fish", unknown)
}

func TestUsualWaysToSayAnExclusionAreUnderstood(t *testing.T) {
	for _, text := range []string{"has a nut allergy", "has nut allergy", "has an allergy to nuts", "severe nut allergy", "severely allergic to nuts", "is allergic to nuts", "can't have nuts", "cannot eat nuts", "can not have nuts",
		"does not eat nuts", "doesn't eat nuts", "never eats nuts", "eats no nuts", "must not have nuts", "no nuts please", "no nuts at all", "no traces of nuts", "free from nuts", "free of nuts", "nut-free diet",
		"no products containing nuts", "nut intolerance", "with a nut allergy", "reacts to nuts", "also no nuts", "dislikes nuts", "strictly no nuts", "she is allergic to nuts", "I can't have nuts", "we don't eat nuts", "anaphylactic to nuts", "nuts makes me ill", "she has a nut allergy",
		"please no nuts", "no nuts thanks", "can't do nuts", "neither nuts"} {
		a, ok := Understand(text)
		assert.True(t, ok && a.Code(EU, "nuts"), text)
	}
	for _, text := range []string{"vegan only", "is strictly vegan", "we are vegan", "I'm vegan", "she is a vegan", "vegan diet", "on a vegan diet"} {
		a, ok := Understand(text)
		assert.True(t, ok && a.Words == "vegan", text)
	}
}

// Whatever stands around a thing, a word that takes it back is never dropped.
func TestAWordThatTakesBackIsNeverDropped(t *testing.T) {
	var around []string
	for phrase := range openings {
		around = append(around, phrase)
	}
	back := []string{"not", "isnt", "can have", "can eat", "eats", "likes", "loves", "non", "except", "but", "fine with"}
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.SliceOfN(rapid.SampledFrom(around), 0, 2).Draw(t, "before")
		behind := rapid.SliceOfN(rapid.SampledFrom(around), 0, 2).Draw(t, "behind")
		word := rapid.SampledFrom(back).Draw(t, "word")
		text := strings.Join(append(append(before, word), behind...), " ") + " " + rapid.SampledFrom([]string{"nuts", "vegan", "fish", "walnuts"}).Draw(t, "thing")
		if strings.HasSuffix(word, "eats") && len(behind) > 0 && strings.HasPrefix(behind[0], "no") {
			return // "eats no nuts"
		}
		if a, ok := Understand(text); ok {
			t.Fatalf("%q is understood as %+v", text, a)
		}
	})
}
