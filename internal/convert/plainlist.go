package convert

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// startsList reports whether the list of ingredients begins at a line that has no heading
// over it: it or a sub-heading, and the next two, look like ingredients.
func (r *reader) startsList(i int) bool {
	if l := r.rows[i]; !amountLike(l) {
		_, ok := sectionLine(l)
		if !ok && !tableHead(l) || ok && r.d.title == "" && !forThe.MatchString(l.words) {
			return false
		}
	}
	seen, like := 0, 0
	for _, l := range r.rows[i:] {
		if l.blank {
			continue
		}
		if _, ok := sectionLine(l); ok || tableHead(l) {
			continue
		}
		if seen++; amountLike(l) {
			like++
		}
		if seen == 3 {
			break
		}
	}
	return like >= 2 || like == 1 && seen == 1
}

var (
	endsInAmount = regexp.MustCompile(`(?i)[\s:,–—-]\(?(?:\d[\d.,/]*|[½¼¾⅓⅔])\s*(?:%|g|kg|ml|l|dl|cl|oz|lb|lbs|cups?|tsp|tbsp|el|tl|gramm|liter|stück|pinch|prise)\.?\)?$`)
	figureFirst  = regexp.MustCompile(`^(?:[~≈]|(?i:about|ca\.?|approx\.?|circa)\s)?\s*(?:\d|[½¼¾⅓⅔⅛⅜⅝⅞])`)
)

// amountLike reports whether a line looks like an ingredient with its amount.
func amountLike(l line) bool {
	if len(l.cells) > 1 {
		return slices.ContainsFunc(l.cells, func(c string) bool { return figureFirst.MatchString(c) })
	}
	if len(l.words) > 140 || l.number && !measuredFirst.MatchString(l.words) || isYield(l.words) {
		return false
	}
	if figureFirst.MatchString(l.words) {
		return !strings.HasSuffix(l.words, ".") || len(l.words) < 60
	}
	return wordFirst.MatchString(l.words) || endsInAmount.MatchString(l.words)
}

// isMethod reports whether a line among ingredients without a heading below is the first
// of the method.
func (r *reader) isMethod(l line) bool {
	if len(l.cells) > 1 || amountLike(l) && !l.number {
		return false
	}
	if _, ok := sectionLine(l); ok {
		return false
	}
	if l.number {
		return true
	}
	sentence := strings.HasSuffix(l.words, ".") || strings.HasSuffix(l.words, "!")
	many := strings.Count(l.words, " ")
	first, _ := utf8.DecodeRuneInString(l.words)
	return sentence && many >= 3 && unicode.IsUpper(first) || many > 12 || r.since > 0 && !l.bullet && sentence && many >= 2
}

// ingredient reads a line of the list of ingredients.
func (r *reader) ingredient(l line) {
	if len(l.cells) > 1 {
		r.table = append(r.table, l)
		return
	}
	r.endTable()
	if name, ok := sectionLine(l); ok {
		r.section = r.d.heading(name)
		return
	}
	if isYield(l.words) && !amountLike(l) || isMeta(l.words) {
		if isMeta(l.words) {
			r.d.notes = append(r.d.notes, l.words)
		} else {
			r.d.yields = append(r.d.yields, l.words)
		}
		return
	}
	if n := len(r.d.items); n > 0 && r.since == 0 && !l.bullet && goesOn(r.d.items[n-1].line, l) {
		r.d.items[n-1].line += " " + l.words
		return
	}
	r.d.item(l.words, r.section)
}

// goesOn reports whether a line is the rest of the ingredient above it, broken by a mail program.
func goesOn(above string, l line) bool {
	if amountLike(l) {
		return false
	}
	open := strings.Count(above, "(") > strings.Count(above, ")")
	first, _ := utf8.DecodeRuneInString(l.words)
	return open || unicode.IsLower(first) && (strings.HasSuffix(above, ",") || len(above) > 60)
}

// endTable reads the table under way.
func (r *reader) endTable() {
	readTable(r.d, r.table, r.section)
	r.table = nil
}

var forThe = regexp.MustCompile(`(?i)^(?:for (?:the|a|an|each) |für (?:den|die|das|eine?n?) |to (?:serve|finish|garnish|decorate)$|zum (?:servieren|garnieren|bestreuen)$)`)

// sectionLine reports whether a line is a sub-heading, and returns it: "For the pastry:".
func sectionLine(l line) (name string, ok bool) {
	words := strings.TrimSpace(l.words)
	if l.blank || words == "" || l.number || len(l.cells) > 1 || len(words) > 60 || figureFirst.MatchString(words) || isYield(words) && !forThe.MatchString(words) {
		return "", false
	}
	name = strings.TrimSpace(strings.TrimRight(words, ":"))
	switch few := strings.Count(name, " ") < 6; {
	case name == "" || strings.HasSuffix(name, "."):
		return "", false
	case l.level > 0, strings.HasSuffix(words, ":") && few:
		return name, true
	case forThe.MatchString(words) && few && !strings.Contains(words, ","):
		return name, true
	case !l.bullet && strings.ToUpper(words) == words && strings.Count(words, " ") < 4 && len(words) > 3 && isLetter([]rune(words)[0]) && isLetter([]rune(words)[1]):
		return name, true
	}
	return "", false
}
