package plan

import (
	"slices"
	"strings"

	"hobside/internal/card"
)

// A rush is work whose result can't wait, whatever it is made of: known by a verb
// and what it is done to. Common practice, no source.
type rush struct {
	verbs []string // beginnings of words
	to    []string // beginnings of words of which one follows; none: the verb alone
	why   string
}

var rushes = []rush{
	{[]string{"melt", "boil", "cook", "caramel"}, []string{"sugar", "syrup", "caramel", "toffee", "isomalt"}, "hot sugar sets"},
	{[]string{"melt", "dissolv", "warm", "stir"}, []string{"gelatin", "agar", "pectin", "carrageen"}, "melted gelatine sets"},
	{[]string{"whisk", "whip", "beat"}, []string{"white", "yolk", "meringue"}, "whisked eggs fall"},
	{[]string{"fold"}, []string{"cream", "white", "meringue", "sponge"}, "what is folded in falls"},
	{[]string{"dress", "toss"}, []string{"leaves", "leaf", "salad", "lettuce", "rocket", "watercress", "lamb's"}, "dressed leaves wilt"},
}

// warmed are words for plates and bowls on which nothing may wait.
var warmed = []string{"warm bowl", "warm plate", "warmed bowl", "warmed plate", "hot bowl", "hot plate"}

// goesOn returns why the result of a step can't wait, "" where it can.
func goesOn(s *card.Step) string {
	text := strings.ToLower(s.Sentence())
	for _, w := range warmed {
		if strings.Contains(text, w) {
			return "the plates are warm"
		}
	}
	for _, sentence := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(".;:!?", r) }) {
		words := strings.FieldsFunc(sentence, func(r rune) bool { return strings.ContainsRune(" ,()\n\t", r) })
		for _, r := range rushes {
			verb := slices.IndexFunc(words, func(w string) bool { return begins(w, r.verbs) })
			if verb >= 0 && slices.ContainsFunc(words[verb+1:], func(w string) bool { return begins(w, r.to) }) {
				return r.why
			}
		}
	}
	return ""
}

// begins reports whether a word begins with one of some words.
func begins(word string, with []string) bool {
	return slices.ContainsFunc(with, func(w string) bool { return strings.HasPrefix(word, w) })
}
