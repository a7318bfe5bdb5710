package dinner

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
)

// A Delivery is what comes on one day, by section of the shop.
type Delivery struct {
	Day  string   `json:"day"`  // "2027-06-11"
	Keys []string `json:"keys"` // of the order list's lines
}

// noon is the minute of the day before which a first use means that the food must be
// there the day before: our own working rule.
const noon = 12 * 60

// deliver sets the days of the order list from the dinner's plan, where there is one.
func (o *OrderList) deliver(l *Live, lines []demand.Line) {
	o.Deliveries = []Delivery{}
	made := l.planned
	if made == nil || made.Plan == nil || !made.Plan.Serve.HasDate() {
		return
	}
	o.Planned = true
	serve := made.Plan.Serve
	date := func(day int) document.When { return serve.Add(day * 24 * 60) }
	uses := l.worked.lineUses(made)
	var fresh []demand.Fresh
	for i := range lines {
		use, ok := uses[lines[i].Slug]
		if len(lines[i].Buy) == 0 || !ok {
			continue
		}
		first := serve.Add(use[0])
		by := first.DaysSince(serve)
		if first.Minutes() < noon {
			by--
		}
		fresh = append(fresh, demand.Fresh{Line: i, By: by, Keeps: lines[i].Keeps, Last: serve.Add(use[1]).DaysSince(serve)})
	}
	var may func(int) bool
	if k := l.worked.Kitchen; k != nil && len(k.Deliveries) > 0 {
		may = func(day int) bool { return slices.Contains(k.Deliveries, date(day).Weekday()) }
	}
	byLine := map[string]*OrderLine{}
	for i := range o.Sections {
		for j := range o.Sections[i].Lines {
			byLine[o.Sections[i].Lines[j].Key] = &o.Sections[i].Lines[j]
		}
	}
	day := func(n int) string { return date(n).String()[:len("2006-01-02")] }
	for _, f := range fresh {
		byLine[OrderKey(lines[f.Line].Slug)].BuyBy = day(f.By)
	}
	for _, d := range demand.Deliveries(fresh, may) {
		out := Delivery{Day: day(d.Day), Keys: []string{}}
		for _, i := range d.Lines {
			key := OrderKey(lines[i].Slug)
			out.Keys = append(out.Keys, key)
			byLine[key].Stale = slices.Contains(d.Stale, i)
		}
		o.Deliveries = append(o.Deliveries, out)
	}
}

// lineUses returns, by line of the order list, when its item is first used and last used,
// in minutes after the serving time.
func (w *Worked) lineUses(made *Planned) map[string][2]int {
	out := map[string][2]int{}
	note := func(line string, at int) {
		use, ok := out[line]
		if !ok {
			use = [2]int{at, at}
		}
		out[line] = [2]int{min(use[0], at), max(use[1], at)}
	}
	for _, t := range made.Plan.Tasks {
		comp := w.Demand.ByCard[t.Card]
		if comp == nil || t.Step.Step > len(comp.Card.Steps) {
			continue
		}
		c := comp.Card
		named := map[int]bool{}
		for i := range c.Steps {
			for _, r := range c.Steps[i].Text {
				named[r.Item] = true
				if r.Item > 0 && i == t.Step.Step-1 && c.Items[r.Item-1].Card == "" {
					note(demand.LineOf(c, &c.Items[r.Item-1]), t.Start)
				}
			}
		}
		if slices.ContainsFunc(c.Steps[t.Step.Step-1].Equipment, func(q card.Equipment) bool { return q.Name == "ice bath" }) {
			note("ice", t.Start)
		}
		for i, it := range c.Items {
			if !named[i+1] && it.Card == "" && t.Step.Step == 1 {
				note(demand.LineOf(c, &it), t.Start) // no step names it: it is there from the first
			}
		}
	}
	for _, part := range []string{"egg-yolk", "egg-white"} {
		if use, ok := out[part]; ok {
			note("egg", use[0])
			note("egg", use[1])
		}
	}
	return out
}
