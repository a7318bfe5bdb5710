package safety

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func topics(f StepFacts) []string {
	out := []string{}
	for _, c := range Cautions(f) {
		out = append(out, c.Topic)
	}
	return out
}

func TestCautions(t *testing.T) {
	tests := []struct {
		name string
		step StepFacts
		want []string // in order
	}{
		{"a fryer", StepFacts{Equipment: []string{"deep fryer"}, Items: []string{"potatoes"}, Text: "Fry in batches."}, []string{"hot oil"}},
		{"hot oil by word alone", StepFacts{Text: "Lower the parsnips into the oil, a few at a time."}, []string{"hot oil"}},
		{"deep-fat, by hyphen", StepFacts{Equipment: []string{"Deep-Fat Fryer"}}, []string{"hot oil"}},
		{"a siphon", StepFacts{Equipment: []string{"siphon"}, Items: []string{"double cream"}, Text: "Charge twice and shake."}, []string{"siphon"}},
		{"siphoning off is no siphon", StepFacts{Text: "Siphon off the fat."}, []string{}},
		{"caramel", StepFacts{Items: []string{"caster sugar"}, Text: "Melt to an amber caramel."}, []string{"sugar"}},
		{"sugar, boiled to a stage", StepFacts{Items: []string{"sugar", "water"}, Text: "Boil to 121 °C, hard ball."}, []string{"sugar"}},
		{"onions caramelised with sugar", StepFacts{Items: []string{"onions", "sugar"}, Text: "Cook until caramelised."}, []string{}},
		{"syrup to a temperature", StepFacts{Items: []string{"honey", "sugar"}, Text: "Boil to 118 °C."}, []string{"sugar"}},
		{"boiled without stirring", StepFacts{Items: []string{"caster sugar", "water"}, Text: "Boil without stirring."}, []string{"sugar"}},
		{"sugar baked", StepFacts{Items: []string{"sugar"}, Text: "Bake at 120 °C."}, []string{}},
		{"sugar stirred in", StepFacts{Items: []string{"sugar", "milk"}, Text: "Stir until it dissolves."}, []string{}},
		{"pressure cooker", StepFacts{Equipment: []string{"pressure cooker"}, Items: []string{"chicken carcass"}, Text: "Cook under full pressure."}, []string{"pressure"}},
		{"steam oven", StepFacts{Equipment: []string{"combi oven"}, Text: "Steam the terrine."}, []string{"steam"}},
		{"torch", StepFacts{Equipment: []string{"blowtorch"}, Text: "Glaze the tops."}, []string{"torch"}},
		{"flames, with its accent", StepFacts{Items: []string{"rum"}, Text: "Warm the rum and flambé."}, []string{"flames"}},
		{"dry ice", StepFacts{Items: []string{"dry ice, crushed"}, Text: "Churn."}, []string{"dry ice"}},
		{"liquid nitrogen", StepFacts{Text: "Freeze the drops in liquid nitrogen."}, []string{"liquid nitrogen"}},
		{"mandoline", StepFacts{Equipment: []string{"mandoline"}, Items: []string{"cucumber"}, Text: "Slice thin."}, []string{"blades"}},
		{"blender", StepFacts{Equipment: []string{"blender"}, Items: []string{"peas"}, Text: "Blend hot until smooth."}, []string{"blender"}},
		{"raw egg", StepFacts{Items: []string{"egg yolks", "oil"}, Text: "Whisk in the oil drop by drop."}, []string{"raw egg"}},
		{"pasteurised egg", StepFacts{Items: []string{"pasteurised egg yolk"}, Text: "Whisk."}, []string{}},
		{"eggs hard-boiled", StepFacts{Items: []string{"eggs"}, Text: "Hard-boil the eggs."}, []string{}},
		{"raw fish", StepFacts{Items: []string{"salmon fillet"}, Text: "Cure it in the salt overnight."}, []string{"raw fish"}},
		{"cooked fish", StepFacts{Items: []string{"salmon fillet"}, Text: "Roast skin up."}, []string{}},
		{"oysters", StepFacts{Items: []string{"oysters"}, Text: "Shuck onto ice."}, []string{"raw shellfish"}},
		{"oyster sauce", StepFacts{Items: []string{"oyster sauce"}, Text: "Stir in raw."}, []string{}},
		{"rare lamb", StepFacts{Items: []string{"lamb rump"}, Text: "Roast until pink."}, []string{"rare meat"}},
		{"lamb with pink peppercorns", StepFacts{Items: []string{"lamb rump"}, Text: "Crush the pink peppercorns over it."}, []string{}},
		{"tartare of mince: both, the worse first", StepFacts{Items: []string{"minced beef"}, Text: "Season the tartare."}, []string{"rare meat", "raw mince"}},
		{"chicken", StepFacts{Items: []string{"chicken thighs"}, Text: "Bone the thighs."}, []string{"raw poultry"}},
		{"rice to be cooled", StepFacts{Items: []string{"long-grain rice"}, Text: "Spread on trays to cool."}, []string{"rice"}},
		{"stock to be cooled", StepFacts{Items: []string{"brown chicken stock"}, Text: "Chill in an ice bath."}, []string{"cooling"}},
		{"stock to be heated", StepFacts{Items: []string{"brown chicken stock"}, Text: "Bring to the boil."}, []string{}},
		{"strain a stockpot", StepFacts{Equipment: []string{"stockpot"}, Text: "Strain through muslin."}, []string{"heavy pot"}},
		{"curing salt", StepFacts{Items: []string{"curing salt", "pork belly"}, Text: "Rub in."}, []string{"nitrite"}},
		{"garlic confit", StepFacts{Items: []string{"garlic cloves", "olive oil"}, Text: "Confit at 90 °C, store in jars."}, []string{"under oil"}},
		{"kidney beans", StepFacts{Items: []string{"red kidney beans"}, Text: "Soak overnight."}, []string{"raw beans"}},
		{"kidney beans of a tin", StepFacts{Items: []string{"tinned red kidney beans"}, Text: "Simmer."}, []string{}},
		{"charcoal", StepFacts{Equipment: []string{"charcoal grill"}}, []string{"gas"}},
		{"bag in a water bath", StepFacts{Equipment: []string{"water bath"}, Text: "Hold at 58 °C."}, []string{"vacuum"}},
		{"nothing", StepFacts{Items: []string{"carrots"}, Text: "Peel and dice."}, []string{}},
		{"nothing at all", StepFacts{}, []string{}},
		{"words do not run on from one item to the next", StepFacts{Items: []string{"melted dry", "ice"}}, []string{}},
		{"two tools, two cautions", StepFacts{Equipment: []string{"siphon", "blowtorch"}}, []string{"siphon", "torch"}},
		{"the author has said it", StepFacts{Equipment: []string{"deep fryer"}, Said: []string{"hot oil: keep the lid by you"}}, []string{}},
		{"the author has said something else", StepFacts{Equipment: []string{"deep fryer"}, Said: []string{"salt: not over the oil"}}, []string{"hot oil"}},
		{"allergens", StepFacts{Items: []string{"flour"}, Allergens: []string{"wheat", "milk"}}, []string{"allergens"}},
		{"allergens, said", StepFacts{Allergens: []string{"wheat"}, Said: []string{"allergens: wheat in the air"}}, []string{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { assert.Equal(t, tt.want, topics(tt.step)) })
	}
	assert.Contains(t, Cautions(tests[len(tests)-2].step)[0].Text, "wheat, milk")
}

// TestEveryCautionRowCanMatch checks the table itself: every phrase can match, and no text
// promises that something is safe.
func TestEveryCautionRowCanMatch(t *testing.T) {
	for _, r := range triggers {
		t.Run(r.topic, func(t *testing.T) {
			require.NotEmpty(t, r.does)
			assert.NotEmpty(t, r.source.Status, "a caution without a source")
			assert.NotEqual(t, r.source.Publication == "", r.source.Status != Common, "no publication is common practice, and only that")
			text := r.topic + ": " + r.does
			assert.NotContains(t, strings.ToLower(text), "safe")
			assert.LessOrEqual(t, len([]rune(text)), 230, "too long for a stove")
			for _, list := range []string{r.equip, r.text, r.items, r.when, r.unless} {
				checkPhrases(t, list)
			}
		})
	}
}

func TestEveryClassPhraseCanMatch(t *testing.T) {
	for _, r := range classWords {
		checkPhrases(t, r.words)
	}
}

// checkPhrases checks that each phrase matches itself as a cook might type it.
func checkPhrases(t *testing.T, list string) {
	t.Helper()
	if list == "" {
		return
	}
	for p := range strings.SplitSeq(list, ",") {
		assert.True(t, has(tokens("x "+p+" y"), p), "the phrase %q cannot match", p)
		assert.True(t, has(tokens(strings.ToUpper(p)), p), "the phrase %q cannot match in capitals", p)
	}
}

// TestCautionTopicsAreNotRepeated: any text gives each topic at most once, and no panic.
func TestCautionTopicsAreNotRepeated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom([]string{"fryer", "egg", "chicken", "raw", "sugar", "caramel", "siphon", "é", "", "-", "rare", "cool", "rice", "torch"})
		words := func(l string) string { return strings.Join(rapid.SliceOfN(word, 0, 12).Draw(t, l), " ") }
		f := StepFacts{Equipment: []string{words("equipment")}, Items: []string{words("item"), words("item 2")}, Text: rapid.String().Draw(t, "noise") + " " + words("text")}
		seen := map[string]bool{}
		for _, c := range Cautions(f) {
			if seen[c.Topic] {
				t.Fatalf("%q is there twice", c.Topic)
			}
			seen[c.Topic] = true
			if !strings.HasPrefix(c.Text, c.Topic+": ") {
				t.Fatalf("%q does not begin with its topic", c.Text)
			}
		}
		f.Said = nil
		for topic := range seen {
			f.Said = append(f.Said, topic+": mine")
		}
		if rest := Cautions(f); len(rest) > 0 {
			t.Fatalf("said already, and said again: %v", rest)
		}
	})
}

func BenchmarkCautions(b *testing.B) {
	f := StepFacts{Equipment: []string{"hob", "blender"}, Items: []string{"caster sugar", "butter", "double cream", "free-range eggs"},
		Text: "Whisk the yolks with the sugar until pale. Bring the cream to the boil, pour it over and whisk on over simmering water."}
	for b.Loop() {
		Cautions(f)
	}
}
