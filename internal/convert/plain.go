package convert

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hobside/internal/document"
)

// A reader reads the lines of one recipe.
type reader struct {
	d          *draft
	rows       []line
	now        part
	section    string
	headed     bool   // a heading over the ingredients comes, or has come
	methodHead bool   // the same of the method
	table      []line // rows of a table under way
	method     []line // lines of the method
	heading    string // over the notes under way
	since      int    // blank lines since the last words
}

// readLines returns the recipes of a text.
func readLines(rows []line, form string) []*draft {
	var out []*draft
	var aside []string // words between recipes
	for _, chunk := range recipesIn(rows) {
		r := &reader{d: &draft{form: form}, rows: chunk}
		r.read()
		if len(r.d.items)+len(r.d.steps) > 0 {
			r.d.notes = append(r.d.notes, aside...)
			aside = nil
			out = append(out, r.d)
		} else {
			aside = append(aside, r.d.rest()...)
		}
	}
	if len(out) > 0 {
		last := out[len(out)-1]
		last.notes = append(last.notes, aside...)
	}
	return out
}

// recipesIn parts a text that has several recipes, each with its own list of ingredients.
func recipesIn(rows []line) [][]line {
	var lists, starts []int
	cooking := false // a method has begun since the last list
	for i, l := range rows {
		switch p, _ := partOf(l); p {
		case partIngredients:
			if len(lists) == 0 || cooking {
				lists = append(lists, i)
			}
			cooking = false
		case partMethod:
			cooking = true
		}
	}
	if len(lists) < 2 {
		return [][]line{rows}
	}
	for n, at := range lists[1:] {
		starts = append(starts, titleBefore(rows, lists[n]+1, at))
	}
	var out [][]line
	from := 0
	for _, s := range starts {
		if s > from {
			out = append(out, rows[from:s])
			from = s
		}
	}
	return append(out, rows[from:])
}

// titleBefore returns the row of the title over the list of ingredients at a row: the last
// heading of the highest rank, or else the last line that may be one.
func titleBefore(rows []line, from, at int) int {
	best := at
	for i := at - 1; i > from; i-- {
		l := rows[i]
		switch {
		case l.level > 0 && (best == at || rows[best].level == 0 || l.level < rows[best].level):
			if p, _ := partOf(l); p == partTop {
				best = i
			} else {
				return best
			}
		case best == at && titleLike(l) && i > 0 && rows[i-1].blank && !isYield(l.words):
			best = i
		}
		if l.level == 1 {
			break
		}
	}
	return best
}

// partOf returns the part of a recipe that a line is the heading of, partTop for none. Rest
// is what it says behind that: "for 4 people".
func partOf(l line) (p part, rest string) {
	if l.blank || l.number || len(l.words) > 80 || len(l.cells) > 1 {
		return partTop, ""
	}
	bare := strings.Trim(l.words, " :.-–—*")
	low := strings.ToLower(bare)
	if len(low) != len(bare) {
		return partTop, ""
	}
	if p := headings[low]; p != partTop && (l.level > 0 || !l.bullet) {
		return p, ""
	}
	for end := 1; end < len(low); end++ {
		if !strings.ContainsRune(" (:", rune(low[end])) {
			continue
		}
		p, tail := headings[low[:end]], strings.TrimLeft(bare[end:], " (:")
		if p == partIngredients && (isYield(tail) || yieldCount.MatchString(tail) || forSome.MatchString(tail)) {
			return p, tail
		}
		if p != partTop && l.level > 0 && p != partNotes && !document.BeginsWithAmount(tail) && len(tail) < 30 && !forThe.MatchString(tail) {
			return p, tail
		}
	}
	return partTop, ""
}

func (r *reader) read() {
	for _, l := range r.rows {
		switch p, _ := partOf(l); p {
		case partIngredients:
			r.headed = true
		case partMethod:
			r.methodHead = true
		}
	}
	for i, l := range r.rows {
		if l.blank {
			r.since++
			if r.now == partMethod {
				r.method = append(r.method, l)
			}
			if len(l.cells) == 0 && l.raw == "" {
				r.endTable()
			}
			continue
		}
		r.line(i, l)
		r.since = 0
	}
	r.endTable()
	readMethod(r.d, r.method, "")
}

