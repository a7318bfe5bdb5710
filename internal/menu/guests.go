package menu

import (
	"strconv"
	"strings"

	"hobside/internal/document"
	"hobside/internal/larder"
)

// ParseGuests reads guests that are kept apart from a menu: one group on each
// line, without the dash of a list. It returns the groups it could read and a
// problem for each line it could not. Foods are the kitchen's own, nil for none.
func ParseGuests(lines string, foods *larder.Foods) ([]Guests, []document.Problem) {
	var src strings.Builder
	src.WriteString("## Guests\n\n")
	for _, line := range strings.Split(lines, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			src.WriteString("- " + line + "\n")
		}
	}
	p := &parser{File: document.Open("guests", []byte(src.String())), menu: &Menu{Foods: foods}, form: true}
	p.blocks()
	return p.menu.Guests, p.Done()
}

// A GuestRow is a group of guests as a cook fills in a form. No may hold several
// words, "fish, no gluten".
type GuestRow struct{ Covers, No, Note string }

// GuestLines writes the rows of a form as lines that [ParseGuests] reads. A row
// that excludes nothing is left out; one without covers is for one.
func GuestLines(rows []GuestRow) string {
	var lines []string
	plain := strings.NewReplacer("(", " ", ")", " ", "\n", " ", "\r", " ")
	for _, r := range rows {
		var words []string
		for _, word := range strings.FieldsFunc(plain.Replace(r.No), func(c rune) bool { return c == ',' || c == ';' }) {
			word = strings.ToLower(strings.TrimSpace(word))
			for _, no := range [...]string{"no ", "without "} {
				if what, ok := strings.CutPrefix(word, no); ok {
					word = strings.TrimSpace(what)
					break
				}
			}
			if word == "" {
				continue
			}
			_, bare := larder.Understand(word)
			if _, no := larder.Understand("no " + word); no || !bare {
				word = "no " + word // but "nut allergy": with "no" it would say the opposite
			}
			words = append(words, word)
		}
		if len(words) == 0 {
			continue
		}
		covers := strings.TrimSpace(r.Covers)
		if covers == "" {
			covers = "1"
		}
		line := covers + " covers: " + strings.Join(words, ", ")
		if note := strings.TrimSpace(plain.Replace(r.Note)); note != "" {
			line += " (" + note + ")"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}

// MoreGuestsThan returns, in words, what is wrong and what to do when the groups of
// guests come to more than the covers. Over is false when they do not.
func MoreGuestsThan(covers int, groups []Guests) (msg, do string, over bool) {
	n := 0
	for _, g := range groups {
		n += g.Covers
	}
	if n <= covers {
		return "", "", false
	}
	return strconv.Itoa(n) + " guests have exclusions, but there are only " + strconv.Itoa(covers) + " covers", "correct one of the two numbers", true
}
