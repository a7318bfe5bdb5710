package convert

import "strings"

// The words of recipes, in English and German. A language more is a column more: nothing
// outside this file knows a word of either.

// headings are the words over the parts of a recipe, in lower case.
var headings = map[string]part{
	"ingredients": partIngredients, "you will need": partIngredients, "you'll need": partIngredients, "what you need": partIngredients, "formula": partIngredients, "shopping list": partIngredients, "ingredient list": partIngredients,
	"zutaten": partIngredients, "zutatenliste": partIngredients, "man braucht": partIngredients, "du brauchst": partIngredients, "sie brauchen": partIngredients,

	"method": partMethod, "directions": partMethod, "instructions": partMethod, "preparation": partMethod, "steps": partMethod, "procedure": partMethod, "how to make it": partMethod, "how to cook it": partMethod, "to make": partMethod, "cooking": partMethod, "cooking instructions": partMethod, "cooking method": partMethod,
	"zubereitung": partMethod, "anleitung": partMethod, "arbeitsschritte": partMethod, "so geht's": partMethod, "so geht’s": partMethod, "so wird's gemacht": partMethod, "vorgehen": partMethod, "schritte": partMethod,

	"notes": partNotes, "note": partNotes, "tips": partNotes, "tip": partNotes, "storage": partNotes, "variations": partNotes, "nutrition": partNotes, "to serve with": partNotes, "cook's notes": partNotes, "source": partNotes, "comments": partNotes, "equipment": partNotes, "tools": partNotes, "faults": partNotes, "service": partNotes,
	"tipp": partNotes, "tipps": partNotes, "hinweise": partNotes, "hinweis": partNotes, "anmerkungen": partNotes, "aufbewahrung": partNotes, "nährwerte": partNotes, "varianten": partNotes, "quelle": partNotes,
}

// part is a part of a recipe.
type part uint8

const (
	partTop part = iota
	partIngredients
	partMethod
	partNotes
)

// yieldWords begin a line that says what the recipe makes.
const yieldWords = `(?:makes enough for|makes enough|serves|feeds|serving size|servings?|makes|yields?|enough for|for|portions?|gives|recipe makes|quantity|für|ergibt|reicht für|portionen|menge|stückzahl|ausbeute)`

// people are what stands behind the figure of "serves 4".
const people = `(?:people|persons?|servings?|portions?|covers?|guests|diners|eaters|adults|serves|personen|person|portionen|leute|gäste|esser)`

// unitsInGerman are German units and what the card calls them.
var unitsInGerman = map[string]string{
	"el": "tbsp", "essl": "tbsp", "esslöffel": "tbsp", "tl": "tsp", "teel": "tsp", "teelöffel": "tsp", "kl": "tsp", "kaffeelöffel": "tsp",
	"prise": "pinch", "prisen": "pinches", "msp": "pinch", "messerspitze": "pinch", "messerspitzen": "pinches", "bund": "bunch", "bünde": "bunches", "bd": "bunch",
	"zehe": "clove", "zehen": "cloves", "scheibe": "slice", "scheiben": "slices", "dose": "tin", "dosen": "tins", "becher": "tub", "päckchen": "packet", "päck": "packet", "pck": "packet", "pkg": "packet", "packung": "packet", "packungen": "packets", "pk": "packet", "tüte": "bag", "tüten": "bags", "beutel": "bag",
	"stange": "stick", "stangen": "sticks", "blatt": "leaf", "blätter": "leaves", "zweig": "sprig", "zweige": "sprigs", "stiel": "stalk", "stiele": "stalks", "stängel": "stalks", "tasse": "cup", "tassen": "cups", "würfel": "cube", "glas": "jar", "gläser": "jars", "flasche": "bottle", "flaschen": "bottles",
	"handvoll": "handful", "kopf": "head", "köpfe": "heads", "knolle": "head", "knollen": "heads", "stück": "piece", "stücke": "pieces", "stk": "piece", "st": "piece", "gramm": "g", "kilo": "kg", "kilogramm": "kg", "liter": "L", "milliliter": "ml", "deziliter": "dl", "spritzer": "splash", "schuss": "splash", "tropfen": "drop", "kugel": "ball", "kugeln": "balls", "laib": "loaf", "blech": "tray", "bleche": "trays", "laibe": "loaves", "brote": "loaves", "brot": "loaf", "filet": "fillet", "filets": "fillets", "rolle": "packet",
	"portion": "portion", "portionen": "portions", "schote": "pod", "schoten": "pods", "streifen": "strips", "spalten": "wedges", "schälchen": "bowl", "förmchen": "moulds", "tropf": "drop",
}

