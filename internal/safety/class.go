package safety

import (
	"slices"
	"strings"

	"hobside/internal/larder"
)

// Class is a class of food, as food codes divide it.
type Class string

// The classes. NotKnown is the answer for a name without a class; nothing is guessed.
const (
	NotKnown   Class = ""
	Poultry    Class = "poultry"
	Beef       Class = "beef"
	Pork       Class = "pork"
	Lamb       Class = "lamb"
	Roast      Class = "whole roast" // of beef, pork, lamb or cured pork; never a class of its own by a name: see [CookFood]
	Minced     Class = "minced meat" // comminuted meat or fish, sausage; injected or tenderised meat
	Fish       Class = "fish"
	Shellfish  Class = "shellfish"
	Egg        Class = "egg"
	PooledEgg  Class = "pooled egg" // several eggs broken together and held
	Stuffed    Class = "stuffed"    // stuffed meat, fish or pasta; stuffing with meat
	Game       Class = "wild game"
	Unnamed    Class = "meat that is not named" // a kebab of no animal that its name says: no rule set has a row for it
	Offal      Class = "offal"                  // of beef, pork, lamb or game; that of poultry is Poultry
	Bones      Class = "bones"                  // for stock; not eaten
	Stock      Class = "stock"                  // a cooked liquid: stock, soup, sauce
	Rice       Class = "rice"
	Vegetable  Class = "vegetable"
	Cooked     Class = "cooked food" // cooked already, to be cooled, held or re-heated
	ReadyToEat Class = "ready-to-eat food"
)

// Classes returns every class but NotKnown and Unnamed, which no rule has, in the order above.
func Classes() []Class {
	return []Class{Poultry, Beef, Pork, Lamb, Roast, Minced, Fish, Shellfish, Egg, PooledEgg, Stuffed, Game, Offal,
		Bones, Stock, Rice, Vegetable, Cooked, ReadyToEat}
}

// raw reports whether food of the class is a raw animal food until it is cooked.
func (c Class) raw() bool {
	switch c {
	case Poultry, Beef, Pork, Lamb, Roast, Minced, Fish, Shellfish, Egg, PooledEgg, Stuffed, Game, Unnamed, Offal:
		return true
	}
	return false
}

// A classRow is one row of the table of names.
type classRow struct {
	words string // phrases, with commas between
	class Class
}

