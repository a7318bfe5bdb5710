package menu

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// courseLine reads one line of a course: a link to a card, or the time at which
// the course is served.
func (p *parser) courseLine(course int, item ast.Node) {
	block := item.FirstChild()
	if block == nil {
		return
	}
	p.readLines(block)
	c := &p.menu.Courses[course]
	l := document.LinkIn(block)
	if l == nil {
		f, ok := p.ItemFact(item)
		if ok {
			p.courseFact(course, f)
		}
		return
	}
	line, at := p.Lines(block)
	unread := func() { p.unreadPlate(course, line) }
	name, nameAt := p.Text(l)
	if nameAt < 0 {
		nameAt = max(at, 0)
	}
	if strings.TrimSpace(name) == "" {
		p.Err(nameAt, "a link without a name", "", `write what the plate is called between the brackets, like "[Soup](soup.md)"`)
		unread()
		return
	}
	id, save, ok := document.Target(l)
	if !ok {
		p.Err(nameAt, `the link "`+name+`" is not to a card`, "", `link to the card's file, like "[Soup](soup.md)"`)
		unread()
		return
	}
	if save != "" {
		p.Err(nameAt, "a by-product can't be served by itself", "", "link to a card that uses it")
		unread()
		return
	}
	before, rest, inline := strings.Cut(line, "](")
	if before = strings.TrimLeft(before, " *_"); !inline || !strings.HasPrefix(before, "[") || strings.Contains(before, "]") {
		p.Err(max(at, 0), "what is before the link is not read", "", `begin the line with the link, and write behind it how much and for whom: "[Soup](soup.md): for no fish"`)
	}
	plate := Plate{Card: id, Name: strings.TrimSpace(name), Pos: p.Place(nameAt)}
	_, rest, _ = strings.Cut(rest, ")")
	says := strings.TrimLeft(rest, " :–—,*")
	p.plateSays(&plate, document.Fact{Value: strings.TrimSpace(says), ValueAt: at + len(line) - len(says)})
	if len(plate.For) > 0 && !hasPlain(c.Plates) {
		p.Err(nameAt, "there is no plate above it that this one could replace", "", "put the plate for everybody first")
	}
	c.Plates = append(c.Plates, plate)
}

// hasPlain reports whether one of the plates is for everybody.
func hasPlain(plates []Plate) bool {
	for _, p := range plates {
		if len(p.For) == 0 {
			return true
		}
	}
	return false
}

// plateSays reads what follows the link: "90 g per cover, for no fish".
func (p *parser) plateSays(plate *Plate, f document.Fact) {
	inFor := false
	f.Split(func(part string, at int) {
		low := strings.ToLower(part)
		if what, ok := strings.CutPrefix(low, "for "); ok {
			inFor, low = true, strings.TrimSpace(what)
		}
		if inFor {
			if ex, ok := p.excluded(low, at); ok {
				plate.For = append(plate.For, ex...)
			}
			return
		}
		a, rest, ok := p.Amount(part, at)
		if !ok {
			return
		}
		if a.Unit == nil {
			p.Err(at, `"`+part+`" is neither an amount nor guests it is for`, "", `write "90 g per cover" or "for no fish"`)
			return
		}
		switch strings.ToLower(strings.TrimSpace(rest)) {
		case "":
			if p.muchForOne(a, part, at) {
				return
			}
			plate.Amount = a
		case "per cover", "a cover", "/cover", "/ cover", "per guest", "a guest", "per person", "a person", "per head", "a head", "pp", "p.p.", "each", "for each":
			plate.Amount = a
		case "in all", "in total", "total", "altogether", "for all", "for everybody":
			p.Err(at, `"`+part+`" is for all covers`, "", p.forOne(a))
		default:
			p.Err(at+len(part)-len(rest), `"`+rest+`" after an amount is not understood`, "", `write "90 g per cover"`)
		}
	})
}

// What one cover gets at most of one card where nothing says that an amount is for one cover:
// 500 g or 500 ml, and three pieces or portions. Common practice, no source.
var (
	mostMeasured = quantity.Int(500)
	mostCounted  = quantity.Int(3)
)

// muchForOne reports whether an amount without "per cover" is likelier for all covers, and
// adds its problem: "1 kg".
func (p *parser) muchForOne(a quantity.Amount, part string, at int) bool {
	most := mostCounted
	if a.Unit.Dim == quantity.Mass || a.Unit.Dim == quantity.Volume {
		most = mostMeasured
	}
	if p.menu.Covers < 2 || a.Need().Mul(a.Unit.Factor).Cmp(most) <= 0 {
		return false
	}
	p.Err(at, `"`+part+`" may be for one cover or for all`, "", p.forOne(a)+`, or "`+part+` per cover"`)
	return true
}

// forOne says what to type for an amount that is for all covers.
func (p *parser) forOne(a quantity.Amount) string {
	one := quantity.Amount{Qty: a.Need().Quo(quantity.Int(int64(max(1, p.menu.Covers)))), Unit: a.Unit}
	return `write what one cover gets: "` + quantity.Show(one, quantity.Prefs{}) + ` per cover"`
}

// courseFact reads the time at which a course is served.
func (p *parser) courseFact(course int, f document.Fact) {
	c := &p.menu.Courses[course]
	switch f.Word {
	case "serve":
		m, ok := document.ParseClock(f.Value)
		switch {
		case !ok:
			p.Err(f.ValueAt, `"`+f.Value+`" is not a time of day`, "", `write it like "serve: 20:10"`)
			return
		case p.menu.Serve.IsZero():
			p.Err(f.At, "the menu does not say when its first course is served", "", `add "serve: 19:30" at the top, or write "after: 40 min" here`)
			return
		}
		c.After = m - p.menu.Serve.Minutes()
		if c.After < -12*60 {
			c.After += 24 * 60 // past midnight
		}
		if c.After < 0 {
			p.Err(f.ValueAt, `"`+f.Value+`" is before the first course`, "", "correct this time or the time at the top")
			c.After = 0
			return
		}
	case "after":
		s, ok := document.ParseSeconds(f.Value)
		if !ok {
			p.Err(f.ValueAt, `"`+f.Value+`" is not a length of time`, "", `write it like "after: 40 min"`)
			return
		}
		if s < 60 {
			p.Err(f.ValueAt, `"`+f.Value+`" is less than a minute`, "", `write it like "after: 40 min", or leave the line out for a course that is served with the one above it`)
			return
		}
		c.After = s / 60
	default:
		if hint := document.Nearest(f.Word, []string{"serve", "after"}); hint != "" && f.Word != "" {
			p.Err(f.At, `unknown fact "`+f.Word+`"`, hint, "")
			return
		}
		do := `link to the card's file, like "[Soup](soup.md)"`
		if isGroup(f.Word + ":") {
			do = `put guests below a heading "## Guests"`
		}
		p.unreadPlate(course, f.Value)
		p.Err(f.At, "this line of a course has no link", "", do)
		return
	}
	if p.timed == nil {
		p.timed = map[int]bool{}
	}
	p.timed[course] = true
}
