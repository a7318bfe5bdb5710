package safety

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Names of raw fish, shellfish and meat from the food descriptions of USDA SR28
// (read); the class follows its food group there. Names that are
// ordinary words as well (spot, drum, sucker) are left out.
func TestNamesOfRawFoodAreKnown(t *testing.T) {
	all := rows(t, "species.csv")
	require.Greater(t, len(all), 75)
	for _, r := range all {
		assert.Equal(t, Class(r["class"]), ClassOf(r["name"]), "%s; USDA SR28 %s, %s", r["name"], r["ndb"], r["food"])
		assert.Equal(t, Class(r["class"]), ClassOf("raw "+r["name"]+" fillets"), r["name"])
		for _, done := range []string{"smoked ", "cured ", "tinned ", "cooked "} {
			want := NotKnown
			if done == "smoked " && slices.Contains([]string{"haddock", "cod", "pollock", "whiting"}, r["name"]) {
				want = Fish // smoked cold, and cooked before it is eaten: common practice, no source
			}
			assert.Equal(t, want, ClassOf(done+r["name"]), "what is not raw has no class by its name")
		}
	}
}

// Every word for what is not raw, or only named after an animal, keeps a name from
// having a class: own compilation, no source.
func TestWordsThatMeanNoRawFood(t *testing.T) {
	for name := range strings.SplitSeq("cooked ham, prosciutto, salami, chorizo, anchovies, duck confit, leftover lamb, roasted chicken, boiled eggs, poached trout, grilled cod, dried fish, canned crab, "+
		"pickled herring, salted cod, egg powder, ham, parma ham, ham of pork, oyster mushrooms, fish sauce, beef tomatoes, duck fat, beef dripping, crab apples, butter beans, rice wine, rice paper, rice noodles, "+
		"rice flour, egg substitute, salmon roe, prawn crackers, shrimp paste, burger buns, vegan burger, meat free mince, mock turtle soup, stock cubes, goat cheese, egg noodles", ", ") {
		assert.Equal(t, NotKnown, ClassOf(name), name)
	}
}

// A kebab is of the meat that its name says, and of no class that the rules have where it
// says none: own compilation, no source.
func TestKebabsAreOfTheMeatTheyName(t *testing.T) {
	for name, want := range map[string]Class{
		"lamb kebabs": Lamb, "chicken skewers": Poultry, "prawn skewers": Shellfish, "beef satay": Beef, "pork souvlaki": Pork, "doner kebab": Minced, "venison kebabs": Game,
		"lamb mince kebabs": Minced, "kebabs": Unnamed, "mixed kebabs": Unnamed, "shish kebab": Unnamed, "skewers": Unnamed, "satay": Unnamed,
		"bamboo skewers": NotKnown, "metal skewers": NotKnown, "vegetable skewers": NotKnown, "halloumi kebabs": NotKnown, "fruit kebabs": NotKnown, "cooked chicken skewers": NotKnown,
		"smoked haddock": Fish, "undyed smoked haddock fillet": Fish, "cooked smoked haddock": NotKnown, "hot-smoked cod": NotKnown, "smoked trout": NotKnown, "kippers": Fish,
		"pooled eggs": PooledEgg, "pasteurised eggs": NotKnown,
	} {
		assert.Equal(t, want, ClassOf(name), name)
	}
	for rules, want := range map[Rules]GapKind{US: NotAssessed, UK: NotAssessed, "": NoLimit} {
		gaps := Gaps(rules, []StepNeeds{{Items: []string{"mixed kebabs"}, Text: "Grill the mixed kebabs."}})
		if assert.Len(t, gaps, 1) {
			assert.Equal(t, want, gaps[0].Kind, "%q", rules)
		}
		assert.Empty(t, Gaps(rules, []StepNeeds{{Items: []string{"mixed kebabs"}, Text: "Grill the mixed kebabs.", Core: []Core{{C: 75}}}}))
	}
}

