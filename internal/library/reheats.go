package library

import (
	"strconv"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// A heated is what has been done to food so far: our own model, no source.
type heated struct {
	cooked, cold bool
	times        int // how often it was heated again after it was cooked and chilled
}

// worse returns the one of two that was heated more often.
func (h heated) worse(o heated) heated {
	return heated{h.cooked || o.cooked, h.cold || o.cold, max(h.times, o.times)}
}

// heat returns the food after a step over heat, and whether that heated it again.
func (h heated) heat() (after heated, again bool) {
	if again = h.cooked && h.cold; again {
		h.times++
	}
	h.cooked, h.cold = true, false
	return h, again
}

// reheats returns a warning for each step that heats food again more often than a rule set
// lets it. Counted is what was cooked and chilled before, through all cards: a card goes on
// with another card's component where that is half of its formula or more; less is an
// ingredient of a new dish, which is cooked there.
func (s Set) reheats(c *card.Card, rules []safety.Rules) []document.Problem {
	var out []document.Problem
	f := follower{set: s, known: map[string]heated{}}
	for _, r := range rules {
		rule, ok := safety.ReheatsBy(r)
		if !ok {
			continue
		}
		said := map[int]bool{}
		for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
			f.card(c, way, func(step int, what string, times int) {
				if times <= rule.Most || said[step] {
					return
				}
				said[step] = true
				out = append(out, stepWarning(c, &c.Steps[step], what+" is heated again for the "+nth(times)+" time after it was cooked and chilled: "+rule.Source.String(),
					"heat it again once only: go on with it hot, or chill it only after the last time it is cooked"))
			})
		}
	}
	return out
}

// nth writes a place in a row.
func nth(n int) string {
	if n == 2 {
		return "second"
	}
	return strconv.Itoa(n) + "th"
}

// A follower follows food through the cards of a set.
type follower struct {
	set   Set
	known map[string]heated // by card; one that is being followed counts as nothing, so that cards that need each other end
}

// made returns what has been done to what a card makes.
func (f follower) made(c *card.Card) heated {
	h, ok := f.known[c.ID]
	if !ok {
		f.known[c.ID] = heated{}
		h = f.card(c, min(1, len(c.Ways)), func(int, string, int) {})
		f.known[c.ID] = h
	}
	return h
}

// card goes through the steps of a card by one of its ways and returns what has been done
// to what it makes. It calls again for each step that heats something again.
func (f follower) card(c *card.Card, way int, again func(step int, what string, times int)) heated {
	var own heated
	for i := range c.Steps {
		step := &c.Steps[i]
		if !step.In(way) {
			continue
		}
		hot, joined := cooksFood(step), false
		for _, run := range step.Text {
			if run.Item == 0 {
				continue
			}
			it := &c.Items[run.Item-1]
			sub := f.set.Card(it.Card)
			if sub == nil || it.Save != "" {
				continue
			}
			h := f.made(sub)
			main := mostOf(c, it, sub)
			if hot && (main || c.IsPlate()) {
				var more bool
				if h, more = h.heat(); more {
					again(i, sub.Title, h.times)
				}
			}
			if main {
				own, joined = own.worse(h), true
			}
		}
		if hot && !joined {
			var more bool
			if own, more = own.heat(); more && !c.IsPlate() {
				again(i, c.Title, own.times)
			}
		}
		own.cold = own.cold || own.cooked && chills(step)
	}
	return own
}

// cooksFood reports whether a step heats what it handles: hot cupboards and bain-maries
// only hold it, and a torch colours its surface.
func cooksFood(s *card.Step) bool {
	for _, q := range s.Equipment {
		switch q.Name {
		case "hot cupboard", "bain-marie", "torch", "smoker":
			continue
		}
		if e, ok := document.FindEquipment(q.Name); ok && (e.Heat || q.Name == "water bath") {
			return true
		}
	}
	return false
}

// chills reports whether food is cold after a step.
func chills(s *card.Step) bool {
	for _, k := range s.Keep {
		if k.Place == "chilled" || k.Place == "frozen" {
			return true
		}
	}
	return s.Cool.Set || s.Uses("fridge") || s.Uses("freezer") || s.Uses("blast chiller")
}

// mostOf reports whether a component of another card is half of a card's formula or more by
// weight. What has no known weight counts for nothing.
func mostOf(c *card.Card, it *card.Item, sub *card.Card) bool {
	grams := func(of *card.Item) float64 {
		own := c.OwnOf(of)
		if of == it && own.Each.Unit == nil {
			own.Each = sub.Each
		}
		gram, _ := quantity.LookupUnit("g")
		n, _, err := larder.Convert(of.Name, of.Amount.Need(), of.Amount.Unit, gram, own)
		if err != nil {
			return 0
		}
		return n.Float64()
	}
	sum := 0.0
	for i := range c.Items {
		sum += grams(&c.Items[i])
	}
	return sum > 0 && grams(it) >= sum/2
}
