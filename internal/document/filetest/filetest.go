// Package filetest writes the texts of small cards and kitchens for tests. Enter by
// [Mix] for a card of items, or [Steps] for a card of steps.
package filetest

import (
	"strconv"
	"strings"
)

// Kitchens with one cook that follow the UK's and the US's rules.
const (
	UKKitchen = "---\ncooks: 1\nrules: uk\nhob: 2 rings\noven: 1, 2 shelves\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n"
	USKitchen = "---\ncooks: 1\nrules: us\nhob: 2 rings\noven: 1, 2 shelves\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n"
)

// Mix returns a card that makes 1 kg of the items given, such as "200 g peas", all
// used in one step.
func Mix(title string, items ...string) string {
	var list, bold strings.Builder
	for _, it := range items {
		list.WriteString("- " + it + "\n")
		name := it[strings.Index(it, " g ")+3:]
		bold.WriteString(" **" + name + "**")
	}
	return "---\nmakes: 1 kg\n---\n\n# " + title + "\n\n## Formula\n\n" + list.String() + "\n## Method\n\n1. Mix" + bold.String() + ".\n   - hands: 5 min\n"
}

// Steps returns a card that makes 1 kg. Items are the lines of its formula. A step is
// its words and, each after a "|", its facts: "Roast the **veal**.|oven: 220 °C".
func Steps(title, items string, steps ...string) string {
	out := "---\nmakes: 1 kg\n---\n\n# " + title + "\n\n## Formula\n\n" + items + "\n\n## Method\n\n"
	for i, s := range steps {
		words, facts, _ := strings.Cut(s, "|")
		out += strconv.Itoa(i+1) + ". " + words + "\n   - hands: 5 min\n"
		for f := range strings.SplitSeq(facts, "|") {
			if f != "" {
				out += "   - " + f + "\n"
			}
		}
	}
	return out
}
