package convert

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"hobside/internal/document"
)

// A stretch of time that a step names.
type timeSaid struct {
	low, high int // seconds
	form      document.Form
	attended  bool
	within    bool // part of another time: "every 10 minutes"
	keeping   bool // how long the result keeps
	at, end   int  // where in the text
}

const (
	timeUnit   = `(?:seconds?|secs?|sekunden?|sek\.?|minutes?|mins?\b\.?|minuten?|min\.|hours?|hrs?\b\.?|stunden?|std\.?|h\b|days?|tagen?|tage?|weeks?|wochen?|months?|monate?n?)`
	timeFigure = `(?:\d+(?:[.,]\d+)?(?:\s*[½¼¾⅓⅔]|\s+\d/\d)?|\d/\d|[½¼¾⅓⅔]|(?:a|an|one|two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty|forty|eine?r?|zwei|drei|vier|fünf|sechs|sieben|acht|zehn|zwölf|eineinhalb|anderthalb|zweieinhalb)\b)`
)

var (
	timeRange = regexp.MustCompile(`(?i)(?:^|[^\pL\d])(` + timeFigure + `)\s*(?:(?:-|–|—|to|or|bis|oder)\s*(` + timeFigure + `)\s*)?-?\s*(` + timeUnit + `)`)
	timeWords = regexp.MustCompile(`(?i)(?:^|[^\pL])(over ?night|über nacht|(?:an hour and a half|one and a half hours|one hour and a half)|(?:three[- ]quarters of an hour|dreiviertelstunde)|(?:half an hour|(?:a |eine )?halbe[n]? stunde|a half[- ]hour)|(?:a quarter of an hour|quarter of an hour|viertelstunde))`)
	minutesOn = regexp.MustCompile(`(?i)^\s*(?:and |und |,\s*)?(` + timeFigure + `)\s*(minutes?|mins?\b|minuten|min\b)`)
	rangeOn   = regexp.MustCompile(`(?i)^\s*(?:-|–|—|to|bis)\s*(` + timeFigure + `)\s*(` + timeUnit + `)`)
	aboutEnd  = regexp.MustCompile(`(?i)(?:about|around|approx(?:imately)?\.?|roughly|ca\.?|circa|etwa|rund|ungefähr|~)\s*$`)
	leastEnd  = regexp.MustCompile(`(?i)(?:at least|a minimum of|minimum|mindestens|wenigstens|or more)\s*(?:for\s*)?(?:another\s*)?$`)
	withinEnd = regexp.MustCompile(`(?i)\b` + withinWords + `\s*(?:about |ca\.? |the |another )?$`)
	eachSide  = regexp.MustCompile(`(?i)^\s*(?:\w+\.?\s*)?(?:on each side|each side|per side|a side|on both sides|von jeder seite|pro seite|je seite|auf jeder seite)`)
	agesEnd   = regexp.MustCompile(`(?i)\b(?:keeps?|will keep|stored?|lasts?|hält sich|halten sich|haltbar|aufbewahr\pL*|can be kept|good for|up to)\b[^.;]{0,50}$`)
	agesOn    = regexp.MustCompile(`(?i)^[^.;]{0,25}\b(?:ahead|in advance|beforehand|im voraus|haltbar)`)
)

// fixedTimes are times in words, in seconds.
var fixedTimes = []struct {
	word    string
	seconds int
}{{"and a half", 5400}, {"three", 2700}, {"dreiviertel", 2700}, {"quarter", 900}, {"viertel", 900}, {"half", 1800}, {"halbe", 1800}}

// nowAndThen say that a step which is stirred is left alone in between.
var nowAndThen = []string{"occasional", "once", "twice", "from time to time", "now and then", "every ", "gelegentlich", "ab und zu", "alle "}

// timesIn finds the times that a step names, in order.
func timesIn(s string) []timeSaid {
	var out []timeSaid
	for _, at := range timeWords.FindAllStringSubmatchIndex(s, -1) {
		t := timeSaid{at: at[2], end: at[3]}
		word := strings.ToLower(s[at[2]:at[3]])
		if strings.Contains(word, "night") || strings.Contains(word, "nacht") {
			t.low, t.high, t.form = 8*3600, 14*3600, document.Overnight
		} else {
			for _, f := range fixedTimes {
				if strings.Contains(word, f.word) {
					t.low, t.high = f.seconds, f.seconds
					break
				}
			}
		}
		out = append(out, t)
	}
	for from := 0; from < len(s); {
		at := timeRange.FindStringSubmatchIndex(s[from:])
		if at == nil {
			break
		}
		for i := range at {
			if at[i] >= 0 {
				at[i] += from
			}
		}
		t := timeAt(s, at)
		from = t.end
		if !slices.ContainsFunc(out, func(o timeSaid) bool { return o.at < t.end && t.at < o.end }) && t.high > 0 {
			out = append(out, t)
		}
	}
	slices.SortFunc(out, func(a, b timeSaid) int { return a.at - b.at })
	for i := range out {
		judge(s, &out[i])
	}
	return eitherOr(s, out)
}

var orElse = regexp.MustCompile(`(?i)^[\s,(]*(?:or|oder)\s+(?:(?:for|at|least|about|even|better|ideally|preferably|mindestens|besser|noch|etwa|ca\.)\s+)*$`)

