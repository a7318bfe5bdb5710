package dinner

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
	"hobside/internal/library"
	"hobside/internal/plan"
)

// threeCourses is a dinner of three courses for ten in a kitchen of two cooks: a soup, a roast
// that takes the oven for an hour, and a cream that holds nuts when its sprinkle does.
var threeCourses = map[string]string{
	"evening.md": "---\ncovers: 10\nserve: 2027-06-12 19:30\nkitchen: k.md\n---\n\n# Evening\n\n## Soup\n\n- [Soup](bowl.md)\n\n## Roast\n\n- after: 30 min\n- [Roast](roast.md)\n\n## Cream\n\n- after: 60 min\n- [Cream](cream.md)\n",
	"k.md":       "---\ncooks: Ana, Ben\nrules: uk\n---\n\n# K\n\n## Equipment\n\n- hob: 2 rings\n- oven: 1, 2 shelves\n- fridge\n\n## Hours\n\n- on the day: 15:00–23:00\n",
	"bowl.md":    "---\nmakes: 1 plate\n---\n\n# Soup in bowls\n\n## Formula\n\n- 200 g [Soup](soup.md)\n\n## Method\n\n1. Ladle the **soup**.\n   - hands: 1 min\n",
	"soup.md":    "---\nmakes: 2 kg\nkeeps: 2 h hot\n---\n\n# Soup\n\n## Formula\n\n- 2.2 kg peas\n\n## Method\n\n1. Boil the **peas**.\n   - hands: 20 min\n   - hob: 1 ring\n",
	"roast.md":   "---\nmakes: 1 plate\n---\n\n# Roast roots\n\n## Formula\n\n- 200 g parsnips\n\n## Method\n\n1. Roast the **parsnips**.\n   - hands: 5 min\n   - wait: 60 min\n   - oven: 180 °C, 1 shelf\n   - keep: 30 min hot\n2. Plate.\n   - hands: 1 min\n",
	"cream.md":   "---\nmakes: 1 plate\n---\n\n# Cream\n\n## Formula\n\n- 80 g cream\n- 5 g hazelnuts\n\n## Method\n\n1. Whip the **cream**.\n   - hands: 10 min\n   - keep: 1 h chilled\n2. Plate with the **hazelnuts**.\n   - hands: 1 min\n",
}

// serveAt is the serving time of the evening by a clock without time zones.
const serveAt = int64(1_812_828_600_000)

// An evenings is the evening being followed, with its clock.
type evenings struct {
	*table
	now int64
}

func beginEvening(t *testing.T) *evenings {
	t.Helper()
	texts, pins := map[string]string{}, map[string]string{}
	for name, text := range threeCourses {
		rev := Revision(text)
		texts[rev], pins[name] = text, rev
	}
	e := &evenings{table: &table{t: t, live: Follow("s", &library.Cache{}), work: map[Work]int{}}}
	require.True(t, e.live.Take(texts, []Event{e.event(Event{Kind: KindOpen, Open: &Open{Menu: "evening.md", Kitchen: "k.md", Covers: 10, Serve: "2027-06-12T19:30", Files: pins}})}))
	for _, p := range e.live.Worked().Problems {
		require.NotEqual(t, document.Error, p.Severity, p)
	}
	e.at("17:10")
	return e
}

// at sets the clock.
func (e *evenings) at(clock string) {
	m, ok := document.ParseClock(clock)
	require.True(e.t, ok)
	e.now = serveAt + int64(m-(19*60+30))*60_000
}

func (e *evenings) clock() PlanClock { return PlanClock{ServeAt: serveAt, Now: e.now} }

func (e *evenings) preview(w Wish) *Preview {
	e.t.Helper()
	p, err := e.live.Preview(e.clock(), w, metric)
	require.NoError(e.t, err)
	return p
}

