package convert

import (
	"regexp"
	"strings"
	"unicode"
)

// A line is one line of a text or of the visible part of a page.
type line struct {
	words  string   // without bullet, number or mark-up
	level  int      // of a heading, from 1; 0 for other lines
	bullet bool     // it has a bullet
	number bool     // it has a step's number
	cells  []string // of a row of a table
	blank  bool
	inner  bool   // it is set in, as the rest of a list item is
	raw    string // as the source has it
}

func isLetter(r rune) bool { return unicode.IsLetter(r) }

var (
	atxHeading = regexp.MustCompile(`^(#{1,6})\s+(.*?)\s*#*$`)
	bulleted   = regexp.MustCompile(`^\s*(?:[-*+•·–—▪◦‣●○∙□☐✓]|\[[ xX]?\])\s+(?:\[[ xX]?\]\s+)?(.*)$`)
	numbered   = regexp.MustCompile(`^\s*(?:(?i:step|schritt)\s*)?(\d{1,3})\s*[.):]\s+(.*)$`)
	stepNumber = regexp.MustCompile(`^\s*(?i:step|schritt)\s*(\d{1,3})\s*[.):–—-]*\s*(.*)$`)
	boldLine   = regexp.MustCompile(`^\s*(?:\*\*|__)([^*_]+)(?:\*\*|__)\s*:?\s*$`)
	ruler      = regexp.MustCompile(`^\s*(?:[-=_*~#]\s*){3,}$`)
	tableRule  = regexp.MustCompile(`^\s*\|?\s*:?-{2,}:?\s*(\|\s*:?-{2,}:?\s*)*\|?\s*$`)
	mdLink     = regexp.MustCompile(`!?\[([^\]]*)\]\(([^)\s]*)[^)]*\)`)
	mdEmphasis = regexp.MustCompile(`(\*\*|__)([^*_]+?)(\*\*|__)`)
	mdStress   = regexp.MustCompile(`(^|[\s(])[*_]([^*_\s][^*_]*?)[*_]([\s.,;:!?)]|$)`)
)

// lines takes a text apart.
func lines(s string) []line {
	var out []line
	rows := strings.Split(s, "\n")
	for i := 0; i < len(rows); i++ {
		raw := strings.TrimRight(rows[i], " \t")
		l := line{raw: strings.TrimSpace(raw), words: squeeze(raw)}
		next := ""
		if i+1 < len(rows) {
			next = strings.TrimSpace(rows[i+1])
		}
		switch {
		case l.words == "":
			l.blank = true
		case tableRule.MatchString(raw) && strings.Contains(raw, "|"), ruler.MatchString(raw):
			l.blank = true // a rule has no words
		case len(next) > 2 && (strings.Trim(next, "=") == "" || strings.Trim(next, "-") == "") && !strings.Contains(raw, "|"):
			l.words = plain(l.words)
			l.level = 2
			if next[0] == '=' {
				l.level = 1
			}
			i++
		default:
			l.inner = strings.HasPrefix(raw, "  ") || strings.HasPrefix(raw, "\t")
			mark(&l, raw)
		}
		out = append(out, l)
	}
	return out
}

// mark reads the heading, bullet, number or cells of a line.
func mark(l *line, raw string) {
	switch {
	case atxHeading.MatchString(l.words):
		m := atxHeading.FindStringSubmatch(l.words)
		l.level, l.words = len(m[1]), plain(m[2])
	case boldLine.MatchString(raw):
		l.level, l.words = 4, plain(boldLine.FindStringSubmatch(raw)[1])
	case strings.HasPrefix(l.words, "|") && strings.Count(l.words, "|") > 1 || strings.Count(l.words, " | ") > 0:
		for cell := range strings.SplitSeq(strings.Trim(l.words, "|"), "|") {
			l.cells = append(l.cells, plain(strings.TrimSpace(cell)))
		}
		l.words = plain(strings.Join(l.cells, " "))
	case strings.Contains(strings.TrimSpace(raw), "\t"):
		for cell := range strings.SplitSeq(strings.Trim(raw, "\n"), "\t") {
			l.cells = append(l.cells, squeeze(cell))
		}
	case numbered.MatchString(raw):
		l.number, l.words = true, plain(squeeze(numbered.FindStringSubmatch(raw)[2]))
	case stepNumber.MatchString(raw):
		l.number, l.words = true, plain(squeeze(stepNumber.FindStringSubmatch(raw)[2]))
	case bulleted.MatchString(raw):
		l.bullet, l.words = true, plain(squeeze(bulleted.FindStringSubmatch(raw)[1]))
	default:
		l.words = plain(l.words)
	}
}

// plain returns words without Markdown's mark-up. A link keeps its words.
func plain(s string) string {
	if strings.ContainsAny(s, "[*_\\`") {
		s = mdLink.ReplaceAllString(s, "$1")
		s = mdEmphasis.ReplaceAllString(s, "$2")
		s = mdStress.ReplaceAllString(s, "$1$2$3")
		s = strings.NewReplacer(`\*`, "*", `\_`, "_", `\[`, "[", `\]`, "]", `\#`, "#", "`", "").Replace(s)
	}
	return strings.TrimSpace(s)
}

// squeeze returns a text on one line, with single plain spaces and without control characters.
func squeeze(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) }), " ")
}
