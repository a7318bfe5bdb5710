package kitchen

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// maxEquipment is how many kinds of equipment a kitchen may have: far more than
// any has, and few enough to compare each with every other.
const maxEquipment = 200

// equipmentLine reads one line below "## Equipment".
func (p *parser) equipmentLine(item ast.Node) {
	f, ok := p.ItemFact(item)
	if !ok {
		return
	}
	if f.Word == "" { // bare: "fridge"
		if uncoloned(f.Value) {
			p.Err(f.At, `"`+f.Value+`" has no colon between the name and what it has`, "", `write it like "- hob: 4 rings" or "- oven: 1, 2 shelves"`)
			return
		}
		f.Word, f.Value = strings.ToLower(f.Value), ""
	}
	if name, ok := document.FindVessel(f.Word); ok && document.SaysSize(f.Value) {
		p.vessel(name, f)
		return
	} else if ok && f.Value != "" {
		p.Warn(f.ValueAt, `"`+f.Word+": "+document.Clip(f.Value)+`" gives no size; it is taken as a kind of equipment of its own`, "", `write it like "`+name+`: 2, 12 L"`)
	}
	if e, ok := document.FindEquipment(f.Word); ok {
		f.Word = e.Name
	} else if hint := document.Nearest(f.Word, equipmentNames); hint != "" {
		p.Warn(f.At, `"`+f.Word+`" is taken as a kind of equipment of its own`, hint, "")
	}
	p.equipment(f.Word, f)
}

// vessel reads a vessel with its size. One word may stand with several sizes.
func (p *parser) vessel(name string, f document.Fact) {
	v, ok := p.Vessel(name, f)
	switch {
	case !ok:
	case len(p.kitchen.Vessels) >= maxEquipment:
		p.Err(f.At, "the kitchen has more than "+strconv.Itoa(maxEquipment)+" sizes of vessels", "", "leave out what no card needs")
	default:
		v.Count = max(1, v.Count)
		p.kitchen.Vessels = append(p.kitchen.Vessels, v)
	}
}

// uncoloned reports whether a line without a colon says more than a name: "hob 4
// rings", "oven = 2". "pan 2" is a name.
func uncoloned(line string) bool {
	if strings.ContainsAny(line, ".,;=/") {
		return true
	}
	i := strings.IndexAny(line, "0123456789")
	if i < 0 {
		return false
	}
	_, ok := document.FindEquipment(strings.ToLower(strings.TrimSpace(line[:i])))
	return ok || i == 0
}

// equipmentNames are the names of the standard list.
var equipmentNames = func() (names []string) {
	for _, e := range document.StandardEquipment() {
		names = append(names, e.Name)
	}
	return names
}()

// equipment reads how many there are, the places in each, and what one takes.
func (p *parser) equipment(name string, f document.Fact) {
	std, _ := document.FindEquipment(name)
	e := Equipment{Name: name, Count: 1, Places: 1, Heat: std.Heat, Temp: std.Temp, Pos: p.Place(f.At)}
	if uncounted(name) {
		e.Places = 0
	}
	if len(p.kitchen.Equipment) >= maxEquipment {
		p.Err(f.At, "the kitchen has more than "+strconv.Itoa(maxEquipment)+" kinds of equipment", "", "leave out what no card needs")
		return
	}
	for _, other := range p.kitchen.Equipment {
		if other.Name == name {
			p.Err(f.At, `"`+name+`" is there twice`, "", "put both on one line")
			return
		}
	}
	counted := false
	f.Split(func(part string, at int) {
		if n, what := leadingCount(part); n > 0 && what == "" {
			if _, vessel := document.FindVessel(name); counted && !vessel { // of a vessel without a size there is a problem already
				p.Err(at, name+`: "`+part+`" is a second count, of what it does not say`, "", `write how many there are, then the places in each: "1, `+part+` shelves"`)
				return
			}
			counted = true
		}
		p.equipmentPart(&e, part, at)
	})
	if name == "" {
		p.Err(f.At, "equipment without a name", "", `write it like "oven: 1, 2 shelves"`)
		return
	}
	p.kitchen.Equipment = append(p.kitchen.Equipment, e)
}

// equipmentPart reads one of the parts between commas: "4 rings", "6 pieces at a
// time", "over heat".
func (p *parser) equipmentPart(e *Equipment, part string, at int) {
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
			p.Err(at, `"`+part+`" is not an amount at a time`, "", `write it like "6 pieces at a time" or "2 L at a time"`)
			return
		}
		e.Load = a
	case strings.HasSuffix(low, " a shelf"):
		e.Litres = p.shelfLitres(e, part, at)
	case strings.HasPrefix(low, "hot in "):
		e.HotIn = p.hotIn(e, part[len("hot in "):], at+len("hot in "))
	case n < 0 || n > 99:
		p.Err(at, e.Name+`: "`+part+`" is not understood`, "", `write how many there are and the places in each, like "1, 2 shelves"`)
	case what == "":
		e.Count = n
	case what == "ring" || what == "rings":
		e.Count = n // each has its own flame
	case what == "shelf" || what == "shelves" || what == "place" || what == "places" || what == "tray" || what == "trays":
		e.Places = n
	default:
		p.Err(at, e.Name+`: "`+what+`" is not a place of it`, "", `write "4 rings", "2 shelves" or "2 places"`)
	}
}

// shelfLitres reads how much goes on one shelf, "9 L a shelf", in litres. It adds a problem and
// returns 0 for anything else.
func (p *parser) shelfLitres(e *Equipment, part string, at int) float64 {
	litre, _ := quantity.LookupUnit("L")
	a, rest, err := p.Measures.ParseAmount(part[:len(part)-len(" a shelf")])
	if err == nil && rest == "" && a.Unit != nil {
		if n, ok := quantity.Convert(a.Need(), a.Unit, litre); ok && n.Float64() >= leastOnShelf && n.Float64() <= mostOnShelf {
			return n.Float64()
		}
	}
	p.Err(at, e.Name+`: "`+document.Clip(part)+`" is not what goes on a shelf`, "", `write it like "9 L a shelf"`)
	return 0
}

// Plausible sizes of a shelf's load, in litres: our own bounds, to catch slips of units.
const leastOnShelf, mostOnShelf = 0.5, 200

// uncounted reports whether the places of this equipment are unlimited unless
// the file gives a number.
func uncounted(name string) bool { return name == "fridge" || name == "freezer" || name == "sink" }

// leadingCount reads "2 shelves" as 2 and "shelves". n is −1 without a figure of
// 1 or more.
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