// take previews a wish and takes it. It returns the events.
func (e *evenings) take(w Wish) []Event {
	e.t.Helper()
	p := e.preview(w)
	require.Empty(e.t, p.Trouble)
	require.NotEmpty(e.t, p.Events)
	var out []Event
	for _, d := range p.Events {
		ev := Event{Kind: d.Kind, Number: d.Number, Text: d.Text, Do: d.Do}
		ev = e.event(ev)
		ev.Stamp.Wall = e.now + int64(e.n)
		e.live.Take(nil, []Event{ev})
		out = append(out, ev)
	}
	return out
}

func (e *evenings) planned() *Planned {
	e.t.Helper()
	p, err := e.live.Plan(e.clock(), false)
	require.NoError(e.t, err)
	return p
}

// TestWishesWithoutSense gives a clear word for what makes no sense.
func TestWishesWithoutSense(t *testing.T) {
	for _, tt := range []struct {
		before  []Wish
		w       Wish
		trouble string
	}{
		{w: Wish{What: Comes, Cook: "Ana"}, trouble: "Ana is there already: nothing to change"},
		{w: Wish{What: Goes, Cook: "Zoe"}, trouble: "no cook of this kitchen is called “Zoe”"},
		{before: []Wish{{What: Comes, Cook: "Ben", At: "18:00"}}, w: Wish{What: Goes, Cook: "Ben", At: "17:30"}, trouble: "Ben comes at 18:00, and can't go before, at 17:30: say a later time"},
		{before: []Wish{{What: Goes, Cook: "Ben"}}, w: Wish{What: Goes, Cook: "Ben", At: "18:30"}, trouble: "Ben is away from 17:10 on already"},
		{w: Wish{What: Goes, Cook: "Ben", At: "18:30", Until: "18:00"}, trouble: "18:00 is not after 18:30: say from when until when"},
		{w: Wish{What: Goes, Cook: "Ben", At: "six"}, trouble: "“six” is not a time of day: write it like 18:00"},
		{w: Wish{What: Joins, Words: "Ana"}, trouble: "Ana is one of the cooks: say when Ana comes"},
		{w: Wish{What: Back, Thing: "oven"}, trouble: "the oven is not out: nothing to change"},
		{w: Wish{What: Out, Thing: "smoker"}, trouble: "the kitchen has no “smoker”"},
		{w: Wish{What: Out, Thing: "hob", Count: 3}, trouble: "3 rings are out, and the kitchen has 2"},
		{before: []Wish{{What: Out, Thing: "ovens"}}, w: Wish{What: Out, Thing: "oven"}, trouble: "that is said already: 1 oven out"},
		{w: Wish{What: Opens, At: "17:30"}, trouble: "the kitchen is open already, since 15:00"},
		{w: Wish{What: Closes, At: "23:00"}, trouble: "the kitchen closes at 23:00 anyway"},
		{w: Wish{What: Closes, At: "16:00"}, trouble: "16:00 is over: it is 17:10"},
		{w: Wish{What: Moves, Course: 2, Minutes: -200}, trouble: "Roast would go out at 16:40, and it is 17:10"},
		{w: Wish{What: Moves, Course: 4, Minutes: 5}, trouble: "the menu has no such course"},
		{w: Wish{What: Swap, Course: 2, With: 2}, trouble: "the menu has no such course"},
		{w: Wish{What: Serve, Course: 2}, trouble: "Roast is served anyway: nothing to change"},
		{before: []Wish{{What: Strike, Course: 2}}, w: Wish{What: Moves, Course: 2, Minutes: 5}, trouble: "Roast is struck"},
		{before: []Wish{{What: Strike, Course: 2}, {What: Strike, Course: 1}}, w: Wish{What: Strike, Course: 3}, trouble: "Cream is the last course: with it nothing is served"},
		{w: Wish{What: Late, Minutes: -180}, trouble: "service would begin at 16:30, and it is 17:10"},
		{w: Wish{What: Covers, Count: 10}, trouble: "there are 10 covers already"},
		{w: Wish{What: Covers, Count: -1}, trouble: "-1 covers: give a number from 0 to 1000000"},
		{w: Wish{What: Guest, Words: " "}, trouble: "say what they can’t have, like “nuts”"},
		{w: Wish{What: Guest, Words: "grubblefish"}, trouble: "“no grubblefish” is not understood, so no plate can be checked against it: use another word"},
		{w: Wish{What: "sings"}, trouble: "“sings” is not known here: reload the page"},
	} {
		t.Run(tt.trouble, func(t *testing.T) {
			e := beginEvening(t)
			for _, w := range tt.before {
				e.take(w)
			}
			p := e.preview(tt.w)
			assert.Equal(t, tt.trouble, p.Trouble)
			assert.Empty(t, p.Events)
		})
	}
}

