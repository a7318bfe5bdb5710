package plan

import (
	"fmt"
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/quantity"
)

// shelfLitres is what goes on one shelf where the kitchen does not say, in litres: one tray of
// 53 × 33 cm, filled 5 cm deep. Our own working value, no source.
const shelfLitres = 9

// platesOnShelf is how many plates go on a shelf where the card does not say. Our own working
// value, no source.
const platesOnShelf = 20

// A handing is the result of a step that waits for another step or for its course.
type handing struct {
	of, next Step
	made     bool   // of leaves what the card makes
	save     string // the by-product that is taken, as slug; "" for the result itself
	course   int    // 1 + index of the course that it waits for; 0: for next
}

// A Stay is something that takes room from one minute to another.
type Stay struct {
	Of      Step
	What    string // "Polenta fingers, step 7", "18 plates for Pressed lamb, step 2"
	From    int
	To      int
	Places  float64 // shelves, or vessels
	Assumed bool    // Places are worked out from its volume, or taken for plates
	TempC   float64 // when HasTemp
	HasTemp bool

	in     string // the equipment
	vessel document.Vessel
	works  bool   // a step goes on in it: the plan books it anyway
	things string // "18 plates"; "" for food
}

// stays returns all that takes room in equipment and in vessels.
func (in *Input) stays(p *Plan) []Stay {
	q := p.project
	type left struct {
		of   Step
		save string
	}
	until := map[left]int{} // the minute at which the last of it is taken
	made := map[left]bool{}
	var order []left
	for _, h := range q.handings {
		from, ok := q.spans[h.of]
		if !ok || q.starts[from.first] >= forEver {
			continue
		}
		at := 0
		if h.course > 0 {
			at = p.Courses[h.course-1].At
		} else if next, ok := q.spans[h.next]; ok {
			at = q.starts[next.first]
		} else {
			continue
		}
		key := left{h.of, h.save}
		if was, known := until[key]; !known {
			order = append(order, key)
			until[key] = at
		} else {
			until[key] = max(was, at)
		}
		made[key] = made[key] || h.made
	}
	var out []Stay
	taken := map[Step]int{} // when the result of a step is taken
	for _, key := range order {
		if at, known := taken[key.of]; !known || until[key] > at {
			taken[key.of] = until[key]
		}
		if s, ok := in.stay(p, key.of, key.save, made[key], until[key]); ok {
			out = append(out, s)
		}
	}
	return append(out, in.working(p, taken)...)
}

// ended returns the minute at which a step is done.
func (p *project) ended(of Step) int {
	sp := p.spans[of]
	end := -forEver
	for i := sp.first; i <= sp.last; i++ {
		if a := &p.acts[i]; !a.heats {
			end = max(end, p.starts[i]+a.dur)
		}
	}
	return end + sp.tail
}

// stay returns where the result of a step, or a by-product of it, waits until a minute. ok is
// false where it takes no room that a kitchen counts.
func (in *Input) stay(p *Plan, of Step, save string, made bool, until int) (s Stay, ok bool) {
	q := p.project
	comp := q.demand.ByCard[of.Card]
	c, from := comp.Card, q.ended(of)
	if until <= from {
		return s, false
	}
	k, ok := keptBy(c, of.Step-1, save, made, until-from)
	if !ok {
		return s, false
	}
	e := in.store(&k)
	if !counted(e) {
		return s, false
	}
	s = Stay{Of: of, What: q.name(of), From: from, To: until, in: e.Name, TempC: k.TempC, HasTemp: k.HasTemp}
	if save != "" {
		s.What = strings.ReplaceAll(save, "-", " ") + " of " + s.What
	}
	factor := comp.Batches[of.Batch-1].Factor
	if s.Places = c.ShelvesFor(k.Shelves, factor); s.Places == 0 {
		s.Places, s.Assumed = byVolume(e, c.Litres(save, factor)), true
	}
	return s, true
}

// keptBy returns the hold by which something waits so many minutes: of those that are long
// enough the first that the card gives, else the longest. ok is false where the card says
// nothing and the step is not cold.
func keptBy(c *card.Card, step int, save string, made bool, wait int) (k card.Keep, ok bool) {
	s := &c.Steps[step]
	keeps := s.Keep
	if len(keeps) == 0 && made {
		keeps = c.Keeps
	}
	if save != "" {
		keeps = nil
		for _, b := range c.Saves {
			if b.Slug == save {
				keeps = b.Keeps
			}
		}
	}
	for _, k := range keeps {
		if k.Seconds >= wait*bySeconds {
			return k, true
		}
	}
	for _, other := range keeps {
		if !ok || other.Seconds > k.Seconds {
			k, ok = other, true
		}
	}
	if !ok && (save != "" || slices.ContainsFunc(s.Equipment, func(q card.Equipment) bool { return q.Name == "fridge" })) {
		return card.Keep{Place: "chilled"}, true
	}
	return k, ok
}

