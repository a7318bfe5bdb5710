package document

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// IsDigit reports whether c is one of 0 to 9.
func IsDigit(c byte) bool { return c >= '0' && c <= '9' }

// IsWordRune reports whether r can be part of a word: a letter, a mark on one,
// or a digit.
func IsWordRune(r rune) bool {
	if r < 0x80 {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'
	}
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r)
}

// Clip shortens a text that a problem quotes to about 40 bytes.
func Clip(s string) string {
	const most = 40
	s = strings.TrimSpace(s)
	if len(s) <= most {
		return s
	}
	cut := most
	for cut > 0 && !utf8.RuneStart(s[cut]) {
		cut--
	}
	return s[:cut] + "…"
}

// Valid returns a text to show: bytes that are not UTF-8 become U+FFFD.
func Valid(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }

// HasPrefixFold reports whether s begins with prefix in either case. The prefix
// is ASCII.
func HasPrefixFold(s, prefix string) bool {
	return len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix)
}

// CutAny returns s without the first of the prefixes that it begins with; ok is
// false when it begins with none.
func CutAny(s string, prefixes ...string) (rest string, ok bool) {
	for _, p := range prefixes {
		if rest, ok := strings.CutPrefix(s, p); ok {
			return rest, true
		}
	}
	return s, false
}

// CutWord cuts s around the first word that has a space or an end of s on both
// sides.
func CutWord(s, word string) (before, after string, ok bool) {
	for at := 0; ; {
		i := strings.Index(s[at:], word)
		if i < 0 {
			return s, "", false
		}
		i += at
		end := i + len(word)
		if (i == 0 || s[i-1] == ' ') && (end == len(s) || s[end] == ' ') {
			return s[:i], s[end:], true
		}
		at = end
	}
}

// IsZero reports whether s is a figure of 0, with or without a unit after it:
// "0", "0.0 kg".
func IsZero(s string) bool {
	s = strings.TrimLeft(s, " ")
	rest := strings.TrimLeft(s, "0")
	if rest == s {
		return false
	}
	if rest != "" && (rest[0] == '.' || rest[0] == ',') {
		rest = strings.TrimLeft(rest[1:], "0")
	}
	return rest == "" || !IsDigit(rest[0]) && rest[0] != '/'
}
