package plan

import (
	"fmt"
	"slices"
	"strings"

	"hobside/internal/document"
)

// PlaceName names a place as a cook of the kitchen does: "ring 2", "oven shelf 1",
// and "blender" where there is one.
func (in *Input) PlaceName(at Place) string {
	std, _ := document.FindEquipment(at.Equipment)
	count := 1
	if e := has(in.Kitchen, at.Equipment); e != nil {
		count = e.Count * max(1, e.Places)
	}
	switch {
	case at.Equipment == "hob":
		return fmt.Sprintf("ring %d", at.Unit)
	case count == 1:
		return at.Equipment
	case std.Place != "":
		return fmt.Sprintf("%s %s %d", at.Equipment, std.Place, at.Unit)
	}
	return fmt.Sprintf("%s %d", at.Equipment, at.Unit)
}

// PlacesUsed returns the names of the places that a plan uses, in the order of the
// kitchen's file.
func (in *Input) PlacesUsed(p *Plan) []string {
	used := map[string]bool{}
	for _, t := range p.Tasks {
		for _, place := range t.On {
			used[in.PlaceName(place)] = true
		}
	}
	out := []string{}
	for _, e := range in.Kitchen.Equipment {
		for unit := 1; unit <= e.Count*max(1, e.Places); unit++ {
			if name := in.PlaceName(Place{Equipment: e.Name, Unit: unit}); used[name] && !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// Clock writes a time of the plan as "20:40", with the day of the week where that
// is not the day of serving.
func (p *Plan) Clock(t int) string {
	w := p.Reading(t)
	if w.DaysSince(p.Serve) != 0 {
		return w.Weekday().String() + " " + w.Clock()
	}
	return w.Clock()
}

// MoveText says how a step moved.
func (p *Plan) MoveText(m Move) string {
	text := p.Name(m.Step) + ": starts " + p.Clock(m.Now)
	if m.New {
		return text + ", new in the plan"
	}
	return text + ", was " + p.Clock(m.Was)
}

// AssumptionText says which keeping time was assumed, and of what.
func (p *Plan) AssumptionText(a Assumption) string {
	name := p.Name(Step{Card: a.Card, Batch: 1, Step: a.Step})
	long := document.FormatSeconds(a.Minutes * bySeconds)
	switch a.Place {
	case heldAtHeat:
		text := name + ": no holding time set: use at once"
		if why := goesOn(&p.project.demand.ByCard[a.Card].Card.Steps[a.Step-1]); why != "" {
			text += ", " + why
		}
		return text
	case "pass":
		return name + ": no keeping time set on the plate: " + long + " at the pass"
	}
	return name + ": no keeping time set: " + long + " " + a.Place
}

// CollisionText says how often two cooks want one place at the same time.
func (p *Plan) CollisionText(c Collision) string {
	return fmt.Sprintf("%s and %s want the same place at the %s in %d of 100 evenings", p.Name(c.First), p.Name(c.Second), c.Place, int(c.Share*100+0.5))
}

// SlackText says what ten minutes more for a step would help.
func (p *Plan) SlackText(d Decider) string {
	return fmt.Sprintf("%s: ten minutes more for it make %d in 100 evenings good", p.Name(d.Step), int((d.Helped-d.Before)*100+0.5))
}

// DeciderText says how often a step makes a course late.
func (p *Plan) DeciderText(d Decider) string {
	return fmt.Sprintf("%s: in %d %% of the runs in which a course is late", p.Name(d.Step), int(d.Share*100+0.5))
}

// listed joins names: "a hob, an oven and a fridge".
func listed(things []string) string {
	if n := len(things) - 1; n > 0 {
		return strings.Join(things[:n], ", ") + " and " + things[n]
	}
	return strings.Join(things, "")
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