// Eggs that steps beat together are pooled: US FDA Food Code 3-401.11(A)(2) (read) has 68 °C
// for 17 s for them, in 2013 for 15 s, and 63 °C for 15 s for an egg broken to order.
func TestEggsBeatenTogetherArePooled(t *testing.T) {
	for text, want := range map[string]Class{
		"Beat the eggs and fry them.": PooledEgg, "Whisk all the eggs.": PooledEgg, "Scramble the eggs.": PooledEgg, "Fry the eggs.": Egg, "Poach the eggs; whisk the vinegar.": Egg,
	} {
		assert.Equal(t, want, ClassIn([]StepNeeds{{Items: []string{"eggs"}, Text: text}}, "eggs"), text)
	}
	gaps := Gaps(US, []StepNeeds{{Items: []string{"eggs"}, Text: "Beat the eggs and fry them."}})
	if assert.Len(t, gaps, 1) {
		assert.Contains(t, gaps[0].Text, "at least 68 °C (155 °F) for 17 s: US FDA Food Code 2017, 2022, 3-401.11(A)(2)")
	}
	assert.Empty(t, Gaps(US, []StepNeeds{{Items: []string{"eggs"}, Text: "Beat the eggs and fry them.", Core: []Core{{C: 68}}}}))
	gaps = Gaps(US, []StepNeeds{{Items: []string{"eggs"}, Text: "Beat the eggs and fry them.", Core: []Core{{C: 63}}}})
	if assert.Len(t, gaps, 1) {
		assert.Equal(t, TooShort, gaps[0].Kind)
	}
}

// What cools as one temperature within, by its name: own compilation, no source.
func TestNamesOfThinLiquids(t *testing.T) {
	for name := range strings.SplitSeq("stock, beef broth, consommé, whey, milk, apple juice, braising liquor, brine, stock syrup, elderflower cordial, mint tea, lemon infusion", ", ") {
		assert.True(t, ThinName(name), name)
	}
	for name := range strings.SplitSeq("pea soup, clear soup, carrot purée, stock jelly, braised juice, milk-poached cod, glazed brine, reduced stock, thick broth, sauce, cream", ", ") {
		assert.False(t, ThinName(name), name)
	}
}

func TestPlaceIsReadFromEquipmentOrWords(t *testing.T) {
	for words, want := range map[string]string{
		"Put it in the fridge.": "fridge", "Put it in the refrigerator.": "fridge", "Leave it in the cold room.": "fridge", "Chill.": "fridge", "Stand over ice.": "ice bath",
		"Stand on ice.": "ice bath", "Put it in ice water.": "ice bath", "Put it in iced water.": "ice bath", "Use an ice bath.": "ice bath", "Stir over ice.": "stirred ice bath",
		"Cool over ice, stirring.": "stirred ice bath", "Set over ice, stirred once.": "ice bath", "Stir from time to time over ice.": "ice bath", "Stir now and then over ice.": "ice bath",
		"Leave it on the bench.": "", "Stir.": "",
	} {
		assert.Equal(t, want, PlaceOf(nil, words), words)
	}
	for equipment, want := range map[string]string{"ice bath": "ice bath", "blast chiller": "blast", "fridge": "fridge", "freezer": "", "oven": ""} {
		assert.Equal(t, want, PlaceOf([]string{equipment}, "Cool."), equipment)
	}
}