// store returns the equipment in which something waits: what the card names, else the fridge or
// the freezer of the kitchen. It returns nil where there is none: what is hot stays in its pan
// where the card names nothing.
func (in *Input) store(k *card.Keep) *kitchen.Equipment {
	switch {
	case k.In != "":
		return has(in.Kitchen, k.In)
	case k.Place == "chilled":
		return has(in.Kitchen, "fridge")
	case k.Place == "frozen":
		return has(in.Kitchen, "freezer")
	case k.Place == "hot" && (k.Shelves.Count > 0 || k.HasTemp):
		return has(in.Kitchen, "hot cupboard")
	}
	return nil
}

// byVolume returns how many shelves of some equipment so many litres take: a part of one, but
// no less than a small box takes.
func byVolume(e *kitchen.Equipment, litres float64) float64 {
	one := e.Litres
	if one == 0 {
		one = shelfLitres
	}
	return max(smallBox, litres/one)
}

// smallBox is the part of a shelf that the smallest box takes. Our own working value.
const smallBox = 0.1

// working returns what the steps themselves take: shelves that they are on, plates that are
// got ready for them, and vessels, in which their result stays until it is taken.
func (in *Input) working(p *Plan, taken map[Step]int) []Stay {
	q := p.project
	var out []Stay
	for i := range p.Tasks {
		t := &p.Tasks[i]
		comp := q.demand.ByCard[t.Card]
		c, factor := comp.Card, comp.Batches[t.Batch-1].Factor
		s := &c.Steps[t.Step.Step-1]
		for _, need := range s.Equipment {
			e := has(in.Kitchen, need.Name)
			if !counted(e) || document.HoldsFood(need.Name) == "" {
				continue
			}
			stay := Stay{Of: t.Step, What: q.name(t.Step), From: t.Start, To: t.End, in: e.Name, works: true, TempC: setting(need), HasTemp: need.HasTemp}
			stay.Places = float64(need.Count)
			if shares(&need) {
				stay.Places, stay.Assumed = byVolume(e, c.Litres("", factor)), true
			}
			out = append(out, stay)
		}
		if s.Plates.Set && t.Load <= 1 {
			if stay, ok := in.platesFor(p, t, c, factor); ok {
				out = append(out, stay)
			}
		}
		if s.Vessel.Name != "" && t.Load <= 1 {
			stay := Stay{Of: t.Step, What: q.name(t.Step), From: t.Start, To: q.ended(t.Step), vessel: s.Vessel, Places: float64(c.Vessels(t.Step.Step-1, factor))}
			if at, ok := taken[t.Step]; ok && at-stay.To <= aDay { // what waits longer is packed into boxes
				stay.To = max(stay.To, at)
			}
			out = append(out, stay)
		}
	}
	return out
}

// platesFor returns where the plates of a task are warmed or chilled.
func (in *Input) platesFor(p *Plan, t *Task, c *card.Card, factor quantity.Number) (s Stay, ok bool) {
	k := &c.Steps[t.Step.Step-1].Plates
	e := in.store(&k.Keep)
	if e == nil {
		return s, false
	}
	s = Stay{Of: t.Step, From: t.Start - k.Seconds/bySeconds, To: t.End, in: e.Name, TempC: k.TempC, HasTemp: k.HasTemp}
	plates := "the plates"
	n, ok := c.Makes.Need().Mul(factor).Ceil().Int64()
	if ok && c.IsPlate() {
		plates = fmt.Sprintf("%d plates", n)
		if n == 1 {
			plates = "1 plate"
		}
	}
	s.things = plates
	s.What = plates + " for " + p.project.name(t.Step)
	if s.Places = c.ShelvesFor(k.Shelves, factor); s.Places == 0 {
		s.Places, s.Assumed = float64(max(1, n))/platesOnShelf, true
	}
	return s, true
}

// vesselsAsLarge returns which vessels of a kitchen, by their index, do for one of a card.
func vesselsAsLarge(k *kitchen.Kitchen, v document.Vessel) (which []int, listed bool) {
	for i, kv := range k.Vessels {
		if kv.Name == v.Name {
			listed = true
			if demand.AsLarge(kv, v) {
				which = append(which, i)
			}
		}
	}
	return which, listed
}
