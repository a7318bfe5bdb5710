package demand

import (
	"math/rand/v2"
	"regexp"
	"strings"
	"unicode/utf8"
)

// A slip is one way to mistype a text. It returns the text after it; ok is false where
// the text has no place for it.
type slip struct {
	name string
	do   func(text string, r *rand.Rand) (out string, ok bool)
}

// slips are the kinds of single slips: of a finger on a keyboard, or of a hand that
// edits a line.
var slips = []slip{
	{"letter", func(s string, r *rand.Rand) (string, bool) {
		return mistype(s, r, letters, "aeinorstlx")
	}},
	{"digit", func(s string, r *rand.Rand) (string, bool) { return mistype(s, r, digits, "0123456789") }},
	{"sign", func(s string, r *rand.Rand) (string, bool) {
		return mistype(s, r, signs, "-–.,*()[]%°#/½+")
	}},
	{"colon", func(s string, r *rand.Rand) (string, bool) {
		return replace(s, r, colons, "", ";", " =", ".", "::", " :")
	}},
	{"indent", reindent},
	{"unit", func(s string, r *rand.Rand) (string, bool) {
		return replace(s, r, unitWords, "", "g", "kg", "ml", "gg", "h", "min", "mn", "s", "°F", "lb", "x")
	}},
	{"separator", func(s string, r *rand.Rand) (string, bool) {
		return replace(s, r, separators, "", " ", ",", ";", "| ", "/", "  ")
	}},
}

var (
	letters    = regexp.MustCompile(`[A-Za-z]`)
	digits     = regexp.MustCompile(`[0-9]`)
	signs      = regexp.MustCompile(`[-–.,*()\[\]%°#/½¼¾+]`)
	colons     = regexp.MustCompile(`:`)
	unitWords  = regexp.MustCompile(`\b(g|kg|ml|L|min|h|d|s|pieces?|plates?|shelves|shelf|rings?|sheets?)\b|°C|%`)
	separators = regexp.MustCompile(`[|,]|\b and \b|  +| `)
)

// spot returns one match of a pattern in the text.
func spot(s string, r *rand.Rand, pattern *regexp.Regexp) (from, to int, ok bool) {
	all := pattern.FindAllStringIndex(s, -1)
	if len(all) == 0 {
		return 0, 0, false
	}
	at := all[r.IntN(len(all))]
	return at[0], at[1], true
}

// mistype drops, doubles, replaces or swaps one character, or types another before it.
func mistype(s string, r *rand.Rand, pattern *regexp.Regexp, others string) (string, bool) {
	from, to, ok := spot(s, r, pattern)
	if !ok {
		return s, false
	}
	runes := []rune(others)
	other := string(runes[r.IntN(len(runes))])
	switch r.IntN(5) {
	case 0:
		return s[:from] + s[to:], true
	case 1:
		return s[:to] + s[from:], true
	case 2:
		return s[:from] + other + s[to:], true
	case 3:
		_, n := utf8.DecodeRuneInString(s[to:])
		return s[:from] + s[to:to+n] + s[from:to] + s[to+n:], true
	}
	return s[:from] + other + s[from:], true
}

// replace replaces one match by one of the others.
func replace(s string, r *rand.Rand, pattern *regexp.Regexp, others ...string) (string, bool) {
	from, to, ok := spot(s, r, pattern)
	if !ok {
		return s, false
	}
	return s[:from] + others[r.IntN(len(others))] + s[to:], true
}

// reindent changes the space at the start of one line that has words.
func reindent(s string, r *rand.Rand) (string, bool) {
	lines := strings.Split(s, "\n")
	for range 50 {
		i := r.IntN(len(lines))
		words := strings.TrimLeft(lines[i], " ")
		if words == "" {
			continue
		}
		lines[i] = strings.Repeat(" ", r.IntN(8)) + words
		return strings.Join(lines, "\n"), true
	}
	return s, false
}
