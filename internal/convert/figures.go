package convert

import (
	"regexp"
	"strings"
)

const figure1 = `(?:\d+(?:[.,]\d+)?(?:\s*[½¼¾⅓⅔⅛⅜⅝⅞]|\s+\d/\d+)?|\d+/\d+|[½¼¾⅓⅔⅛⅜⅝⅞])`

var (
	germanNumber = regexp.MustCompile(`(?i)^(?:(?:ca\.?|etwa|circa|ungefähr|rund|knapp|gut)\s+)?(ein|eine|einen|einer|zwei|drei|vier|fünf|sechs|sieben|acht|neun|zehn|elf|zwölf|halbe|halber|halbes|anderthalb|eineinhalb)\s`)
	germanUnit   = regexp.MustCompile(`^(` + figure1 + `(?:\s*(?:-|–|—|bis|oder)\s*` + figure1 + `)?)\s*(?i:(?:große|kleine|gehäufte|gestrichene|geh\.|gestr\.|große[rsn]?|kleine[rsn]?)\s+)?(\pL+)\.?(\s|$)`)
	germanSize   = regexp.MustCompile(`^` + figure1 + `(?:\s*(?:-|–|—|bis|oder)\s*` + figure1 + `)?\s*((?i:große|kleine|gehäufte|gestrichene|geh\.|gestr\.|großer|kleiner|großes|kleines))\s+\pL+`)
	bareUnit     = regexp.MustCompile(`^(?i)(prise|prisen|bund|schuss|spritzer|handvoll|messerspitze|msp\.?)\s`)
	germanAbout  = regexp.MustCompile(`^(?i)(?:ca\.?|etwa|circa|ungefähr|rund)\s+(\d|[½¼¾])`)
	germanRange  = regexp.MustCompile(`^(` + figure1 + `)\s*(?:bis|oder)\s*(` + figure1 + `)`)
)

// figures returns a text whose amount at the front is in words that package quantity reads.
// German numbers, units and ranges become English ones.
func figures(s, lang string) string {
	s = strings.TrimSpace(s)
	if lang != "de" {
		return s
	}
	about := ""
	if m := germanAbout.FindStringSubmatchIndex(s); m != nil {
		about, s = "about ", s[m[2]:]
	}
	if m := germanNumber.FindStringSubmatchIndex(s); m != nil {
		if n := numbersInWords[strings.ToLower(s[m[2]:m[3]])]; n != "" {
			s = n + s[m[3]:]
		}
	}
	if strings.HasPrefix(s, "1 halbe") {
		if _, after, ok := strings.Cut(s[2:], " "); ok {
			s = "1/2 " + after
		}
	}
	if m := bareUnit.FindStringSubmatch(s); m != nil {
		s = "1 " + s
	}
	s = germanRange.ReplaceAllString(s, "$1–$2")
	size := ""
	if m := germanSize.FindStringSubmatch(s); m != nil {
		size = m[1]
	}
	if m := germanUnit.FindStringSubmatchIndex(s); m != nil {
		word := strings.ToLower(s[m[4]:m[5]])
		if word == "pfund" || word == "pfd" {
			return about + pounds(s[m[2]:m[3]]) + " g " + strings.TrimSpace(s[m[6]:])
		}
		if unit := unitsInGerman[word]; unit != "" {
			end := strings.TrimSpace(s[m[6]:])
			if size != "" && end != "" {
				end += ", " + size
			}
			return strings.TrimSpace(about + s[m[2]:m[3]] + " " + unit + " " + end)
		}
	}
	return about + s
}

// pounds returns German pounds of 500 g in grams; the figure stays with its unit where it
// is none of the usual ones.
func pounds(n string) string {
	if g := map[string]string{"1": "500", "2": "1000", "3": "1500", "4": "2000", "1/2": "250", "½": "250", "1 1/2": "750", "1½": "750", "1 ½": "750"}[n]; g != "" {
		return g
	}
	return n + " x 500"
}
