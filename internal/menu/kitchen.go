package menu

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

var kitchenWords = []string{"cooks", "hands", "rules", "altitude", "zone"}

// ParseKitchen reads a kitchen. File is its name, for its ID and the problems.
// The kitchen is never nil and holds what could be read.
func ParseKitchen(file string, src []byte) (*Kitchen, []document.Problem) {
	p := &kitchenParser{File: document.Open(file, src)}
	p.kitchen = &Kitchen{ID: document.ID(file), File: file, Source: src}
	p.front()
	p.blocks()
	p.finish()
	return p.kitchen, p.Done()
}

// kitchenParser reads one kitchen; hours are in their own file.
type kitchenParser struct {
	*document.File
	kitchen     *Kitchen
	faultyHours bool // hours were given, and found fault with
}

func (p *kitchenParser) front() {
	k := p.kitchen
	for _, f := range p.Front {
		switch f.Word {
		case "cooks", "hands": // kitchens written for the first release say hands
			p.cooks(f)
		case "rules":
			switch r := strings.ToLower(f.Value); r {
			case "us", "uk":
				k.Rules = r
			default:
				p.Err(f.ValueAt, `no rule set "`+f.Value+`"`, "", "write us or uk, or leave the line out")
			}
		case "altitude":
			n, ok := metres(f.Value)
			if !ok || n < -430 || n > 6000 {
				p.Err(f.ValueAt, `"`+f.Value+`" is no altitude`, "", `write it in metres, like "altitude: 20 m"`)
				continue
			}
			k.AltitudeM = n
		case "zone":
			k.Zone = f.Value
		default:
			if e, ok := document.FindEquipment(f.Word); ok {
				p.equipment(e.Name, f)
				continue
			}
			unknownWord(p.File, f, kitchenWords)
		}
	}
}

// cooks reads "2" or "first cook, second cook".
func (p *kitchenParser) cooks(f document.Fact) {
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
	f.Split(func(part string, at int) {
		if len(k.Cooks) == most {
			p.Err(at, "more than "+strconv.Itoa(most)+" cooks", "", "name fewer")
			return
		}
		k.Cooks = append(k.Cooks, part)
	})
	if len(k.Cooks) == 0 {
		p.Err(f.ValueAt, "a kitchen without a cook", "", `write how many people cook, like "cooks: 2"`)
	}
}

func (p *kitchenParser) blocks() {
	section := ""
	for n := p.Root.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok {
			words, _ := p.Text(h)
			words = strings.TrimSpace(words)
			if h.Level == 1 && p.kitchen.Title == "" {
				p.kitchen.Title = words
				continue
			}
			section = strings.ToLower(strings.TrimRight(words, ": "))
			continue
		}
		l, ok := n.(*ast.List)
		if !ok {
			continue
		}
		for item := l.FirstChild(); item != nil; item = item.NextSibling() {
			switch section {
			case "equipment":
				p.equipmentLine(item)
			case "prices":
				p.price(item)
			case "hours", "open", "opening hours":
				p.hoursLine(item)
			}
		}
	}
}

func (p *kitchenParser) equipmentLine(item ast.Node) {
	f, ok := p.ItemFact(item)
	if !ok {
		return
	}
	if f.Word == "" { // bare: "fridge"
		f.Word, f.Value = strings.ToLower(f.Value), ""
	}
	if e, ok := document.FindEquipment(f.Word); ok {
		f.Word = e.Name
	}
	p.equipment(f.Word, f)
}

// equipment reads how many there are, the places in each, and what one takes.
func (p *kitchenParser) equipment(name string, f document.Fact) {
	std, known := document.FindEquipment(name)
	e := Equipment{Name: name, Count: 1, Places: 1, Heat: std.Heat, Temp: std.Temp, Pos: p.Place(f.At)}
	if cold(name) {
		e.Places = 0
	}
	for _, other := range p.kitchen.Equipment {
		if other.Name == name {
			p.Err(f.At, `"`+name+`" stands twice`, "", "put both on one line")
			return
		}
	}
	f.Split(func(part string, at int) {
		low := strings.ToLower(part)
		n, what := leadingCount(low)
		switch {
		case low == "over heat":
			e.Heat = true
		case low == "one temperature":
			e.Temp = true
		case strings.HasSuffix(low, " at a time"):
			a, rest, ok := p.Amount(part[:len(part)-len(" at a time")], at)
			if ok && (a.Unit == nil || strings.TrimSpace(rest) != "") {
				p.Err(at, `"`+part+`" is no amount at a time`, "", `write it like "6 pieces at a time" or "2 L at a time"`)
				return
			}
			e.Load = a
		case n < 0 || n > 99:
			p.Err(at, name+`: "`+part+`" is not understood`, "", `write how many there are and the places in each, like "1, 2 shelves"`)
		case what == "":
			e.Count = n
		case what == "ring" || what == "rings":
			e.Count = n // each has its own flame
		case what == "shelf" || what == "shelves" || what == "place" || what == "places" || what == "tray" || what == "trays":
			e.Places = n
		default:
			p.Err(at, name+`: "`+what+`" is not a place of it`, "", `write "4 rings", "2 shelves" or "2 places"`)
		}
	})
	if !known && name == "" {
		p.Err(f.At, "equipment without a name", "", `write it like "oven: 1, 2 shelves"`)
		return
	}
	p.kitchen.Equipment = append(p.kitchen.Equipment, e)
}

// cold names the equipment whose places nobody counts unless the file does.
func cold(name string) bool { return name == "fridge" || name == "freezer" || name == "sink" }

// leadingCount reads "2 shelves" as 2 and "shelves"; n is −1 without a figure.
func leadingCount(s string) (n int, what string) {
	figure := s
	if i := strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }); i >= 0 {
		figure, what = s[:i], strings.TrimSpace(s[i:])
	}
	n, err := strconv.Atoi(figure)
	if err != nil || n < 1 {
		return -1, what
	}
	return n, what
}

func metres(s string) (int, bool) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "m"))
	n, err := strconv.Atoi(s)
	return n, err == nil
}

func (p *kitchenParser) finish() {
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
}