// TestPreviewChangesNothing looks at what a change would do, then takes it, then takes it
// back: the preview says what the plan then says, and the undo brings the first plan back.
func TestPreviewChangesNothing(t *testing.T) {
	for name, w := range map[string]Wish{
		"a cook goes": {What: Goes, Cook: "Ben", Until: "18:00"}, "a helper comes": {What: Joins, At: "18:30", Until: "20:00"}, "the oven is out": {What: Out, Thing: "oven", Until: "20:00"},
		"one ring is borrowed": {What: Borrowed, Thing: "hob"}, "the kitchen closes": {What: Closes, At: "22:00"}, "a course is later": {What: Moves, Course: 2, Minutes: 15},
		"courses change places": {What: Swap, Course: 2, With: 3}, "a course is struck": {What: Strike, Course: 3}, "service is later": {What: Late, Minutes: 20},
		"more covers": {What: Covers, Count: 14}, "no covers": {What: Covers, Count: 0}, "no nuts": {What: Guest, Words: "nuts"},
	} {
		t.Run(name, func(t *testing.T) {
			e := beginEvening(t)
			before := e.planned()
			p := e.preview(w)
			assert.Equal(t, before.Plan.Starts(), e.planned().Plan.Starts(), "looking changes nothing")
			taken := e.take(w)
			if p.Blocked {
				require.Error(t, e.planned().Err)
			} else {
				require.NoError(t, e.planned().Err)
			}
			for _, ev := range taken {
				e.live.Take(nil, []Event{e.event(Event{Kind: KindUndo, Undo: ev.ID})})
			}
			assert.Equal(t, before.Plan.Starts(), e.planned().Plan.Starts(), "undo takes it back")
		})
	}
}

// TestPreviewSaysWhatFollows reads the words of what some changes would do. By hand: the
// roast of the second course needs the oven for an hour before 20:00.
func TestPreviewSaysWhatFollows(t *testing.T) {
	e := beginEvening(t)
	p := e.preview(Wish{What: Guest, Words: "nuts"})
	assert.Equal(t, []string{"1 cover without nuts: Cream has hazelnuts"}, p.Clashes)
	p = e.preview(Wish{What: Strike, Course: 3})
	assert.Equal(t, []string{"Cream is not served"}, p.Courses)
	assert.Equal(t, []string{"Not made any more: Cream"}, p.Amounts)
	p = e.preview(Wish{What: Swap, Course: 2, With: 3})
	assert.Equal(t, []string{"Roast goes out at 20:30, was 20:00", "Cream goes out at 20:00, was 20:30"}, p.Courses)
	p = e.preview(Wish{What: Late, Minutes: 20})
	assert.Equal(t, []string{"Soup goes out at 19:50, was 19:30", "Roast goes out at 20:20, was 20:00", "Cream goes out at 20:50, was 20:30"}, p.Courses)
	p = e.preview(Wish{What: Late})
	assert.Equal(t, []string{"Every course goes out on time"}, p.Courses)
	assert.Empty(t, p.Events)
	e.at("18:20")
	p = e.preview(Wish{What: Out, Thing: "oven", Until: "19:20"})
	require.NotEmpty(t, p.Courses)
	assert.Contains(t, p.Courses[0], "Roast goes out at ")
	assert.Contains(t, p.Courses[0], " min late")
	e.take(Wish{What: Out, Thing: "oven", Until: "19:20"})
	p = e.preview(Wish{What: Late})
	require.NotEmpty(t, p.Events, "a serving time that the kitchen can keep")
	e.take(Wish{What: Strike, Course: 3})
	s, err := e.live.Scene(e.clock())
	require.NoError(t, err)
	assert.Equal(t, "Cream struck", s.Said[0].Text)
	assert.Equal(t, "1 oven out 18:20–19:20", s.Said[1].Text)
	assert.Equal(t, ThingThere{Name: "oven", Call: "oven", Count: 1, Out: 1, Later: true, Words: "1 of 1 out until 19:20"}, s.Things[1])
}

