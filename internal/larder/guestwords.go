package larder

import (
	"slices"
	"sort"
	"strings"

	"hobside/internal/quantity"
)

// vocabulary holds what guests' words mean, beside the foods of the table: the official
// allergens in everyday words, and diets by classes of animals. Codes are the table's; a
// word after "m=" is an animal class, after "h=" a heat class, after "+" a food, after "*"
// a family; "diet" marks what nothing can contain; with "?" a thing may be what the guest
// avoids. Behind "!" stands what no table tells. A line
// with "-" is not in the list to pick from. Who says wheat is kept from all cereals with
// gluten, more than asked. Own compilation; the official names are those of [Categories].
const vocabulary = `
gluten,wheat,cereal,gluten cereal,cereal containing gluten: gl wh
coeliac,celiac: diet gl wh
crustacean,crustacea,crustacean shellfish: cr
mollusc,mollusk,mollusca: mo
shellfish: cr mo m=shellfish
seafood: cr mo fi m=shellfish m=fish
egg,egg protein: eg m=egg
fish,finned fish,finfish: fi m=fish
peanut,groundnut,monkey nut,arachis: pe
soya,soy,soybean,soya bean,soy bean,soya protein: so
milk,dairy,lactose,dairy product,milk product,milk protein,cow milk,cow milk protein,casein,whey,cmpa: mi m=dairy
tree nut: nu tn
nut: nu tn pe
celery: ce
mustard: mu
sesame,sesame seed: se
sulphite,sulfite,sulphur dioxide,sulphur dioxide and sulphite,sulfur dioxide,sulphur,sulfur,so2,metabisulphite: su
lupin,lupine: lu
vegetarian,veggie,lacto ovo vegetarian,ovo lacto vegetarian: diet m=meat m=poultry m=fish m=shellfish m=gelatine fi cr mo
-lacto vegetarian: diet m=meat m=poultry m=fish m=shellfish m=gelatine m=egg fi cr mo eg
-ovo vegetarian: diet m=meat m=poultry m=fish m=shellfish m=gelatine m=dairy fi cr mo mi
-alpha gal,alpha gal syndrome,mammal,mammalian meat: m=meat m=gelatine ! milk and other things of mammals, which some of these guests can't have
-seed: se mu *seed
-root vegetable,root: +vegetable *root_vegetable
vegan,plant based: diet m=meat m=poultry m=fish m=shellfish m=gelatine m=dairy m=egg m=honey fi cr mo mi eg
animal product: m=meat m=poultry m=fish m=shellfish m=gelatine m=dairy m=egg m=honey fi cr mo mi eg
pescatarian,pescetarian,pesco vegetarian: diet m=meat m=poultry m=gelatine
meat: m=meat m=poultry
red meat: m=meat
poultry,bird,fowl: m=poultry
gelatine,gelatin: m=gelatine *gelatine
honey: m=honey *honey
offal: h=offal *offal
game: h=game *game
raw fish: h=fish *raw_fish
raw shellfish: h=shellfish *raw_shellfish
raw egg: h=egg *raw_egg
raw meat,undercooked meat,rare meat: h=whole_cut h=mince h=poultry h=game h=offal *raw_meat
alcohol: +alcohol
pork: +pork
pregnant,pregnancy,expecting,at risk,immunocompromised,immunosuppressed: diet h=fish h=shellfish h=egg h=whole_cut h=mince h=poultry h=game h=offal *raw_fish *raw_shellfish *raw_egg *raw_meat *soft_cheese +liver +alcohol ! unpasteurised milk, cheese and juice, fish with much mercury, caffeine and what their doctor says
halal: diet +pork +alcohol m?=meat m?=poultry m?=gelatine ! how the animals were slaughtered, rennet and additives
kosher: diet +pork cr mo m=shellfish m?=meat m?=poultry m?=gelatine +rabbit +hare +eel +monkfish +catfish +shark +sturgeon ! how the animals were slaughtered, meat and milk in one meal, wine, rennet and Passover
jain: diet m=meat m=poultry m=fish m=shellfish m=gelatine m=egg m=honey fi cr mo eg *honey +onion +garlic +potato +carrot +beetroot +radish +turnip +ginger +mushroom +alcohol ! other roots, and what the guest's own rule leaves out
low fodmap,fodmap: diet +onion +garlic gl wh mi? *fodmap ! how much of each food a portion has, and sweeteners
nightshade: *nightshade
allium: *allium
citrus,citrus fruit: *citrus
legume,pulse: pe so lu *pulse
soft cheese: *soft_cheese
caffeine: *caffeine
sugar: +sugar ! the sugar in what is bought ready: look at the sugars of each plate in its nutrition
salt: +salt ! the salt in what is bought ready: look at the salt of each plate in its nutrition
-msg,monosodium glutamate,glutamate: +msg ! the glutamate in what is bought ready: read the labels
-sweetener,artificial sweetener: +sweetener +sorbitol ! the sweeteners in what is bought ready: read the labels
-fructose: +fructose +honey ! the fructose in fruit and in what is bought ready: ask the guest how much is too much
-colouring,food colouring,food dye,dye: +food_colouring ! the colours in what is bought ready: read the labels
-kid: +kid ! children, where they are meant: write what they can't have
`

