package safety

import (
	"strings"
	"unicode"
)

// plain removes the accents of kitchen words: "puree" and "purée" are the same.
var plain = strings.NewReplacer("é", "e", "è", "e", "ê", "e", "ë", "e", "à", "a", "â", "a", "ä", "a", "î", "i", "ï", "i",
	"ô", "o", "ö", "o", "û", "u", "ü", "u", "ç", "c", "ñ", "n", "’", "'", "‑", "-", "–", "-")

// tokens splits text into words in lower case without accents. Hyphens separate words,
// so that "re-heat" and "re heat" are the same; apostrophes are dropped.
func tokens(text string) []string {
	text = strings.ReplaceAll(plain.Replace(strings.ToLower(text)), "'", "")
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// has reports whether a phrase is in the text, word for word; each word may be a plural
// there. The phrase is in lower case, without accents or apostrophes, with spaces
// between its words. It is not split into tokens, because a phone goes through long
// tables of phrases for every step.
func has(text []string, phrase string) bool {
	first, rest, _ := strings.Cut(strings.TrimSpace(phrase), " ")
	for i, got := range text {
		if same(got, first) && follows(text[i+1:], rest) {
			return true
		}
	}
	return false
}

// follows reports whether the text begins with the words of rest.
func follows(text []string, rest string) bool {
	for _, got := range text {
		if rest == "" {
			return true
		}
		var word string
		word, rest, _ = strings.Cut(rest, " ")
		if !same(got, word) {
			return false
		}
	}
	return rest == ""
}

// hasAny reports whether one of several phrases, with commas between, is in the text. Most
// are not, and are skipped by their first two letters, which is quicker.
func hasAny(text []string, phrases string) bool {
	var begins [26]uint32 // by the first letter, a bit for the second
	for _, word := range text {
		if a, b, ok := twoLetters(word); ok {
			begins[a] |= 1 << b
		}
	}
	for phrases != "" {
		var p string
		p, phrases, _ = strings.Cut(phrases, ",")
		for p != "" && p[0] == ' ' {
			p = p[1:]
		}
		if a, b, ok := twoLetters(p); ok && begins[a]&(1<<b) == 0 {
			continue
		}
		if has(text, p) {
			return true
		}
	}
	return false
}

// twoLetters returns the first two letters of a word as numbers from 0; ok is false for
// a word that does not begin with two letters from a to z.
func twoLetters(s string) (a, b byte, ok bool) {
	if len(s) < 2 {
		return 0, 0, false
	}
	a, b = s[0]-'a', s[1]-'a'
	return a, b, a < 26 && b < 26
}

// same reports whether a word of the text is a word of a table or its plural.
func same(got, want string) bool {
	n := len(want)
	if n == 0 || len(got) < n {
		return false
	}
	if got[:n] == want {
		end := got[n:]
		return end == "" || end == "s" || end == "es"
	}
	return want[n-1] == 'y' && len(got) == n+2 && got[:n-1] == want[:n-1] && got[n-1:] == "ies"
}
