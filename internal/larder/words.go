package larder

import "strings"

// adjectives are words before or after a food's name that change neither its weight
// nor its allergens.
var adjectives = map[string]bool{}

func init() {
	for _, w := range strings.Fields(`large small medium big ripe fresh raw whole good cold warm hot soft softened melted
		chopped sliced diced peeled unpeeled grated ground crushed picked washed trimmed boned skinned free-range organic
		unwaxed unsalted salted fine coarse young baby new firm dry dried plain best finely roughly thinly of a the some
		any and`) {
		adjectives[w] = true
	}
}

// phrases returns the names under which an item may be in the tables, the longest
// first: all its words, then without adjectives in front, then without those behind.
func phrases(item string) []string {
	item, _, _ = strings.Cut(item, ",")
	item, _, _ = strings.Cut(item, "(")
	words := strings.Fields(strings.ToLower(item))
	if len(words) == 0 {
		return nil
	}
	out := []string{singular(strings.Join(words, " "))}
	front := words
	for len(front) > 1 && adjectives[front[0]] {
		front = front[1:]
		out = append(out, singular(strings.Join(front, " ")))
	}
	for len(front) > 1 && adjectives[front[len(front)-1]] {
		front = front[:len(front)-1]
		out = append(out, singular(strings.Join(front, " ")))
	}
	return out
}