// numbersInWords are figures that recipes write out.
var numbersInWords = map[string]string{
	"a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11", "twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30", "forty": "40", "half": "1/2",
	"ein": "1", "eine": "1", "einen": "1", "einer": "1", "zwei": "2", "drei": "3", "vier": "4", "fünf": "5", "sechs": "6", "sieben": "7", "acht": "8", "neun": "9", "zehn": "10", "elf": "11", "zwölf": "12", "halbe": "1/2", "halber": "1/2", "halben": "1/2", "halbes": "1/2", "anderthalb": "1 1/2", "eineinhalb": "1 1/2", "zweieinhalb": "2 1/2",
}

// leftAlone are words of work that goes on with nobody at it, attendedWords of work that
// needs somebody all the time. Both are beginnings of words.
var (
	leftAlone = split(`bake baking roast simmer chill rest resting prove proving proof rise rising raise stand soak marinat cool freez set setting steep infuse boil brais stew steam dry drying ferment refrigerat poach
		cure curing brine pickle leave left overnight hold keep smoke confit slow-cook press hang dehydrat mature sit aside doubl
		back köchel ruh geh zieh kühl abkühl erkalt gefrier einweich schmor gar sieden trockn quell auskühl stehen dämpf abgedeckt zugedeckt reif koch marinier`)
	attendedWords = split(`stir whisk beat knead mix fry sauté saute sear brown toast sweat soften turn fold cream whip blend blitz pulse work rub roll shape cook flame char grill swirl toss scrape reduce deglaze skim massag bast
		rühr schlag knet misch brat anbrat dünst andünst schwitz wend püree mix röst ablösch einkoch reduzier`)
	stirring = split(`stirring whisking turning tossing basting shaking constantly rühren gelegentlich ständig wenden umrühren`)
)

// withinWords stand before a time that is a part of another one: "every 10 minutes".
const withinWords = `(?:every|after|for the last|for the first|last|first|final|halfway|within|alle|nach|die letzten|in den letzten|nach etwa|nach ca\.|every other)`

