package plan

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// carriedOut lists what is wrong with the plan of a change that was carried out.
func carriedOut(in Input, c Change) []string {
	changed := in.With(c)
	pl, err := Make(changed)
	if err != nil {
		return []string{c.Text + ": " + err.Error()}
	}
	said := breaks(changed, pl)
	cooks := len(in.Kitchen.Cooks)
	day := func(t int) string { return pl.Reading(t).String()[:len("2006-01-02")] }
	within := func(from, to int, times []Span) bool {
		return slices.ContainsFunc(times, func(s Span) bool {
			at := pl.Reading(from).Minutes()
			return s.Date == day(from) && s.From <= at && at+to-from <= s.To
		})
	}
	for _, d := range c.Do {
		for _, t := range pl.Tasks {
			busy := 0
			for _, u := range pl.Tasks {
				if u.Start <= t.Start && t.Start < u.Free {
					busy += u.People()
				}
			}
			if d.Do == DoCook && len(d.Times) > 0 && busy > cooks && !within(t.Start, t.Start, d.Times) {
				said = append(said, c.Text+": one more cook is needed at "+pl.Clock(t.Start)+" too")
			}
			if d.Do == DoOpen && d.Card != "" && within(t.Start, t.Start, d.Times) && !in.takes(d.Card)[t.Card] {
				said = append(said, c.Text+": "+pl.Name(t.Step)+" starts then too")
			}
		}
	}
	return said
}

// TestEveryOfferWorks draws dinners, and carries out each change that is offered for those
// that have no plan.
func TestEveryOfferWorks(t *testing.T) {
	seen := map[string]int{}
	rapid.Check(t, func(r *rapid.T) {
		in := anyDinner(r)
		_, err := Make(in)
		b := new(Blocked)
		if !errors.As(err, &b) {
			return
		}
		in.explode()
		last := 0
		for _, c := range in.Free(b) {
			if len(c.Do) == 0 || c.cost < last {
				r.Fatalf("%s: does nothing, or is out of order", c.Text)
			}
			last = c.cost
			seen[c.Do[0].Do]++
			if said := carriedOut(in, c); len(said) > 0 {
				r.Fatalf("%s: %v", c.Text, said)
			}
		}
	})
	t.Log(seen)
}

// TestOffers gives one dinner for each kind of obstacle, with the first change offered for
// it in words and in values.
func TestOffers(t *testing.T) {
	plate := func(steps ...string) map[string]string {
		return map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"1 piece bread"}, steps...)}
	}
	for _, tt := range []struct {
		name, kitchen, menu string
		cards               map[string]string
		text                string
		do                  Deed
	}{
		{"more equipment", galley(1, "08:00–24:00", "hob: 2"), courses(4, "plate"), plate("Fry.; hob: 3 rings; hands: 5 min; serve"),
			"one more ring", Deed{Do: DoEquipment, Equipment: "hob", Count: 1}},
		{"a looser keep", galley(1, "08:00–24:00", "hob: 2"), courses(4, "plate"),
			map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"20 g [Foam](foam.md)"}, "Coat with **half the foam**.; hands: 5 min; wait: 10 min; keep: 5 min room", "Coat with the **rest of the foam**.; hands: 5 min; serve"),
				"foam": recipe("Foam", "makes: 200 g", []string{"200 g cream"}, "Whip the **cream**.; hands: 5 min; keep: 10 min chilled")},
			"Foam, step 1 may wait 15 min, if its author agrees; the card says 10 min chilled", Deed{Do: DoKeep, Card: "foam", Step: 1, Minutes: 15, Place: "chilled"}},
		{"an hour earlier", galley(1, "17:00–20:00"), courses(4, "plate"), plate("Chop the **bread**.; hands: 2 h 30 min; serve"),
			"open the kitchen 1 hour earlier on Saturday", Deed{Do: DoOpen, Times: []Span{{Date: "2027-06-12", From: 16 * 60, To: 17 * 60}}}},
		{"a card on another day", galley(1, "00:00–20:00"), courses(4, "plate"),
			map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"20 g [Dough](dough.md)"}, "Plate the **dough**.; hands: 5 min; serve"),
				"dough": recipe("Dough", "makes: 200 g\nkeeps: 3 days chilled", []string{"200 g flour"}, "Knead the **flour**.; hands: 30 min; keep: 20 h chilled; wait: 19 h")},
			"make Dough on Friday, 19:00–20:00", Deed{Do: DoOpen, Card: "dough", Times: []Span{{Date: "2027-06-11", From: 19 * 60, To: 20 * 60}}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := cook(t, tt.kitchen, tt.menu, tt.cards)
			_, err := Make(in)
			b := new(Blocked)
			require.ErrorAs(t, err, &b)
			found := in.Free(b)
			require.NotEmpty(t, found)
			for _, c := range found {
				assert.Empty(t, carriedOut(in, c), c.Text)
			}
			require.Len(t, found[0].Do, 1)
			for i := range found[0].Do[0].Times {
				found[0].Do[0].Times[i].Day = tt.do.Times[i].Day
			}
			assert.Equal(t, tt.text, found[0].Text)
			assert.Equal(t, tt.do, found[0].Do[0])
		})
	}
}
