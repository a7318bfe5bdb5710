package plan

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
)

// on returns a time on the day of serving, in minutes after midnight.
func on(in Input, from, to int) []Span {
	return []Span{{Date: in.Serve.String()[:len("2006-01-02")], From: from, To: to}}
}

// clock returns the minute of the plan at a time of day of the day of serving.
func clock(in Input, at string) int {
	t, _ := document.ParseClock(at)
	return t - in.Serve.Minutes()
}

// anyDeed draws a thing that a cook may say of a dinner, sense or nonsense.
func anyDeed(t *rapid.T, in Input) Deed {
	d := Deed{
		Do:        rapid.SampledFrom([]string{DoAway, DoThere, DoOut, DoEquipment, DoCook, DoOpen, DoClose, DoCourse, DoStrike}).Draw(t, "do"),
		Cook:      rapid.SampledFrom(append([]string{"", "nobody of this name"}, in.Kitchen.Cooks...)).Draw(t, "cook"),
		Equipment: rapid.SampledFrom([]string{"hob", "oven", "fryer", "fridge", "smoker"}).Draw(t, "equipment"),
		Count:     rapid.IntRange(0, 4).Draw(t, "count"),
		Course:    rapid.IntRange(1, 3).Draw(t, "course"),
		Minutes:   rapid.IntRange(-90, 90).Draw(t, "minutes"),
	}
	if d.Do == DoEquipment && d.Count == 0 {
		d.Count = 1
	}
	if d.Do == DoOpen || d.Do == DoClose || rapid.Bool().Draw(t, "for a time") {
		from := rapid.IntRange(0, 1430).Draw(t, "from")
		to := 0
		if d.Do == DoOpen || rapid.Bool().Draw(t, "with an end") {
			to = from + rapid.IntRange(1, 300).Draw(t, "minutes long")
		}
		d.Times = on(in, from, to)
	}
	return d
}

// TestSaidChangesGivePlanOrReason draws dinners at any moment of their plans, and changes
// that cooks say. Each gives a plan that keeps the rules with the cooks and the equipment
// that are left, or a reason in words.
func TestSaidChangesGivePlanOrReason(t *testing.T) {
	planned, blocked := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		in := anyDinner(r)
		pl, err := Make(in)
		if err != nil {
			return
		}
		if rapid.Bool().Draw(r, "under way") {
			first := pl.Tasks[0].Start
			in = begun(in, pl, first+rapid.IntRange(-60, max(0, -first)+30).Draw(r, "now"))
		}
		var c Change
		for range rapid.IntRange(1, 4).Draw(r, "changes") {
			c.Do = append(c.Do, anyDeed(r, in))
		}
		changed := in.With(c)
		pl, err = Make(changed)
		if err != nil {
			if b := new(Blocked); errors.As(err, &b) && len(b.Because) == 0 || err.Error() == "" {
				r.Fatalf("%+v: no plan and no reason", c.Do)
			}
			blocked++
			return
		}
		planned++
		if said := breaks(changed, pl); len(said) > 0 {
			r.Fatalf("%+v: %v", c.Do, said)
		}
	})
	t.Log(planned, "planned", blocked, "blocked")
	assert.Positive(t, planned)
}

// TestCookGoes plans the demo supper when one of two cooks goes in the evening: the other
// does the rest, nothing is given to who has gone, and what is late is said.
func TestCookGoes(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	now := clock(in, "17:10")
	in = begun(in, first, now)
	gone := in.Kitchen.Cooks[1]
	in = in.With(Change{Do: []Deed{{Do: DoAway, Cook: gone, Times: on(in, 17*60+10, 18*60)}}})
	pl := remake(t, in)
	for _, task := range pl.Tasks {
		if !task.Held && task.By(2) {
			assert.False(t, task.Start < clock(in, "18:00") && task.Free > now, "%v", task.Step)
		}
	}
	back := remake(t, in.With(Change{Do: []Deed{{Do: DoThere, Cook: gone}}}))
	assert.Empty(t, back.Moves(first.Starts()), "when the cook stays after all, nothing moves")
}

// TestNobodyIsLeft gives a reason with the time at which the last cook goes.
func TestNobodyIsLeft(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	in = begun(in, first, clock(in, "17:10"))
	var c Change
	for i, name := range in.Kitchen.Cooks {
		c.Do = append(c.Do, Deed{Do: DoAway, Cook: name, Times: on(in, 17*60+10+i, 0)})
	}
	_, err := Make(in.With(c))
	require.EqualError(t, err, "nobody is in the kitchen from 17:11 on: say who comes, and when")
}

// TestEquipmentIsOut plans round an oven that is out for a time, and again when it is out
// for good.
func TestEquipmentIsOut(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	i := slices.IndexFunc(first.Tasks, func(k Task) bool {
		return k.Start > clock(in, "12:00") && slices.ContainsFunc(k.On, func(p Place) bool { return p.Equipment == "oven" })
	})
	require.GreaterOrEqual(t, i, 0)
	busy := first.Tasks[i]
	in = begun(in, first, busy.Start-60)
	at := first.Reading(busy.Start).Minutes()
	for range 2 { // the same word twice is the same
		in = in.With(Change{Do: []Deed{{Do: DoOut, Equipment: "oven", Count: 2, Times: on(in, at-5, at+25)}}})
	}
	pl := remake(t, in)
	for _, k := range pl.Tasks {
		if !k.Held && slices.ContainsFunc(k.On, func(p Place) bool { return p.Equipment == "oven" }) {
			assert.False(t, k.Start < busy.Start+25 && k.End > busy.Start-5, "%v", k.Step)
		}
	}
	_, err := Make(in.With(Change{Do: []Deed{{Do: DoOut, Equipment: "oven", Count: 2, Times: on(in, at-70, 0)}}}))
	b := new(Blocked)
	require.ErrorAs(t, err, &b)
	assert.Contains(t, b.Because[0], "the kitchen has no oven")
	assert.Equal(t, []string{"oven"}, b.Lacking)
	pl = remake(t, in.With(Change{Do: []Deed{{Do: DoOut, Equipment: "oven", Times: on(in, 0, 0)}}}))
	assert.Empty(t, pl.Moves(first.Starts()), "when it is not out after all, nothing moves")
}

// TestCourseIsMovedOrStruck serves a course later, and leaves one out.
func TestCourseIsMovedOrStruck(t *testing.T) {
	in := supper(t, 18)
	n := len(in.Dinner.Menu.Courses)
	last := in.Dinner.Menu.Courses[n-1].After
	pl := remake(t, in.With(Change{Do: []Deed{{Do: DoCourse, Course: n, Minutes: last + 15}}}))
	assert.Equal(t, last+15, pl.Courses[n-1].At)
	struck := in.With(Change{Do: []Deed{{Do: DoStrike, Course: n, Count: 1}}})
	pl = remake(t, struck)
	assert.True(t, pl.Courses[n-1].Struck)
	assert.Less(t, len(pl.Tasks), len(remake(t, in).Tasks), "its plates are not made")
	assert.False(t, in.Dinner.Menu.Courses[n-1].Struck, "the menu itself stays")
	back := remake(t, struck.With(Change{Do: []Deed{{Do: DoStrike, Course: n}}}))
	assert.Empty(t, back.Moves(remake(t, in).Starts()))
}