// TestShortageAfterMoreCovers names what is short when covers are added after a batch was
// weighed. By hand: 200 g of soup for each of 14 are 2.8 kg, and 2 kg are there.
func TestShortageAfterMoreCovers(t *testing.T) {
	e := beginEvening(t)
	gave := kg(200)
	e.happens(Event{Kind: KindTick, On: StepKey("soup", 1, 1), Done: true})
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &gave})
	p := e.preview(Wish{What: Covers, Count: 14})
	assert.Contains(t, p.Amounts, "Soup: 800 g more to make, or fewer covers")
}

// anyWish draws a wish, sense or nonsense.
func anyWish(t *rapid.T) Wish {
	clock := func(label string) string {
		if rapid.Bool().Draw(t, label+" given") {
			return fmt.Sprintf("%02d:%02d", rapid.IntRange(14, 23).Draw(t, label), 5*rapid.IntRange(0, 11).Draw(t, label+" minute"))
		}
		return ""
	}
	return Wish{
		What: rapid.SampledFrom([]string{Goes, Comes, Joins, Out, Back, Borrowed, Opens, Closes, Late, Moves, Swap, Strike, Serve, Covers, Guest}).Draw(t, "what"),
		Cook: rapid.SampledFrom([]string{"Ana", "Ben", "helper"}).Draw(t, "cook"), Thing: rapid.SampledFrom([]string{"hob", "oven", "fridge", "fryer"}).Draw(t, "thing"),
		Course: rapid.IntRange(0, 4).Draw(t, "course"), With: rapid.IntRange(0, 4).Draw(t, "with"), Count: rapid.SampledFrom([]int{0, 1, 2, 9, 12, 1000}).Draw(t, "count"),
		Minutes: 5 * rapid.IntRange(-6, 12).Draw(t, "minutes"), At: clock("at"), Until: clock("until"), Words: rapid.SampledFrom([]string{"", "nuts", "milk"}).Draw(t, "words"),
	}
}

