package convert

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"hobside/internal/document"
)

var (
	germanDegrees = regexp.MustCompile(`(?i)(\d+)\s*(?:-|–|bis)?\s*(\d*)\s*(?:grad\b(?:\s*celsius)?|°(?:\s*c\b)?)`)
	bareFan       = regexp.MustCompile(`(?i)\b(\d{2,3})\s*°?\s*c?\s*(fan|umluft|heißluft)\b`)
	fanFirst      = regexp.MustCompile(`(?i)\b(fan|umluft|heißluft)\s*(?:oven\s*)?:?\s*(?:bei\s*)?(\d{2,3})\b`)
	gasAlone      = regexp.MustCompile(`(?i)\bgas\s*(?:mark\s*)?(\d{1,2}|½|¼)\b`)
	coreWords     = regexp.MustCompile(`(?i)\b(?:core|internal|kern(?:temperatur)?|innen|in the (?:middle|centre|center|thickest)|thermometer|probe|inside)\b`)
	untilWords    = regexp.MustCompile(`(?i)(?:\buntil|\bbis)\s+(?:it is |it's |they are |they're |sie |es |er )?(\pL[^.;:()]{3,80}?)(?:[.;:]|,\s*(?:then|and then|about|dann)\b|\s+-\s|,\s*\d|\s+(?:then|dann)\s|$)`)
	setAside      = regexp.MustCompile(`(?i)\b(?:reserv(?:e|ing)|keep(?:ing)? back|sav(?:e|ing)|set(?:ting)? aside)\s+(?:about |all |some of )?(?:the|its|their)?\s*((?:egg |cooking |pasta |soaking |poaching |roasting )?(?:yolks?|whites?|milk|whey|fat|juices?|liquid|liquor|water|stock|brine|syrup|bones?|shells?|peel(?:ings)?|trimmings|stalks|oil|skins?|rinds?|zest|marinade|rendered fat|dripping))\b`)
	setAsideDE    = regexp.MustCompile(`(?i)\b(?:das |den |die )?(eiweiß|eigelb|kochwasser|nudelwasser|sud|bratensaft|einweichwasser|molke|saft|fett)\s+(?:dabei\s+)?(?:auffangen|aufheben|beiseite\s*stellen|zurückbehalten|aufbewahren)`)
)

// temperature returns the first temperature of a step in °C, and as a card has it.
func temperature(s string) (celsius float64, typed string, ok bool) {
	english := germanDegrees.ReplaceAllStringFunc(s, func(m string) string {
		p := germanDegrees.FindStringSubmatch(m)
		if strings.HasPrefix(strings.ToLower(s[strings.Index(s, m)+len(m):]), "f") {
			return m // "350°F"
		}
		if p[2] != "" {
			return p[1] + "–" + p[2] + " °C "
		}
		return p[1] + " °C "
	})
	if strings.Contains(s, "°F") || strings.Contains(s, "° F") {
		english = s
	}
	english = gasAlone.ReplaceAllString(english, "gas mark $1")
	if gas, figure := gasAlone.FindStringIndex(english), degreesAt.FindStringIndex(english); gas != nil && figure != nil && gas[0] < figure[0] {
		english = english[:figure[0]] // the gas mark comes first
	}
	at := len(english)
	if c, found := document.Temperature(english); found && document.PlausibleTemperature(c) {
		celsius, ok = c, true
	}
	for _, m := range [...][]int{bareFan.FindStringSubmatchIndex(english), fanFirst.FindStringSubmatchIndex(english)} {
		if ok || m == nil || m[0] > at {
			continue
		}
		digits := english[m[2]:m[3]]
		if digits[0] < '0' || digits[0] > '9' {
			digits = english[m[4]:m[5]]
		}
		if n, err := strconv.ParseFloat(digits, 64); err == nil && n >= 50 && n <= 300 {
			celsius, ok = n, true
		}
	}
	if !ok {
		return 0, "", false
	}
	celsius = math.Round(celsius)
	typed = degrees(celsius)
	low := strings.ToLower(s)
	fan := strings.Contains(low, "fan") || strings.Contains(low, "umluft") || strings.Contains(low, "heißluft")
	if fan && !otherThanFan.MatchString(low) {
		typed += " fan"
	}
	return celsius, typed, true
}

// degrees writes a temperature.
func degrees(celsius float64) string { return strconv.FormatFloat(celsius, 'f', 0, 64) + " °C" }

// coreOf returns the core temperature that a step asks for.
func coreOf(s string) (celsius float64, ok bool) {
	at := coreWords.FindStringIndex(s)
	if at == nil || strings.Contains(strings.ToLower(s), "oil") {
		return 0, false
	}
	c, _, ok := temperature(s[at[0]:])
	if !ok {
		c, _, ok = temperature(s)
	}
	return c, ok && c >= 45 && c <= 100
}

// degreesAt finds a figure in degrees.
var degreesAt = regexp.MustCompile(`(?i)\d+\s*(?:°|º|degrees|deg\b|c\b|f\b)`)

// otherThanFan finds the temperature of an oven without a fan beside that with one.
var otherThanFan = regexp.MustCompile(`(?i)\d\s*°?\s*c?\s*[(/,;|]|(?:fan|umluft)\D{0,20}\d+[^\d]{0,6}\)|ober`)

// equipmentIn returns the equipment of the standard list that a step's words name or mean.
func equipmentIn(s string) []string {
	low := strings.ToLower(s)
	var out []string
	for _, e := range equipmentWords {
		if wordAt(low, e.word) < 0 || contains(out, e.name) {
			continue
		}
		if e.name == "hob" && (contains(out, "oven") || contains(out, "fryer") || contains(out, "microwave") || contains(out, "grill")) && !strings.Contains(low, "pan") && !strings.Contains(low, "simmer") {
			continue
		}
		if e.name == "blender" && contains(out, "stick blender") || e.name == "fridge" && strings.Contains(low, "from the fridge") {
			continue
		}
		if _, ok := document.FindEquipment(e.name); ok {
			out = append(out, e.name)
		}
	}
	return out
}

// wordAt returns where a word begins in a text in lower case, −1 where it does not. A word
// of German may be the end of another one: "Backofen".
func wordAt(low, word string) int {
	for from := 0; ; {
		i := strings.Index(low[from:], word)
		if i < 0 {
			return -1
		}
		at := from + i
		if end := at + len(word); wholeWords[word] && end < len(low) && isWordBegin(low[end:]) {
			from = end
			continue
		}
		if at == 0 || !isLetter(runeBefore(low, at)) || word == "ofen" || word == "topf" || word == "backen" || word == "dünsten" || word == "pfanne" {
			return at
		}
		from = at + len(word)
	}
}

// wholeWords are words that begin others that mean something else: "chill" begins "chilli".
var wholeWords = map[string]bool{"bake": true, "chill": true, "oven": true, "grill": true, "blender": true}

func runeBefore(s string, at int) rune {
	r := []rune(s[max(0, at-4):at])
	return r[len(r)-1]
}

// signOfDone returns the words behind "until" of a step, "" where it has none that read well.
func signOfDone(s string) string {
	m := untilWords.FindStringSubmatch(s)
	if m == nil {
		return ""
	}
	words := strings.TrimSpace(strings.Trim(m[1], " ,"))
	if strings.ContainsAny(words, "*_`[]<>|\\&0123456789") || strings.Count(words, " ") > 12 {
		return ""
	}
	return words
}