// classWords is the table of names, our own compilation. The first row that matches
// decides, so that a phrase must come before the words in it. The rows up to
// [firstSpecies] decide before the food table does, the others after it: they tell what
// kind of meat a cut is, and know some names that the table has not.
var classWords = []classRow{
	// Names with the word for an animal that are not that animal, or not raw.
	{"stock cube, bouillon cube, fish sauce, oyster sauce, oyster mushroom, beef tomato, beefsteak tomato, steak tomato," +
		" egg noodle, egg pasta, egg wash brush, chicken of the woods, duck sauce, duck fat, goose fat, chicken fat, beef dripping," +
		" pork fat, bacon fat, lambs lettuce, goat cheese, goat butter, goat milk, goat yoghurt, goat yogurt, goat cream, goat curd, goat kefir, crab apple, crab stick, fish slice, butter bean," +
		" rice vinegar, rice wine, rice paper, rice noodle, rice flour, rice pudding, puffed rice, egg substitute, egg replacer," +
		" turkey tail, hen of the woods, salmon roe, fish roe, cod roe, lumpfish roe, prawn cracker, shrimp paste, hot dog roll, burger bun," +
		" eggshell, egg cup, vegetarian, vegan, plant based, meat free, meatless, mock, imitation", NotKnown},
	{"ham hock, gammon, bacon, lardon", Pork}, // cured, and raw
	{"cooked, roasted, boiled, hard boiled, poached, grilled, hot smoked", NotKnown},
	{"smoked haddock, smoked cod, smoked pollock, smoked pollack, smoked coley, smoked whiting, finnan haddock", Fish}, // smoked cold, and raw
	{"smoked, cured, dried, tinned, canned, pickled, salted, powder," +
		" ham, prosciutto, salami, chorizo, anchovy, confit, leftover", NotKnown},
	{madeOfMince, Minced},
	{"corned beef", Beef}, // raw where it is a joint: the code's table for roasts names it
	{"soup bone, stock bone", Bones},
	{"stock, broth, consomme, bisque, soup, gravy, jus, demi glace, bechamel, veloute", Stock},
	{"stuffed", Stuffed},
	{"pasteurised egg, pasteurized egg", NotKnown},
	{"pooled egg", PooledEgg},
	{"bones, bone, carcass, chicken back, chicken feet, prawn shell, shrimp shell, lobster shell, crab shell, fish head, fish frame, trotter", Bones},
	{"chicken egg, hen egg, duck egg, goose egg, quail egg, egg yolk, egg white, egg, eggs", Egg},
	{"wild boar, wild duck, wild rabbit, wild venison, wild game, grouse, woodcock, wood pigeon", Game},
	{"chicken mince, minced chicken, ground chicken, turkey mince, minced turkey, ground turkey", Poultry},
	{"minced beef, beef mince, ground beef, minced pork, pork mince, ground pork, minced lamb, lamb mince, ground lamb, minced veal," +
		" ground veal, veal mince, minced meat, ground meat, minced fish, sausage meat, sausage, burger, hamburger, meatball, forcemeat", Minced},
	{"chicken, turkey, duck, duckling, goose, guinea fowl, quail, poussin, poultry, capon, squab, pheasant, partridge, guinea hen", Poultry},
	{"beef, veal, oxtail, brisket, ox cheek, beef cheek, sirloin, flank steak, fillet steak, flat iron steak, bavette, ribeye, rib eye, rump steak, topside, silverside," +
		" london broil, tenderloin, flank, hanger, carpaccio", Beef},
	{"pork, pork belly, pig cheek, suckling pig", Pork},
	{"lamb, mutton, hogget, goat, kid goat", Lamb},
	{"prawn, shrimp, langoustine, lobster, crab, crayfish, scallop, mussel, clam, cockle, oyster, squid, octopus, cuttlefish, whelk, abalone, snail, shellfish", Shellfish},
	{"fish, cod, haddock, hake, pollack, pollock, coley, salmon, trout, char, tuna, mackerel, herring, sardine, sprat, halibut, turbot," +
		" brill, plaice, sole, lemon sole, sea bass, bass, sea bream, bream, monkfish, skate, whiting, zander, pike, perch, carp, mullet, gurnard, john dory," +
		" bluefish, burbot, butterfish, catfish, cisco, croaker, cusk, eel, flounder, grouper, ling, lingcod, mahimahi, mahi mahi, milkfish, ocean pout, pout, pompano," +
		" rockfish, roughy, sablefish, scup, seatrout, shad, shark, sheepshead, smelt, snapper, sturgeon, sunfish, swordfish, tilapia, tilefish, whitefish, wolffish, yellowtail", Fish},
	{"rice, risotto rice", Rice},
}

// Our own compilation: what is made of minced meat or fish and does not say so; what it
// is made of instead; the birds, whose meat is cooked hotter; and the animals whose
// joints are no roasts of the code's table (US FDA Food Code 3-401.11(B), read: beef,
// lamb, pork and cured pork).
const (
	madeOfMince = "salisbury steak, kofte, kofta, kofteh, kefta, kafta, kufta, chopped beef, chopped steak, chopped lamb, chopped pork, chopped veal, steak hache, gyro, gyros," +
		" doner, donner, meatloaf, meat loaf, brat, brats, bratwurst, boudin, faggot, faggots, haggis, andouille, ground round, ground chuck, ground sirloin, crab cake, fish cake, fishcake, cevapcici"
	notOfMeat   = "vegetable, veg, bean, lentil, chickpea, tofu, paneer, mushroom, nut, potato, courgette, halloumi, quorn, soya, soy, tempeh, seitan, pea, bread, bun, roll, pitta, pita, wrap"
	birds       = "chicken, turkey, duck, duckling, goose, guinea fowl, quail, poultry, pheasant, partridge"
	onSticks    = "kebab, kebob, kabob, skewer, brochette, satay, souvlaki, shashlik, spiedini, yakitori, anticucho"
	sticks      = "wooden, wood, bamboo, metal, steel, soaked, fruit, melon, pineapple, strawberry, marshmallow, tomato, cheese"
	gameAnimals = "venison, deer, elk, moose, reindeer, caribou, boar, rabbit, hare, bison, buffalo, kangaroo, antelope, springbok"
)

