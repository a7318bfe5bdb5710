package convert

import (
	"regexp"
	"strings"

	"hobside/internal/quantity"
)

const numberWord = `(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|a|an|half a|ein|eine|einen|zwei|drei|vier|fünf|sechs|acht|zehn|zwölf)`

var (
	yieldLine  = regexp.MustCompile(`(?i)^(?:recipe |this )?` + yieldWords + `\b\s*:?\s*(?:about |approx(?:imately|\.)? |around |roughly |ca\.? |circa |etwa |up to )?(?:~|\d|[½¼¾]|` + numberWord + `\b)`)
	forPeople  = regexp.MustCompile(`(?i)^(?:for|für)\b`)
	yieldCount = regexp.MustCompile(`(?i)^(?:for |für )?(?:about |ca\.? |etwa )?(?:\d+|` + numberWord + `)(?:\s*(?:-|–|—|to|or|bis|oder)\s*(?:\d+|` + numberWord + `))?\s+` + people + `\b`)
	yieldBegin = regexp.MustCompile(`(?i)^(?:recipe |this )?` + yieldWords + `\b\s*:?\s*`)
	sizePhrase = regexp.MustCompile(`(?i)\(?\b\d+(?:[.,]\d+)?\s*(?:x|×)?\s*(?:\d+(?:[.,]\d+)?\s*)?-?\s*(?:cm|mm|inch(?:es)?|in\b|zoll|["”″])[\s-]*(?:(?:x|×)\s*\d+(?:[.,]\d+)?\s*(?:cm|mm|inch(?:es)?|in\b|["”″])\s*)?(?:round|square|deep|across|wide|diameter|springform)?\)?`)
	eachOf     = regexp.MustCompile(`(?i)\b(?:of|à|je|each|weighing|zu)\s*(?:about |ca\.? )?(\d[\d.,]*\s*(?:kg|g|oz|lb)\b)`)
	inBrackets = regexp.MustCompile(`\([^()]*\)`)
)

// isYield reports whether a line says what the recipe makes: "Serves 6–8", "Für 4 Personen".
func isYield(s string) bool {
	if len(s) > 80 {
		return false
	}
	if forPeople.MatchString(s) { // "for 4", and not "for 2 minutes"
		return yieldCount.MatchString(s) || len(s) < 12 && regexpForFew.MatchString(s)
	}
	return yieldLine.MatchString(s) && !timeAfter.MatchString(s) || yieldCount.MatchString(s)
}

var (
	regexpForFew = regexp.MustCompile(`(?i)^(?:for|für) (?:\d+|` + numberWord + `)\s*:?$`)
	timeAfter    = regexp.MustCompile(`(?i)^\S+\s*:?\s*\d+\s*(?:min|hour|std|stund)`)
)

// readMakes reads what the recipe gives from the first of the texts that says it.
func readMakes(texts []string, lang string) Makes {
	for _, s := range texts {
		if m := readYield(s, lang); m.Amount.Unit != nil {
			return m
		}
	}
	return Makes{}
}

// readYield reads one text: "Makes two 20 cm tarts" is 2 pieces.
func readYield(s, lang string) (m Makes) {
	m.Words = s
	rest := strings.TrimSpace(yieldBegin.ReplaceAllString(s, ""))
	said := rest == s // no word before it: "6 servings", "24"
	if at := eachOf.FindStringSubmatchIndex(rest); at != nil {
		if a, after, err := quantity.ParseAmount(rest[at[2]:at[3]]); err == nil && after == "" && a.Unit.Dim == quantity.Mass {
			m.Each = a
		}
		rest = rest[:at[0]] + rest[at[1]:]
	}
	rest = squeeze(sizePhrase.ReplaceAllString(rest, " "))
	rest = figures(rest, lang)
	if next, _, found := strings.Cut(rest, ";"); found {
		rest = next
	}
	a, noun, err := quantity.ParseAmount(rest)
	if err != nil || a.Unit == nil || a.ToTaste || a.Unit.Dim == quantity.Length {
		return Makes{Words: s}
	}
	if a.Unit == quantity.Each {
		a.Unit = yieldUnit(noun, forPeople.MatchString(s) || said && noun == "" || servesWord.MatchString(s))
	}
	if a.Unit.Dim != quantity.Count {
		m.Each = quantity.Amount{}
	}
	m.Amount = a
	return m
}

var (
	servesWord = regexp.MustCompile(`(?i)^(?:serves|feeds|enough for|reicht für|servings?|portions?|portionen|yields?\s*:?\s*\d+$)`)
	peopleWord = regexp.MustCompile(`(?i)^` + people + `\b`)
)

// yieldUnit returns the unit of what is counted: a loaf, a portion, else a piece.
func yieldUnit(noun string, eaten bool) *quantity.Unit {
	portion, _ := quantity.LookupUnit("portion")
	piece, _ := quantity.LookupUnit("piece")
	noun = squeeze(inBrackets.ReplaceAllString(noun, " "))
	if peopleWord.MatchString(noun) {
		return portion
	}
	first, _, _ := strings.Cut(noun, ".")
	list := strings.FieldsFunc(strings.ToLower(first), func(r rune) bool { return !isLetter(r) })
	for i, w := range list {
		if i > 3 || w == "of" || w == "with" || w == "as" {
			break
		}
		if peopleWord.MatchString(w) {
			return portion
		}
		name := w
		if german := unitsInGerman[w]; german != "" {
			name = german
		}
		if u, ok := quantity.LookupUnit(name); ok && u.Dim == quantity.Count && u != quantity.Each && len(name) > 1 {
			return u
		}
	}
	if eaten {
		return portion
	}
	return piece
}
