package kitchen

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// frontWords are the words a kitchen's front matter may have, besides standard
// equipment. Kitchens written for the first release say hands for cooks.
var frontWords = []string{"cooks", "hands", "rules", "altitude", "zone", "deliveries", "breaks"}

// Parse reads a kitchen. File is its name, for its ID and the problems. The
// kitchen is never nil and holds what could be read.
func Parse(file string, src []byte) (*Kitchen, []document.Problem) {
	p := &parser{File: document.Open(file, src)}
	p.MeasureBy(quantity.USMeasures)
	p.kitchen = &Kitchen{ID: document.ID(file), File: file, Source: src}
	p.front()
	p.blocks()
	p.finish()
	return p.kitchen, p.Done()
}

// parser reads one kitchen. Its methods for equipment, hours and prices are in
// the files of those names.
type parser struct {
	*document.File
	kitchen     *Kitchen
	faultyHours bool // hours were given, and have a problem
	breaksAt    int  // where the breaks are given
}

// front reads the words of the front matter.
func (p *parser) front() {
	k := p.kitchen
	for _, f := range p.Front {
		switch f.Word {
		case "cooks", "hands":
			p.cooks(f)
		case "rules":
			k.Rules = p.Rules(f)
		case "altitude":
			n, ok := metres(f.Value)
			if !ok || n < -430 || n > 6000 {
				p.Err(f.ValueAt, `"`+f.Value+`" is not an altitude`, "", `write it in metres, like "altitude: 20 m"`)
				continue
			}
			k.AltitudeM = n
		case "zone":
			if !isZone(f.Value) {
				p.Err(f.ValueAt, `"`+f.Value+`" is not a time zone`, "", `write its area and its city, like "zone: Europe/London", or leave the line out`)
				continue
			}
			k.Zone = f.Value
		case "breaks":
			p.breaks(f)
		case "deliveries":
			f.Split(func(part string, at int) {
				if day, ok := document.ParseWeekday(part); ok {
					k.Deliveries = append(k.Deliveries, day)
				} else {
					p.Err(at, `"`+part+`" is not a day of the week`, "", `write it like "deliveries: Thursday, Saturday"`)
				}
			})
		default:
			if e, ok := document.FindEquipment(f.Word); ok {
				p.equipment(e.Name, f)
				continue
			}
			p.UnknownWord(f, frontWords)
		}
	}
}

// cooks reads "2" or "first cook, second cook".
func (p *parser) cooks(f document.Fact) {
	const most = 50
	k := p.kitchen
	if n, err := strconv.Atoi(f.Value); err == nil {
		if n < 1 || n > most {
			p.Err(f.ValueAt, f.Value+" cooks", "", "write how many people cook, from 1 to "+strconv.Itoa(most))
			return
		}
		for i := range n {
			k.Cooks = append(k.Cooks, "cook "+strconv.Itoa(i+1))
		}
		return
	}
	wrong := false
	f.Split(func(part string, at int) {
		if len(k.Cooks) == most {
			p.Err(at, "more than "+strconv.Itoa(most)+" cooks", "", "name fewer")
			return
		}
		if !isOneName(part) {
			wrong = true
			p.Err(at, `"`+part+`" is not the name of one cook`, "", `write a comma between two cooks: "cooks: first cook, second cook"`)
			return
		}
		k.Cooks = append(k.Cooks, part)
	})
	if len(k.Cooks) == 0 && !wrong {
		p.Err(f.ValueAt, "a kitchen without a cook", "", `write how many people cook, like "cooks: 2"`)
	}
}

// isZone reports whether a word has the form of a zone of the IANA database: an area and
// a city, "America/New_York", or UTC. Which zones there are is known only where the
// database is.
func isZone(word string) bool {
	area, city, ok := strings.Cut(word, "/")
	odd := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("/_-+", r)
	}
	return word == "UTC" || ok && area != "" && city != "" && !strings.ContainsFunc(word, odd)
}

// isOneName reports whether words between two commas can be the name of one cook. A
// sign, a wide gap, "and" or a word that comes twice ("first cook second cook") says
// that there are two.
func isOneName(words string) bool {
	notInAName := func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) && !strings.ContainsRune(" '’-.", r)
	}
	if strings.ContainsFunc(words, notInAName) || strings.Contains(words, "  ") {
		return false
	}
	seen := map[string]bool{"and": true}
	for _, w := range strings.Fields(strings.ToLower(words)) {
		if seen[w] {
			return false
		}
		seen[w] = true
	}
	return true
}

// sections are the headings of a kitchen below which there are lists to read.
var sections = []string{"equipment", "prices", "hours", "open", "opening hours"}

// blocks reads the lists below the headings, top to bottom. Text that is below none of
// the headings is for the reader; a list there is a problem, because it looks as if it
// would be read.
func (p *parser) blocks() {
	section := ""
	for n := p.Root.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok {
			section = p.heading(h)
			continue
		}
		l, isList := n.(*ast.List)
		switch {
		case isList && slices.Contains(sections, section):
			for item := l.FirstChild(); item != nil; item = item.NextSibling() {
				p.line(section, item)
			}
		case isList:
			p.Warn(document.Start(l), "this list is not read", "", `put it below "## Equipment", "## Hours" or "## Prices"`)
		case slices.Contains(sections, section):
			p.NotRead(n)
		}
	}
}

// heading takes the kitchen's title, or returns the section that a heading begins.
func (p *parser) heading(h *ast.Heading) (section string) {
	words, at := p.Text(h)
	words = strings.TrimSpace(words)
	if h.Level == 1 && p.kitchen.Title == "" {
		p.kitchen.Title = words
		return ""
	}
	section = strings.ToLower(strings.TrimRight(words, ": "))
	hint := document.Nearest(section, sections)
	switch {
	case hint != "" && hint != section:
		p.Err(max(at, 0), `no section "`+words+`"`, hint, "")
	case h.Level == 1 && hint == "":
		p.Err(max(at, 0), `"`+document.Clip(words)+`" is a second title, and nothing of it is read`, "", `begin a line of a list with "- ", a section with "## "`)
	}
	return section
}

// line reads one line of a section's list.
func (p *parser) line(section string, item ast.Node) {
	if !p.OneLine(item) {
		return
	}
	switch section {
	case "equipment":
		p.equipmentLine(item)
	case "prices":
		p.price(item)
	default:
		p.hoursLine(item)
	}
}

// metres reads "20 m" or "20". ok is false for anything else.
func metres(s string) (n int, ok bool) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "m"))
	n, err := strconv.Atoi(s)
	return n, err == nil
}

// finish adds the problems of the kitchen as a whole.
func (p *parser) finish() {
	k := p.kitchen
	if p.Root.FirstChild() == nil && len(p.Front) == 0 {
		return // nothing could be read, and the problem says why
	}
	if k.Title == "" {
		p.Warn(0, "the kitchen has no title", "", `begin it with "# " and its name`)
	}
	if len(k.Equipment) == 0 {
		p.Warn(0, "the kitchen has no equipment", "", `add "## Equipment" and a list: "- hob: 4 rings"`)
	}
	if len(k.Hours) == 0 && !p.faultyHours {
		p.Warn(0, "the kitchen has no hours", "", `add "## Hours" and a list: "- Saturday 08:00–24:00"`)
	}
	p.checkBreaks()
}