// The pound is 453.59237 g and the inch 25.4 mm by law (UK Weights and Measures Act
// 1985, Sch. 1); a litre is taken as a kilogram.
func TestUnitsOfAVessel(t *testing.T) {
	for text, kg := range map[string]float64{"2 kg": 2, "500 g": 0.5, "3 l": 3, "250 ml": 0.25, "2 lb": 0.90718474, "8 oz": 0.226796185} {
		v, err := ParseVessel(text)
		require.NoError(t, err, text)
		assert.InDelta(t, kg, v.Kg, 1e-12, text)
	}
	for text, m := range map[string]float64{"50 mm": 0.05, "5 cm": 0.05, "1 m": 1, "2 in": 0.0508, "1 inch": 0.0254, "3 inches": 0.0762} {
		for word, of := range map[string]func(Vessel) float64{"deep": depthOf, "thick": depthOf, "high": depthOf, "across": acrossOf, "wide": acrossOf, "round": acrossOf} {
			v, err := ParseVessel(text + " " + word)
			require.NoError(t, err, text)
			assert.InDelta(t, m, of(v), 1e-12, "%s %s", text, word)
		}
	}
	for word, class := range map[string]Class{"meat": Beef, "vegetables": Vegetable, "soup": Stock, "sauce": Stock, "milk": Stock, "eggs": Egg, "fish": Fish, "cooked": Cooked, "mince": Minced,
		"rice": Rice, "cooked food": Cooked, "lamb shoulder": Lamb, "stocks": Stock} {
		v, err := ParseVessel(word)
		require.NoError(t, err, word)
		assert.Equal(t, class, v.Class, word)
	}
	for word, place := range map[string]string{"in the fridge": "fridge", "cold room": "fridge", "in a cold room": "fridge", "on the bench": "bench", "room": "bench", "blast": "blast", "in a blast chiller": "blast",
		"ice": "ice bath", "iced water": "ice bath", "in an ice bath": "ice bath", "ice bath, stirred": "stirred ice bath", "stirred ice bath": "stirred ice bath"} {
		v, err := ParseVessel(word)
		require.NoError(t, err, word)
		assert.Equal(t, place, v.Place, word)
	}
}

func depthOf(v Vessel) float64  { return v.DepthM }
func acrossOf(v Vessel) float64 { return v.AcrossM }

// A limit is met by its letter: a time that is a millisecond short is not met, and
// a limit whose time is standing afterwards asks for its temperature alone.
func TestLimitsAreTakenByTheLetter(t *testing.T) {
	two, _ := byID("uk_cook_70")        // 70 °C for 2 min, read
	micro, _ := byID("fc_reheat_micro") // 74 °C, then 2 min standing, read
	for end, met := range map[float64]bool{2: true, 2 - 1e-5: false} {
		held, err := Against([]Limit{two}, []Reading{{0, 70}, {end, 70}})
		require.NoError(t, err)
		assert.Equal(t, met, held[0].Met, "%v min", end)
	}
	standing := Reaching(micro, []Reading{{0, 64}, {10, 69}}, WarmingInBoil())
	micro.HasTime = false
	assert.Equal(t, Reaching(micro, []Reading{{0, 64}, {10, 69}}, WarmingInBoil()), standing, "standing is no part of the heating")
	assert.Empty(t, standing.Why)
}

// The words of a caution that carry a figure, each with the source that its row
// names, as a cook reads them.
func TestFiguresInCautions(t *testing.T) {
	does := map[string]string{}
	order := []string{}
	for _, r := range triggers {
		if does[r.topic] == "" {
			order = append(order, r.topic)
		}
		does[r.topic] += r.does
	}
	for topic, figure := range map[string]string{
		"raw beans": "10 min at least",                                                  // US FDA, Bad Bug Book, from memory
		"raw fish":  "−20 °C for 7 days or −35 °C for 15 h (EU and UK −20 °C for 24 h)", // US FDA Food Code 3-402.11(A), read; Reg. (EC) 853/2004, from memory
		"cooling":   "57 to 21 °C in 2 h and to 5 °C in 6 h counted from 57",            // US FDA Food Code 3-501.14(A), read
		"under oil": "5 °C or under",                                                    // US FDA Food Code 3-501.16, from memory
		"hot oil":   "no more than half full",
		"pressure":  "two thirds full at most (half for what foams)",
		"blender":   "a third full",
		"nitrite":   "no amount is worked out here",
		"rice":      "within the hour",
	} {
		assert.Contains(t, does[topic], figure, topic)
	}
	assert.Equal(t, "hot oil, siphon, sugar, pressure, steam, liquid nitrogen, dry ice, torch, flames, gas, blades, blender, heavy pot, nitrite, lye, raw fish, raw shellfish, rare meat, "+
		"raw egg, raw poultry, raw mince, rice, cooling, under oil, vacuum, raw beans, wild", strings.Join(order, ", "), "the worst first")
}