// line reads one line by where it stands.
func (r *reader) line(i int, l line) {
	if p, rest := partOf(l); p != partTop {
		r.endTable()
		r.now, r.section, r.heading = p, "", ""
		switch {
		case rest != "" && p == partIngredients && (isYield(rest) || yieldCount.MatchString(rest) || forSome.MatchString(rest)):
			r.d.yields = append(r.d.yields, rest)
		case rest != "":
			r.d.notes = append(r.d.notes, l.words)
		}
		if p == partNotes {
			r.heading = strings.Trim(l.words, " :")
		}
		return
	}
	if r.now != partNotes && r.now != partTop && signOff.MatchString(l.words) && !l.number && !l.bullet {
		r.now, r.heading = partNotes, ""
	}
	if noteLine.MatchString(l.words) && r.now != partTop && !l.number {
		r.endTable()
		r.d.notes = append(r.d.notes, l.words)
		return
	}
	switch r.now {
	case partTop:
		if !r.headed && r.startsList(i) {
			r.now = partIngredients
			r.ingredient(l)
			return
		}
		if !r.methodHead && !r.headed && l.number && len(r.d.items) == 0 && r.d.title != "" && strings.Count(l.words, " ") > 1 {
			r.now = partMethod
			r.method = append(r.method, l)
			return
		}
		r.top(l)
	case partIngredients:
		if !r.methodHead && len(r.d.items)+len(r.table) > 0 && r.isMethod(l) {
			r.endTable()
			r.now = partMethod
			r.method = append(r.method, l)
			return
		}
		r.ingredient(l)
	case partMethod:
		if isMeta(l.words) {
			r.d.notes = append(r.d.notes, l.words)
			return
		}
		if isYield(l.words) && !l.number && len(r.d.yields) == 0 && len(l.words) < 50 {
			r.d.yields = append(r.d.yields, l.words)
			return
		}
		r.method = append(r.method, l)
	case partNotes:
		r.note(l)
	}
}

// note keeps a line for the notes, under its heading.
func (r *reader) note(l line) {
	words := l.words
	if len(l.cells) > 1 {
		words = strings.Join(l.cells, ", ")
	}
	if r.heading != "" {
		words, r.heading = r.heading+": "+words, ""
	}
	r.d.notes = append(r.d.notes, words)
}

var (
	greeting = regexp.MustCompile(`(?i)^(?:hello|hi|dear|hey|hallo|liebe|lieber|guten tag|servus|moin)\b`)
	signOff  = regexp.MustCompile(`(?i)^(?:love(?: to| from|,|$)|best(?: wishes|,|$)|cheers\b|(?:kind |warm )?regards|yours\b|liebe grüße|viele grüße|herzliche grüße|gruß\b|lg\b|vg\b|guten appetit|enjoy[!.]|see you\b|bye\b|sent from my|--$|x+$)`)
	meta     = regexp.MustCompile(`(?i)^(?:prep(?:aration)?|cook(?:ing)?|total|active|hands-on|bak(?:e|ing)|rest(?:ing)?|chill(?:ing)?|ready in|time|zeit|vorbereitungs?|koch|back|gesamt|arbeits|ruhe|difficulty|schwierigkeit|schwierigkeitsgrad|author|by|source|quelle|category|cuisine|course|oven|level|cost)(?:\s*-?\s*(?:time|zeit|dauer))?\s*:\s*\S`)
)

// forSome is what stands behind "Ingredients": "for 1 tray (about 20 pieces)".
var forSome = regexp.MustCompile(`(?i)^(?:for|für) (?:\d+|` + numberWord + `)\b`)

// noteLine is a line of notes with its heading in front.
var noteLine = regexp.MustCompile(`(?i)^(?:tipp?s?|notes?|hinweise?|anmerkung(?:en)?|variations?|variante|storage|aufbewahrung|p\.?s\.?)\s*:\s+\S`)

// isMeta reports whether a line says something about the recipe as a whole: "Prep time: 20 min".
func isMeta(s string) bool { return len(s) < 100 && meta.MatchString(s) }

// top reads a line above the ingredients.
func (r *reader) top(l line) {
	if len(l.cells) > 1 {
		for _, cell := range l.cells {
			if cell != "" {
				r.top(line{words: cell, raw: cell})
			}
		}
		return
	}
	switch {
	case isYield(l.words):
		r.d.yields = append(r.d.yields, l.words)
	case isMeta(l.words):
		r.d.notes = append(r.d.notes, l.words)
	case r.d.title == "" && titleLike(l):
		r.d.title = strings.TrimSpace(titleWord.ReplaceAllString(l.words, ""))
	case l.level == 1 && r.d.title != "" && len(r.d.items) == 0:
		r.d.intro = append(r.d.intro, r.d.title)
		r.d.title = l.words
	default:
		if n := len(r.d.intro); n > 0 && r.since == 0 && r.d.title != "" && !l.bullet && l.level == 0 {
			r.d.intro[n-1] += " " + l.words // a paragraph goes on
			return
		}
		r.d.intro = append(r.d.intro, l.words)
	}
}

// titleWord is a word before a title that says it is one.
var titleWord = regexp.MustCompile(`(?i)^(?:title|recipe|rezept|name)\s*:\s*`)

// titleLike reports whether a line may be a title.
func titleLike(l line) bool {
	if l.level > 0 {
		return true
	}
	last, _ := utf8.DecodeLastRuneInString(l.words)
	return !l.bullet && !l.number && len(l.words) <= 90 && !greeting.MatchString(l.words) && !strings.ContainsRune(".,;:", last) && !strings.Contains(l.words, ". ")
}

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
