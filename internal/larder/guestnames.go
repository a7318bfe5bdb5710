package larder

import "strings"

// Excluding returns how a guest's words, as [Avoid] has them, are said of a guest: "no
// nuts", "vegan".
func Excluding(words string) string {
	if isDiet(words) {
		return words
	}
	return "no " + words
}

// Without returns how the words of a group of guests, as [Avoid] has them, are said behind
// their number: " without fish, milk", ", vegan", ", vegan, without nuts". Of no words it is "".
func Without(words []string) string {
	diets, foods := dietsAndFoods(words)
	switch out := ", " + strings.Join(diets, ", "); {
	case len(words) == 0:
		return ""
	case len(foods) == 0:
		return out
	case len(diets) == 0:
		return " without " + strings.Join(foods, ", ")
	default:
		return out + ", without " + strings.Join(foods, ", ")
	}
}

// ForGuests returns for whom a plate is that is for some exclusions: "for vegans", "for
// guests who avoid nuts, milk". Of no words it is "".
func ForGuests(words []string) string {
	diets, foods := dietsAndFoods(words)
	var who []string
	for _, d := range diets {
		if strings.HasSuffix(d, "an") {
			who = append(who, d+"s")
		} else {
			who = append(who, d+" guests")
		}
	}
	if len(foods) > 0 {
		who = append(who, "guests who avoid "+strings.Join(foods, ", "))
	}
	if len(who) == 0 {
		return ""
	}
	return "for " + strings.Join(who, ", ")
}

// dietsAndFoods parts words for ways of eating from words for what a plate can contain.
func dietsAndFoods(words []string) (diets, foods []string) {
	for _, word := range words {
		if isDiet(word) {
			diets = append(diets, word)
		} else {
			foods = append(foods, word)
		}
	}
	return diets, foods
}

// isDiet reports whether a guest's words name a way of eating.
func isDiet(words string) bool {
	a, ok := Understand(words)
	return ok && a.diet
}