// TestManyChangesGiveOneStateAndAWord says up to a hundred changes on two phones that are
// apart, half of them taken back. Both phones then have the same state and the same plan,
// or the same reason that there is none.
func TestManyChangesGiveOneStateAndAWord(t *testing.T) {
	planned := 0
	rapid.Check(t, func(r *rapid.T) {
		e := beginEvening(t)
		opening := e.live.All()
		phones := [2][]Event{}
		wishes := 0
		for range rapid.IntRange(1, 50).Draw(r, "changes") {
			w := anyWish(r)
			e.now += int64(rapid.IntRange(0, 3).Draw(r, "minutes on")) * 60_000
			in, err := e.live.planInput(e.clock(), e.live.state.Changes)
			require.NoError(r, err)
			p := e.live.propose(w, in, e.clock().minute(e.now))
			require.Equal(r, p.trouble == "", len(p.events) > 0 || p.trouble == "" && w.What == Late && w.Minutes == 0, "%+v", w)
			phone := rapid.IntRange(0, 1).Draw(r, "phone")
			for _, d := range p.events {
				wishes++
				ev := e.event(Event{Kind: d.Kind, Number: d.Number, Text: d.Text, Do: d.Do})
				ev.Device, ev.Stamp.Wall = fmt.Sprintf("phone-%d", phone), e.now
				phones[phone] = append(phones[phone], ev)
				if rapid.Bool().Draw(r, "undo") {
					undo := e.event(Event{Kind: KindUndo, Undo: ev.ID})
					undo.Stamp.Wall = e.now
					phones[1-phone] = append(phones[1-phone], undo)
				}
				e.live.Take(nil, []Event{ev})
			}
		}
		var after [2]*Planned
		var states [2]*State
		for i := range after {
			other := beginEvening(t)
			other.now = e.now
			all := append(append(append([]Event{}, opening...), phones[i]...), phones[1-i]...)
			rand.New(rand.NewPCG(1, uint64(i))).Shuffle(len(all), func(a, b int) { all[a], all[b] = all[b], all[a] })
			other.live.Take(nil, all)
			after[i], states[i] = other.planned(), other.live.State()
		}
		require.Equal(r, states[0], states[1])
		if after[0].Err != nil {
			require.Equal(r, after[0].Err.Error(), after[1].Err.Error())
			require.NotEmpty(r, after[0].Err.Error())
			return
		}
		planned++
		require.Equal(r, after[0].Plan.Tasks, after[1].Plan.Tasks)
	})
	assert.Positive(t, planned)
}

// TestChangeBounds refuses what is out of bounds, with words.
func TestChangeBounds(t *testing.T) {
	day := []plan.Span{{Date: "2026-05-09", From: 1020}}
	for _, tt := range []struct {
		do   []plan.Deed
		says string
	}{
		{nil, "a change of 0 things: from 1 to 20 fit"},
		{make([]plan.Deed, 21), "a change of 21 things: from 1 to 20 fit"},
		{[]plan.Deed{{Do: "sing"}}, `a change that says "sing": that is not known here, the phone may be of a newer release than the server`},
		{[]plan.Deed{{Do: plan.DoCovers, Count: 3}}, `a change that says "covers": that has an event of its own`},
		{[]plan.Deed{{Do: plan.DoAway, Times: day}}, `a change says "away" with figures that it can't have: say it again`},
		{[]plan.Deed{{Do: plan.DoAway, Cook: "Ana", Count: 2}}, `a change says "away" with figures that it can't have: say it again`},
		{[]plan.Deed{{Do: plan.DoOut, Equipment: "oven", Count: 101}}, `a change says "out" with figures that it can't have: say it again`},
		{[]plan.Deed{{Do: plan.DoCourse, Course: 1, Minutes: 99999}}, `a change says "course" with figures that it can't have: say it again`},
		{[]plan.Deed{{Do: plan.DoOpen}}, `a change says "open" with figures that it can't have: say it again`},
		{[]plan.Deed{{Do: plan.DoOpen, Times: day}}, "the kitchen opens without a time to close: say until when"},
		{[]plan.Deed{{Do: plan.DoAway, Cook: "Ana", Times: []plan.Span{{Date: "2026-02-30", From: 10}}}}, `a change on "2026-02-30", which is not a day`},
		{[]plan.Deed{{Do: plan.DoAway, Cook: "Ana", Times: []plan.Span{{Date: "2026-05-09", From: 1500}}}}, "a change at a time that is not on its day"},
		{[]plan.Deed{{Do: plan.DoAway, Cook: "Ana", Times: []plan.Span{{Date: "2026-05-09", From: 100, To: 90}}}}, "a change that ends before it begins: say from when until when"},
	} {
		ev := sound(KindChange)
		ev.Do = tt.do
		assert.EqualError(t, Validate(ev), tt.says)
	}
}