// eitherOr joins times of which one will do, "at least 2 hours or overnight", to one: from the
// shortest to the longest, and at least the shortest where one of them says so or is overnight.
func eitherOr(s string, times []timeSaid) []timeSaid {
	var out []timeSaid
	for _, t := range times {
		last := len(out) - 1
		if last < 0 || !orElse.MatchString(s[out[last].end:t.at]) {
			out = append(out, t)
			continue
		}
		o := &out[last]
		open := func(f document.Form) bool { return f == document.AtLeast || f == document.Overnight }
		atLeast := open(o.form) || open(t.form)
		o.low, o.high, o.form, o.end = min(o.low, t.low), max(o.high, t.high), document.Range, t.end
		if atLeast {
			o.high, o.form = o.low, document.AtLeast
		}
	}
	return out
}

// timeAt reads the time that a match of timeRange found.
func timeAt(s string, at []int) timeSaid {
	t := timeSaid{at: at[2], end: at[7]}
	unit := secondsOf(s[at[6]:at[7]])
	low := number(s[at[2]:at[3]])
	high := low
	if at[4] >= 0 {
		high = number(s[at[4]:at[5]])
	}
	t.low, t.high = int(low*unit+.5), int(high*unit+.5)
	if unit == 3600 {
		if m := minutesOn.FindStringSubmatchIndex(s[t.end:]); m != nil {
			more := int(number(s[t.end+m[2]:t.end+m[3]])*60 + .5)
			t.low, t.high, t.end = t.low+more, t.high+more, t.end+m[1]
		}
	}
	if m := rangeOn.FindStringSubmatchIndex(s[t.end:]); m != nil && t.low == t.high {
		if to := int(number(s[t.end+m[2]:t.end+m[3]])*secondsOf(s[t.end+m[4]:t.end+m[5]]) + .5); to > t.low {
			t.high, t.end = to, t.end+m[1]
			if m := minutesOn.FindStringSubmatchIndex(s[t.end:]); m != nil {
				t.high, t.end = t.high+int(number(s[t.end+m[2]:t.end+m[3]])*60+.5), t.end+m[1]
			}
		}
	}
	if t.high > 366*86400 || t.low > t.high {
		t.low, t.high = 0, 0
	}
	return t
}

// judge says how a time was typed and what it is of.
func judge(s string, t *timeSaid) {
	before, after := s[:t.at], s[t.end:]
	switch {
	case t.form != document.Exact:
	case leastEnd.MatchString(before):
		t.form = document.AtLeast
	case t.low != t.high:
		t.form = document.Range
	case aboutEnd.MatchString(before):
		t.form = document.About
	}
	if eachSide.MatchString(after) {
		t.low, t.high = 2*t.low, 2*t.high
	}
	t.within = withinEnd.MatchString(before)
	t.keeping = t.high >= 12*3600 && (agesEnd.MatchString(before) && !strings.Contains(strings.ToLower(before), "leave") || agesOn.MatchString(after))
	t.attended = attended(s, *t)
}

// attended reports whether somebody is at a time of a step: by the words of its clause, and
// where they do not say by its length.
func attended(s string, t timeSaid) bool {
	clause := strings.ToLower(clauseOf(s, t.at, t.end))
	whole := clause
	now := func(w string) bool { return strings.Contains(whole, w) }
	for _, w := range stirring {
		at := strings.Index(clause, w)
		if at >= 0 && !slices.ContainsFunc(nowAndThen, now) {
			return true
		}
		if at > 0 {
			clause = clause[:at] // what is said of the time without the stirring
		}
	}
	if t.high > 2*3600 {
		return false
	}
	alone, busy := -1, -1
	for i, w := range strings.FieldsFunc(clause, func(r rune) bool { return !isLetter(r) && r != '-' }) {
		if slices.ContainsFunc(leftAlone, func(v string) bool { return strings.HasPrefix(w, v) }) {
			alone = i
		}
		if slices.ContainsFunc(attendedWords, func(v string) bool { return strings.HasPrefix(w, v) }) {
			busy = i
		}
	}
	if alone < 0 && busy < 0 {
		return t.high < 10*60
	}
	return busy > alone
}

// clauseOf returns the part of a sentence around a time, and where that has no verb before it,
// the sentence.
func clauseOf(s string, at, end int) string {
	from := strings.LastIndexAny(s[:at], ".;!?") + 1
	to := strings.IndexAny(s[end:], ".;!?")
	if to < 0 {
		to = len(s) - end
	}
	sentence := s[from : end+to]
	for _, and := range [...]string{" and ", " then ", ", ", " und ", " dann "} {
		if i := strings.LastIndex(s[from:at], and); i >= 0 && strings.Count(strings.TrimSpace(s[from+i:at]), " ") >= 2 {
			return s[from+i : end+to]
		}
	}
	return sentence
}

// number returns a figure, "1 ½" or "two".
func number(s string) float64 {
	s = strings.ToLower(strings.TrimSpace(s))
	if w := numbersInWords[s]; w != "" {
		s = w
	}
	for sign, of := range map[string]string{"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3"} {
		s = strings.ReplaceAll(s, sign, of)
	}
	total := 0.0
	for _, w := range strings.Fields(s) {
		over, under, ok := strings.Cut(w, "/")
		n, _ := strconv.ParseFloat(strings.ReplaceAll(over, ",", "."), 64)
		if d, err := strconv.ParseFloat(under, 64); ok && err == nil && d > 0 {
			n /= d
		}
		total += n
	}
	return total
}

// secondsOf returns how many seconds a unit of time has.
func secondsOf(unit string) float64 {
	switch u := strings.ToLower(unit); {
	case strings.HasPrefix(u, "se"):
		return 1
	case strings.HasPrefix(u, "mo"):
		return 30 * 86400
	case strings.HasPrefix(u, "m"):
		return 60
	case strings.HasPrefix(u, "h"), strings.HasPrefix(u, "st"):
		return 3600
	case strings.HasPrefix(u, "w"):
		return 7 * 86400
	}
	return 86400
}