// equipmentWords say which equipment of the standard list a step uses. The first that fits
// in a list of words that mean the same counts.
var equipmentWords = []struct{ word, name string }{
	{"microwave", "microwave"}, {"mikrowelle", "microwave"},
	{"pressure cooker", "pressure cooker"}, {"schnellkochtopf", "pressure cooker"},
	{"food processor", "food processor"}, {"küchenmaschine", "mixer"},
	{"stick blender", "stick blender"}, {"hand blender", "stick blender"}, {"immersion blender", "stick blender"}, {"pürierstab", "stick blender"}, {"stabmixer", "stick blender"},
	{"blender", "blender"}, {"electric mixer", "mixer"}, {"stand mixer", "mixer"}, {"handrührgerät", "mixer"}, {"in a mixer", "mixer"}, {"in the mixer", "mixer"}, {"electric whisk", "mixer"}, {"dough hook", "mixer"}, {"slow speed", "mixer"},
	{"water bath at", "water bath"}, {"wasserbad bei", "water bath"}, {"dehydrator", "dehydrator"}, {"dörrautomat", "dehydrator"},
	{"deep-fry", "fryer"}, {"deep fry", "fryer"}, {"fryer", "fryer"}, {"fritteuse", "fryer"}, {"frittier", "fryer"},
	{"barbecue", "barbecue"}, {"steamer", "steamer"}, {"griddle", "griddle"},
	{"under the grill", "grill"}, {"hot grill", "grill"}, {"broiler", "grill"}, {"broil", "grill"}, {"unter dem grill", "grill"},
	{"oven", "oven"}, {"bake", "oven"}, {"roast ", "oven"}, {"roasting", "oven"}, {"ofen", "oven"}, {"backen", "oven"}, {"umluft", "oven"}, {"ober-/unterhitze", "oven"}, {"gas mark", "oven"},
	{"fridge", "fridge"}, {"refrigerat", "fridge"}, {"chill", "fridge"}, {"kühlschrank", "fridge"}, {"kalt stellen", "fridge"}, {"kaltstellen", "fridge"},
	{"freezer", "freezer"}, {"freeze", "freezer"}, {"gefrierfach", "freezer"}, {"einfrieren", "freezer"},
	{"ice bath", "ice bath"}, {"eisbad", "ice bath"},
	{"saucepan", "hob"}, {"frying pan", "hob"}, {"simmer", "hob"}, {"to the boil", "hob"}, {"to a boil", "hob"}, {"boil ", "hob"}, {"fry ", "hob"}, {"sauté", "hob"}, {"medium heat", "hob"}, {"low heat", "hob"}, {"high heat", "hob"}, {"gentle heat", "hob"}, {"sweat ", "hob"}, {"melt ", "hob"}, {"poach", "hob"}, {"wok", "hob"}, {"griddle pan", "hob"},
	{"köcheln", "hob"}, {"aufkochen", "hob"}, {"andünsten", "hob"}, {"dünsten", "hob"}, {"braten", "hob"}, {"pfanne", "hob"}, {"kochen", "hob"}, {"erhitzen", "hob"}, {"schmelzen", "hob"}, {"topf", "hob"},
}

// heated are equipment that has a temperature of its own.
var heated = map[string]bool{"oven": true, "fryer": true, "water bath": true, "dehydrator": true}

// columns are the headings of a table of ingredients.
var columns = map[string]string{
	"amount": "amount", "amounts": "amount", "quantity": "amount", "qty": "amount", "weight": "amount", "measure": "amount", "grams": "g", "menge": "amount", "gewicht": "amount", "anzahl": "amount", "g": "g", "weight (g)": "g", "grams (g)": "g",
	"unit": "unit", "units": "unit", "einheit": "unit", "uom": "unit",
	"item": "item", "ingredient": "item", "ingredients": "item", "name": "item", "zutat": "item", "zutaten": "item", "product": "item", "food": "item", "what": "item",
	"prep": "prep", "preparation": "prep", "notes": "prep", "note": "prep", "remarks": "prep", "comment": "prep", "vorbereitung": "prep", "bemerkung": "prep", "anmerkung": "prep", "hinweis": "prep",
	"%": "percent", "baker's %": "percent", "bakers %": "percent", "baker's percentage": "percent", "percent": "percent", "prozent": "percent", "bäckerprozent": "percent", "baker’s %": "percent",
	"section": "section", "part": "section", "for": "section", "teil": "section",
}

// germanWords tell a German text from an English one.
var germanWords = split(`und mit der die das den dem für bei zutaten zubereitung minuten grad ein eine einen oder auf im el tl in etwas bis lassen geben nach von zum zur`)

// englishWords tell an English text from a German one.
var englishWords = split(`and with the for to of a in until minutes add into or from ingredients method cup tbsp tsp over then on at`)

// split returns the words of a text.
func split(s string) []string { return strings.Fields(s) }

// language returns "de" for a German text, else "en".
func language(s string) string {
	count := map[string]int{}
	for i, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !isLetter(r) }) {
		if i > 5000 {
			break
		}
		count[w]++
	}
	german, english := 0, 0
	for _, w := range germanWords {
		german += count[w]
	}
	for _, w := range englishWords {
		english += count[w]
	}
	if german > english {
		return "de"
	}
	return "en"
}
