package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// classes says what items are as animal foods: by the animal they are of, which needs
// no source, and by the divisions of the US FDA Food Code, section 3-401.11 (whole-muscle,
// comminuted, poultry, game, fish, shell eggs), read in ../../testdata/reference. That
// offal is a class of its own is common practice, no source.
var classes = map[Heat]map[Animal]string{
	HeatPoultry: {Poultry: `chicken; 6 chicken thighs; bone-in chicken thighs; chicken thighs on the bone; bone-in thighs; thighs; thighs on the bone; drumsticks; chicken wings;
		whole chicken; chicken breasts, skin on; free-range chicken legs; turkey crown; poussins; duck breasts; duck; goose; guinea fowl; quails; capon; corn-fed chicken supreme`},
	HeatCut: {Meat: `T-bone steak; t-bone steaks; T bone; pork on the bone; pork chops; spare ribs; spareribs; baby back ribs; ribs; ham hock; hock; pork hocks; sirloin; rump steak; beef shin; ox cheeks;
		leg of lamb; lamb shanks; rack of lamb; veal chop; osso buco; oxtail; goat shoulder; pork belly; pork fillet; tenderloin of pork; pork collar; short ribs; brisket; steak;
		steaks; chops; onglet; gammon; streaky bacon; lardons; shoulder of mutton; aged rib of beef; joint of beef on the bone; saltmarsh lamb neck; rib roast; pork roast; standing rib roasts; chuck roast; roast of pork`},
	HeatMince: {Meat: `mince; beef mince; minced beef; ground beef; lean minced lamb; pork mince; burgers; sausages; pork sausages; meatballs; sausagemeat; ground pork; veal mince; venison mince; lamb koftas`},
	HeatGame: {Meat: `venison; venison haunch; haunch of venison; rabbit; wild rabbit; hare; wild boar; reindeer; saddle of hare`,
		Poultry: `pheasant; pheasants; partridge; grouse; wood pigeon; wild duck; woodcock; pheasant breasts; brace of grouse`},
	HeatFish: {Fish: `cod; hake; snapper; red snapper; red snapper fillets; salmon; trout fillet; monkfish tail; mackerel; sea bass; tuna steaks; skate wing; eel; whole sea bream; line-caught pollack; fillet of sole;
		sardines; smoked haddock; turbot on the bone; wolffish`},
	HeatShellfish: {Shellfish: `prawns; raw tiger prawns; mussels; scallops; oysters; crab; live lobster; langoustines; squid; octopus; cockles; clams; whelks; shrimp`},
	HeatEgg:       {Eggs: `egg; eggs; egg yolks; egg whites; duck eggs; quail's eggs; large eggs; beaten egg`},
	HeatOffal: {Meat: `lambs' kidneys; lamb's liver; ox heart; sweetbreads; veal sweetbreads; tripe; pig's trotters; ox tongue; calves' liver; calf's liver`,
		Poultry: `chicken livers; duck liver; giblets; chicken hearts`},
	NoHeat: {NoAnimal: `oyster mushrooms; beef tomatoes; chicken of the woods; lamb's lettuce; butter beans; crab apples; onion; carrots`,
		Meat:      `cured ham; prosciutto; salami; lard; beef dripping; beef stock; marrow bones; roast beef; cooked ham; veal bones; tinned corned beef`,
		Poultry:   `chicken stock; duck fat; chicken carcass; confit duck legs; cooked chicken; smoked duck breast; roast chicken thighs`,
		Fish:      `smoked salmon; anchovies; fish sauce; tinned tuna; fish bones; smoked trout; caviar`,
		Shellfish: `cooked prawns; prawn shells; picked white crab meat; shrimp paste; oyster sauce`,
		Eggs:      `hard-boiled eggs; pasteurised egg`},
}

func TestClassesOfRawAnimalFoods(t *testing.T) {
	seen := 0
	for heat, animals := range classes {
		for animal, list := range animals {
			for item := range strings.SplitSeq(list, ";") {
				item = strings.TrimSpace(item)
				c, ok := Classify(item)
				if assert.True(t, ok, item) {
					assert.Equal(t, heat, c.Heat, item)
					assert.Contains(t, c.Animals, animal, item)
				}
				seen++
			}
		}
	}
	assert.Len(t, classes, len(heats), "every class is met")
}

// What names an animal and is none, and what nobody knows, gets no class.
func TestClassIsNotGuessed(t *testing.T) {
	for _, item := range []string{"moonflower paste", "", ",", "vegan chicken", "mock turtle", "meat-free mince", "plant-based burger", "egg substitute"} {
		_, ok := Classify(item)
		assert.False(t, ok, item)
	}
}

// A class that comes from a broader food or from a part of the words says so.
func TestClassOfBroaderFoodIsProbable(t *testing.T) {
	for item, want := range map[string]Class{
		"chicken thighs":         {[]Animal{Poultry}, HeatPoultry, "chicken thigh", false, nil},
		"corn-fed chicken":       {[]Animal{Poultry}, HeatPoultry, "chicken", true, nil},
		"thighs on the bone":     {[]Animal{Poultry}, HeatPoultry, "thigh", true, nil},
		"steak":                  {[]Animal{Meat}, HeatCut, "steak", true, nil},
		"pork and prawn filling": {[]Animal{Meat, Shellfish}, HeatCut, "pork", true, nil},
	} {
		c, ok := Classify(item)
		assert.True(t, ok, item)
		assert.Equal(t, want, c, item)
	}
}
