package safety

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/larder"
)

// namedAfter are goods that are named after an animal, or after a part of one, and are of
// another animal or of none: common practice, no source.
var namedAfter = map[larder.Animal]string{
	larder.NoAnimal: `ribs celery; celery ribs; ribs of celery; inner celery ribs, sliced; chard ribs; kale ribs; cabbage ribs; rhubarb ribs; corn ribs; lettuce hearts; celery hearts; hearts of romaine;
		artichoke hearts; hearts of palm; cabbage hearts; fennel hearts; oyster crackers; oyster mushrooms; lobster mushrooms; chicken mushrooms; oyster plant; vegetable oyster; hen of the woods;
		chicken of the woods; lamb's lettuce; lamb's quarters; duck potatoes; turkey berries; pheasant back mushrooms; pigeon peas; horse radish; horse beans; kidney beans; egg plant; crab apples;
		fish mint; goat's beard; ox tongue mushrooms; cauliflower steaks; cabbage steaks; celeriac steaks; aubergine steaks; watermelon steak; pumpkin steaks; tofu steaks; cauliflower wings;
		jackfruit wings; chickpea cutlets; steak sauce; beef tomatoes; monkey nuts; tiger nuts; turkey tail mushrooms`,
	larder.Fish:      "horse mackerel; Bombay duck; rabbit fish; rock salmon; cod cheeks; monkfish cheeks",
	larder.Shellfish: "clam juice; clam nectar; clam broth; squid ink",
	larder.Dairy:     "goat butter; buffalo milk; goat's cheese; sheep's yoghurt; buffalo mozzarella",
}

// TestNamesAfterAnAnimalAreNotThatAnimal: such a good needs no core temperature unless it
// is a raw fish, is no meat to a guest, and keeps the allergens that it has.
func TestNamesAfterAnAnimalAreNotThatAnimal(t *testing.T) {
	for animal, names := range namedAfter {
		for name := range strings.SplitSeq(names, ";") {
			name = strings.TrimSpace(name)
			c, ok := larder.Classify(name)
			if assert.True(t, ok, name) {
				assert.Equal(t, []larder.Animal{animal}, c.Animals, name)
			}
			want := NotKnown
			switch {
			case animal == larder.Fish:
				want = Fish
			case name == "clam broth":
				want = Stock
			}
			assert.Equal(t, want, ClassOf(name), name)
		}
	}
	for name := range strings.SplitSeq("steak spice; rib rub; pork rub; burger relish; chicken salt; fish seasoning; wing sauce; lamb marinade", "; ") {
		assert.Equal(t, NotKnown, ClassOf(name), name) // what it is made of, only its label says
	}
	// What has the animal in it keeps its class.
	for name, want := range map[string]Class{
		"ribs with celery": Beef, "celery and ribs": Beef, "pork ribs": Pork, "beef ribs": Beef, "lamb hearts": Offal, "chicken wings": Poultry, "pepper steak": Beef, "honey ribs": Beef, "teriyaki wings": Poultry, "bourbon chops": Beef, "peppercorn steaks": Beef, "garlic chicken wings": Poultry,
		"mushroom and chicken filling": Poultry, "oysters": Shellfish, "crab cakes": Minced, "prawn dumplings": Shellfish, "chicken thighs in sauce": Poultry, "beef in a spice rub": Beef,
		"horse steak": Beef, "duck": Poultry, "mackerel": Fish, "clams": Shellfish, "lobster tails": Shellfish, "rabbit": Game, "leek sausages": Minced, "oyster blade steak": Beef,
		"chops": Beef, "corned beef": Beef, "tinned corned beef": NotKnown, "hearts": Offal, "ribs": Beef, "goat shoulder": Lamb, "turkey": Poultry, "corn-fed chicken wings": Poultry,
	} {
		assert.Equal(t, want, ClassOf(name), name)
	}
}
