package menu

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/larder"
)

// ParseGuests reads guests that are kept apart from a menu: one group on each
// line, without the dash of a list. It returns the groups it could read and a
// problem for each line it could not.
func ParseGuests(lines string) ([]Guests, []document.Problem) {
	var src strings.Builder
	src.WriteString("## Guests\n\n")
	for _, line := range strings.Split(lines, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			src.WriteString("- " + line + "\n")
		}
	}
	p := &parser{File: document.Open("guests", []byte(src.String())), menu: &Menu{}}
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
			if word != "" {
				words = append(words, "no "+word)
			}
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

// guestLine reads "2 covers: no fish, no gluten (by the door)".
func (p *parser) guestLine(item ast.Node) {
	f, ok := p.ItemFact(item)
	if !ok {
		return
	}
	g := Guests{Pos: p.Place(f.At)}
	count, unit, _ := strings.Cut(f.Word, " ")
	n, err := strconv.Atoi(count)
	switch strings.TrimSpace(unit) {
	case "cover", "covers", "guest", "guests", "":
	default:
		err = strconv.ErrSyntax
	}
	if err != nil || n < 1 || n > MaxCovers {
		p.Err(f.At, "the line does not begin with a number of guests", "", `write it like "2 covers: no fish"`)
		return
	}
	g.Covers = n
	value := f.Value
	if i := strings.IndexByte(value, '('); i >= 0 {
		g.Note = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(value[i+1:]), ")"))
		value = value[:i]
	}
	f.Value = value
	f.Split(func(part string, at int) {
		if ex, ok := p.excluded(part, at); ok {
			g.Exclude = append(g.Exclude, ex)
		} else {
			g.NotChecked = append(g.NotChecked, part)
		}
	})
	if len(g.Exclude)+len(g.NotChecked) == 0 {
		p.Err(f.ValueAt, "the line does not say what these guests can't have", "", `write it like "2 covers: no fish"`)
	}
	p.menu.Guests = append(p.menu.Guests, g)
}

// excluded reads what some guests can't have, as they say it ("no fish", "coeliac", "nut
// allergy"), and returns the words without "no" and the like. Words that mean nothing
// to the food table are an error: nothing would be checked.
func (p *parser) excluded(part string, at int) (words string, ok bool) {
	a, ok := larder.Understand(part)
	if !ok {
		p.Err(at, `not checked: "`+part+`" is no allergen, diet or food that is known`, larder.Suggest(part), `write an allergen ("no nuts"), a diet ("vegan") or a food, and ask the guest again`)
		return "", false
	}
	return a.Words, true
}