// meanings is the vocabulary by the key of each word.
var meanings = func() map[string]string {
	m := map[string]string{}
	for line := range strings.Lines(vocabulary) {
		words, meaning, ok := strings.Cut(strings.TrimPrefix(strings.TrimSpace(line), "-"), ": ")
		for word := range strings.SplitSeq(words, ",") {
			if ok {
				m[key(word)] = meaning
			}
		}
	}
	return m
}()

// Understand returns what a guest's words mean: an official allergen in everyday words,
// a diet, or one of the foods, with or without "no", "allergy", "free", "intolerant".
// "No nuts but coconut is fine" is read by [Foods.excepting].
// ok is false for words that mean none of these, for words that say the opposite ("not
// vegan", "can have nuts", "no nut allergy"), and for a list of several: then nothing can be
// checked, and the guest must be asked again. [Suggest] may know what was meant,
// [UnderstandList] reads lists.
func (fs *Foods) Understand(text string) (a Avoid, ok bool) {
	text = strings.TrimRight(text, ",;:. ")
	if strings.ContainsAny(text, listMarks) {
		return Avoid{}, false
	}
	if less, but, ok := cutException(text); ok {
		return fs.excepting(less, but)
	}
	for said := sayingOf(text); len(said.list) > 0; {
		if k := key(said.words()); reasons[k] != "" && !fs.names(k) {
			return Avoid{}, false // "kidney disease" is not of kidneys
		}
		if a, ok := fs.understood(said.words()); ok {
			if !said.sound(a) {
				return Avoid{}, false
			}
			return a, true
		}
		if !said.strip() {
			break
		}
	}
	return Avoid{}, false
}

// Understand returns what a guest's words mean by the built-in table, as [Foods.Understand]
// does.
func Understand(text string) (a Avoid, ok bool) { return (*Foods)(nil).Understand(text) }

// understood looks words up in the vocabulary, then among the foods.
func (fs *Foods) understood(text string) (Avoid, bool) {
	a := Avoid{Words: text}
	k := key(text)
	meaning, ok := meanings[k]
	if f := fs.lookup(k); !ok && f != nil {
		a.Foods, a.keys = []string{f.Name}, []string{key(f.Name), k}
		if f.base != nil {
			a.keys = append(a.keys, key(f.base.Name))
		}
		return a, true
	}
	meaning, a.Unchecked, _ = strings.Cut(meaning, " ! ")
	for word := range strings.FieldsSeq(meaning) {
		switch mark, rest, _ := strings.Cut(word, "="); {
		case word == "diet":
			a.diet = true
		case mark == "m?":
			a.mayAnimals = append(a.mayAnimals, Animal(rest))
		case strings.HasSuffix(word, "?"):
			a.mayCodes = append(a.mayCodes, strings.TrimSuffix(word, "?"))
		case mark == "m":
			a.Animals = append(a.Animals, Animal(rest))
		case mark == "h":
			a.Heats = append(a.Heats, Heat(strings.ReplaceAll(rest, "_", " ")))
		case strings.HasPrefix(word, "+"):
			food := strings.ReplaceAll(word[1:], "_", " ")
			a.Foods, a.keys = append(a.Foods, food), append(a.keys, key(food))
		case strings.HasPrefix(word, "*"):
			a.keys = append(a.keys, strings.ReplaceAll(word[1:], "_", " "))
		default:
			a.codes = append(a.codes, word)
		}
	}
	for _, c := range Categories {
		if a.Code(c.List, c.Code) {
			a.Allergens = append(a.Allergens, c)
		}
	}
	return a, ok
}

// Suggest returns the words nearest to some that are not understood, "" where nothing is
// near: "nutz" is near "nuts".
func (fs *Foods) Suggest(text string) string {
	said := sayingOf(text)
	for more := true; more && len(said.list) > 1; {
		more = said.strip()
	}
	typed := said.words()
	best, bestAt := "", 3
	try := func(word string) {
		if reasons[key(word)] != "" {
			return
		}
		limit := min(2, len(typed)/3)
		if n := quantity.Distance(typed, word, limit); n <= limit && n < bestAt {
			best, bestAt = word, n
		}
	}
	for _, word := range fs.EverydayWords() {
		try(strings.ToLower(word))
		try(strings.ToLower(word) + "s")
	}
	for i := range foods {
		try(foods[i].Name)
		try(foods[i].Name + "s")
	}
	return best
}

// EverydayWords returns the words for allergens and diets and the names of the kitchen's
// own foods, sorted, for a list to pick from.
func (fs *Foods) EverydayWords() []string {
	var out []string
	if fs != nil {
		for _, f := range fs.own {
			out = append(out, f.Name)
		}
	}
	for line := range strings.Lines(vocabulary) {
		first, _, ok := strings.Cut(line, ":")
		first, _, _ = strings.Cut(first, ",")
		if ok && first != "" && first[0] != '-' {
			out = append(out, strings.TrimSpace(first))
		}
	}
	sort.Strings(out)
	return slices.Compact(out)
}