// firstSpecies is the first row of classWords that the food table comes before.
var firstSpecies = 1 + slices.IndexFunc(classWords, func(row classRow) bool { return row.class == Bones && strings.HasPrefix(row.words, "bones") })

// onTheBone are phrases with the word for a bone that is not boiled for stock.
const onTheBone = "bone in, on the bone, off the bone, bone on, t bone, boned"

// ClassOf returns the class of a raw item by its name: "free-range chicken thighs" is
// Poultry. The food table decides, down to parts that are typed without their animal
// ("bone-in thighs"). It returns NotKnown for a name that no table has, and for what is
// cooked, cured or only named after an animal. A cut that its name calls minced,
// tenderised or injected is [Minced].
func ClassOf(name string) Class { return treated(namedClass(name), name) }

// namedClass returns the class of what a name names, whatever was done with it.
func namedClass(name string) Class {
	t := tokens(name)
	meat := hasAny(t, onTheBone)
	named := func(rows []classRow) (Class, bool) {
		for _, row := range rows {
			if !(meat && row.class == Bones) && hasAny(t, row.words) {
				return row.class, true
			}
		}
		return NotKnown, false
	}
	species, ofAnimal := named(classWords[firstSpecies:])
	if hasAny(t, onSticks) && ofAnimal && species == Minced {
		return Minced // "lamb mince kebabs"
	}
	if hasAny(t, onSticks) && !(ofAnimal && species.raw()) && !hasAny(t, madeOfMince+", "+birds+", "+gameAnimals) {
		if hasAny(t, notOfMeat+", "+sticks) {
			return NotKnown
		}
		return Unnamed
	}
	if c, ok := named(classWords[:firstSpecies]); ok && c != Minced {
		return c
	} else if ok && !goesWith(t) && (ofAnimal && species.raw() || !hasAny(t, notOfMeat)) {
		if hasAny(t, birds) {
			return Poultry
		}
		return Minced
	}
	food, known := larder.Classify(name)
	exact := known && !food.Probably
	switch {
	case goesWith(t), exact && food.Heat == larder.NoHeat && species.raw():
		return NotKnown
	case !known || food.Heat == larder.NoHeat:
		return species
	case food.Heat != larder.HeatGame && slices.Contains(food.Animals, larder.Poultry):
		return Poultry
	case food.Heat == larder.HeatCut && hasAny(t, gameAnimals):
		return Game
	case food.Heat == larder.HeatCut && (species == Beef || species == Pork || species == Lamb):
		return species
	}
	return heatClasses[food.Heat]
}

// goesWith reports whether a name is that of a seasoning, a sauce or a biscuit, and the
// animal in it is what it goes with or is made of: "steak spice", "pork rub", "clam juice".
func goesWith(t []string) bool {
	n := len(t)
	return n > 1 && hasAny(t[n-1:], "spice, seasoning, rub, relish, marinade, glaze, sauce, juice, nectar, salt, cracker") && !hasAny(t, "in, with, and, or, of, for, on")
}

// heatClasses maps the food table's classes to those of the codes. A whole cut of an
// animal that nobody names is taken for beef, which has the same limits as pork and lamb.
var heatClasses = map[larder.Heat]Class{larder.HeatPoultry: Poultry, larder.HeatCut: Beef, larder.HeatMince: Minced, larder.HeatGame: Game,
	larder.HeatFish: Fish, larder.HeatShellfish: Shellfish, larder.HeatEgg: Egg, larder.HeatOffal: Offal}
