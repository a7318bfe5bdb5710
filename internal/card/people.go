package card

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/document"
)

// mostCooks is the most cooks that a step can ask for.
const mostCooks = 20

// cookWords are the words for cooks behind a number.
var cookWords = []string{"cook", "cooks", "person", "people"}

// upTo reads how many cooks may share a step's hands-on time, "40 min, up to 3 cooks",
// and returns the fact without it.
func (p *parser) upTo(f document.Fact, s *Step) document.Fact {
	at := strings.LastIndex(strings.ToLower(f.Value), "up to ")
	if at <= 0 {
		return f
	}
	words := strings.Fields(f.Value[at+len("up to "):])
	if len(words) != 2 || !slices.Contains(cookWords, strings.ToLower(words[1])) {
		return f // no cooks: the time's own problem says what to type
	}
	n, err := strconv.Atoi(words[0])
	switch {
	case err != nil || n < 1:
		p.Err(f.ValueAt+at, `"up to `+words[0]+` `+words[1]+`" is nobody`, "", `write how many cooks may share the work, "up to 2 cooks", or take it out`)
	case n > mostCooks:
		p.Err(f.ValueAt+at, `"up to `+words[0]+` `+words[1]+`" is more than fit round a table`, "", `write a number up to `+strconv.Itoa(mostCooks))
	default:
		s.Cooks = n
	}
	f.Value = strings.TrimRight(f.Value[:at], " ,")
	return f
}

// attended reads whether somebody is at a waiting step all the time, "10 min, attended",
// and returns the fact without it.
func (p *parser) attended(f document.Fact, s *Step) document.Fact {
	low := strings.ToLower(f.Value)
	for _, w := range [...]string{"unattended", "attended"} {
		if rest, ok := strings.CutSuffix(low, w); ok && strings.TrimRight(rest, " ,") != "" {
			s.Attended, s.Left = w == "attended", w == "unattended"
			f.Value = strings.TrimRight(f.Value[:len(rest)], " ,")
			return f
		}
	}
	return f
}

// HandsText writes a hands-on time of the step with how many cooks may share it.
func (s *Step) HandsText(d document.Duration) string {
	text := d.String()
	switch {
	case s.Cooks == 0 || text == "":
		return text
	case s.Cooks == 1:
		return text + ", up to 1 cook"
	}
	return text + ", up to " + strconv.Itoa(s.Cooks) + " cooks"
}

// WaitText writes a waiting time of the step, and whether somebody is at it.
func (s *Step) WaitText(d document.Duration) string {
	text := d.String()
	switch {
	case text == "":
	case s.Attended:
		return text + ", attended"
	case s.Left:
		return text + ", unattended"
	}
	return text
}

// The words by which a step that waits is taken to need somebody all the time: a verb
// and, in the same clause, until when or how. Common practice, no source.
var (
	keptMoving = []string{"stir", "whisk", "beat", "churn", "swirl", "baste"} // beginnings of words
	allTheTime = []string{"until cold", "until cool", "constantly", "continuously", "all the time", "the whole time", "without stopping", "without a pause"}
)

// mostMoving is the longest wait, in seconds, that is taken to be attended by the
// step's words.
const mostMoving = 3600

// NeedsSomebody reports whether somebody is at the step while it waits: because the
// card says so, or, marked as assumed, by the step's words.
func (s *Step) NeedsSomebody() (needs, assumed bool) {
	if s.Attended || s.Left || s.Wait.IsZero() || s.Wait.High > mostMoving {
		return s.Attended, false
	}
	for _, clause := range strings.FieldsFunc(strings.ToLower(s.Sentence()), func(r rune) bool { return strings.ContainsRune(".;:!?", r) }) {
		verb := slices.IndexFunc(strings.Fields(clause), func(w string) bool {
			return slices.ContainsFunc(keptMoving, func(k string) bool { return strings.HasPrefix(w, k) })
		})
		if verb >= 0 && slices.ContainsFunc(allTheTime, func(how string) bool { return strings.Contains(clause, how) }) {
			return true, true
		}
	}
	return false, false
}
