package larder

import (
	"slices"
	"strings"
)

// uncheckable holds words of guests that no table can check, and what to do instead.
const uncheckable = `
sodium,low salt,low sodium,reduced salt,less salt,no added salt,low salt diet: look at the salt of each plate in its nutrition, and ask how much is too much
added sugar,diabetic,diabetes,type 1 diabetic,type 2 diabetic,low sugar,no added sugar,low carb,low carbohydrate,keto,ketogenic,low gi: look at the carbohydrate and sugars of each plate in its nutrition, and ask the guest
low fat,saturated fat,low cholesterol,cholesterol,low calorie,slimming,heart healthy: look at the fat and energy of each plate in its nutrition, and ask the guest
renal,renal diet,kidney disease,low potassium,low phosphate,gout,low purine,low protein,pku,phenylketonuria: ask the guest which foods, as their doctor told them, and write those
ibs,irritable bowel,crohn,crohns,colitis,reflux,sensitive stomach,low residue,low fibre: ask the guest which foods, as their doctor told them, and write those
histamine,low histamine,salicylate,oxalate,low oxalate,nickel,latex,pollen,oral allergy syndrome,additive,preservative,e number,aspartame,tyramine,maoi,warfarin,vitamin k,grapefruit interaction: ask the guest which foods, and write those
nut trace,may contain,trace: nobody here knows what was made beside what: read the labels, and write the allergen
hindu,sikh,muslim,jewish,buddhist,rastafarian,ital,seventh day adventist,mormon,christian,orthodox,orthodox fast,lent,fasting,ramadan,passover,kosher for passover,religious: a religion is no list of foods: ask what they do not eat, and write that ("halal", "vegetarian", "no beef")
paleo,raw vegan,raw food,fruitarian,macrobiotic,carnivore,whole30,flexitarian,clean eating,organic,locavore: ask which foods they do not eat, and write those
baby,babies,toddler,child,children,infant,elderly,fussy,fussy eater,picky,picky eater,spicy,mild,soft food,pureed,dysphagia,thickened,dentures: ask what they can't have, and write those foods
allergy,allergic,intolerant,dietary,special diet,diet,other,various,see notes,tbc,tbd,unknown: ask what they can't have, and write it
`

// reasons is uncheckable by the key of each word.
var reasons = func() map[string]string {
	m := map[string]string{}
	for line := range strings.Lines(uncheckable) {
		words, reason, _ := strings.Cut(strings.TrimSpace(line), ": ")
		for word := range strings.SplitSeq(words, ",") {
			m[key(word)] = reason
		}
	}
	return m
}()

// permitted is what to do about words that say what a guest can have.
const permitted = `say what they can't have; an exception is checked where it is a whole allergen or class, "vegetarian except fish", or nothing of it, "no nuts except coconut"`

// WhyUnchecked returns what to do about a guest's words that are not understood, "" where
// nothing is known of them but perhaps what [Foods.Suggest] finds.
func (fs *Foods) WhyUnchecked(text string) string {
	said := sayingOf(strings.Trim(text, ",;:. "))
	if len(said.list) == 0 {
		return ""
	}
	if _, _, ok := cutException(text); ok || slices.ContainsFunc(excepts, said.begins) || slices.ContainsFunc(allows, said.begins) || slices.ContainsFunc(allowed, said.ends) {
		return permitted
	}
	for more := true; more && len(said.list) > 0; more = said.strip() {
		if reason := reasons[key(said.words())]; reason != "" {
			return reason
		}
	}
	return ""
}

// begins and ends report whether the words do so with some others, and have more.
func (s *saying) begins(words []string) bool {
	return len(s.list) > len(words) && slices.Equal(s.list[:len(words)], words)
}

func (s *saying) ends(words []string) bool {
	n := len(s.list) - len(words)
	return n > 0 && slices.Equal(s.list[n:], words)
}

// NotChecked returns what of a guest's words no table tells: "halal: how the animals were
// slaughtered". It is "" for words that are understood whole, and for those that are not understood.
func (fs *Foods) NotChecked(text string) string {
	if a, ok := fs.Understand(text); ok && a.Unchecked != "" {
		return a.Words + ": " + a.Unchecked
	}
	return ""
}
