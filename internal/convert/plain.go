package convert

import (
	"regexp"
	"strings"
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
