package dinner

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/library"
	"hobside/internal/quantity"
)

// supper is a soup for ten with its stock; 200 g of soup a cover.
var supper = map[string]string{
	"supper.md": "---\ncovers: 10\nserve: 2027-06-12 19:30\nkitchen: k.md\n---\n\n# Supper\n\n## Soup\n\n- [Soup](plate.md)\n",
	"k.md":      "---\ncooks: 1\nrules: uk\nhob: 2 rings\n---\n\n# K\n\n## Hours\n\n- on the day: 08:00–22:00\n",
	"plate.md":  "---\nmakes: 1 plate\n---\n\n# Soup in bowls\n\n## Formula\n\n- 200 g [Soup](soup.md)\n- 5 g cress, optional\n\n## Method\n\n1. Ladle the **soup**; add the **cress**.\n   - hands: 1 min\n",
	"soup.md":   "---\nmakes: 2 kg\nkeeps: 2 d chilled\ntop up: water, up to 10 %\n---\n\n# Soup\n\n## Formula\n\n- 1.2 kg [Stock](stock.md)\n- 800 g peas\n\n## Method\n\n1. Boil the **peas** in the **stock**.\n   - hands: 20 min\n",
	"stock.md":  "---\nmakes: 1.6 kg\nkeeps: 2 d chilled\n---\n\n# Stock\n\n## Formula\n\n- 3.2 kg celery\n- 2 L water\n\n## Method\n\n1. Simmer the **celery** in the **water**.\n   - hands: 10 min\n2. Strain and reduce.\n   - hands: 5 min\n   - until: 1.6 kg\n",
}

// A table is a dinner of supper with its events counted.
type table struct {
	t    *testing.T
	live *Live
	n    int
	work map[Work]int
}

func begin(t *testing.T) *table {
	t.Helper()
	texts, pins := map[string]string{}, map[string]string{}
	for name, text := range supper {
		rev := Revision(text)
		texts[rev], pins[name] = text, rev
	}
	e := &table{t: t, live: Follow("s", &library.Cache{}), work: map[Work]int{}}
	e.live.Count = func(w Work) { e.work[w]++ }
	ev := e.event(Event{Kind: KindOpen, Open: &Open{Menu: "supper.md", Kitchen: "k.md", Covers: 10, Serve: "2027-06-12T19:30", Files: pins}})
	require.True(t, e.live.Take(texts, []Event{ev}))
	require.Empty(t, e.live.Worked().Problems)
	return e
}

func (e *table) event(ev Event) Event {
	e.n++
	ev.ID, ev.Dinner, ev.Device, ev.Stamp = fmt.Sprintf("event-%04d", e.n), "s", "phone", Stamp{Wall: int64(e.n)}
	require.NoError(e.t, Validate(ev))
	return ev
}

// happens adds an event and says whether the amounts may have changed.
func (e *table) happens(ev Event) bool { return e.live.Take(nil, []Event{e.event(ev)}) }

func kg(hundredths int64) quantity.Amount {
	unit, _ := quantity.LookupUnit("kg")
	return quantity.Amount{Qty: quantity.Frac(hundredths, 100), Unit: unit}
}

func (e *table) makes(card string) string {
	sum := quantity.Number{}
	for _, b := range e.live.Worked().Demand.ByCard[card].Batches {
		sum = sum.Add(b.Amount)
	}
	return sum.String()
}

func TestAmountsFollowTheCovers(t *testing.T) {
	e := begin(t)
	assert.Equal(t, "2", e.makes("soup"), "10 × 200 g")
	assert.Equal(t, 1, e.work[Explosion])
	assert.True(t, e.happens(Event{Kind: KindCovers, Number: 15}))
	assert.Equal(t, "3", e.makes("soup"))
	assert.Equal(t, 2, e.work[Explosion], "one explosion per change of covers")
	same := e.live.Worked()
	assert.False(t, e.happens(Event{Kind: KindNote, Text: "the peas are sweet"}), "a note changes no amount")
	assert.Same(t, same, e.live.Worked())
	assert.Equal(t, 2, e.work[Explosion])
}

// What is begun stays as it was planned then, however many changes follow, and
// each earlier state is exploded once.
func TestBegunBatchesKeepTheirPlan(t *testing.T) {
	e := begin(t)
	e.happens(Event{Kind: KindCovers, Number: 15})
	e.happens(Event{Kind: KindTick, On: StepKey("stock", 1, 1), Done: true})
	e.happens(Event{Kind: KindCovers, Number: 5})
	assert.Equal(t, "1", e.makes("soup"))
	assert.Equal(t, "9/5", e.makes("stock"), "3 kg of soup took 1.8 kg when it was begun")
	for range 3 {
		before := e.work[Explosion]
		e.happens(Event{Kind: KindCovers, Number: 4})
		assert.LessOrEqual(t, e.work[Explosion]-before, 2, "under way: with and without what is begun")
		assert.Equal(t, "9/5", e.makes("stock"))
		e.happens(Event{Kind: KindCovers, Number: 5})
	}
}

// The order in which events arrive, and how many arrive at a time, changes
// nothing.
func TestWorkedDoesNotDependOnArrival(t *testing.T) {
	e := begin(t)
	later := []Event{
		e.event(Event{Kind: KindCovers, Number: 15}),
		e.event(Event{Kind: KindTick, On: StepKey("stock", 1, 1), Done: true}),
		e.event(Event{Kind: KindCovers, Number: 5}),
		e.event(Event{Kind: KindStart, On: StepKey("soup", 1, 1), Start: 9}),
		e.event(Event{Kind: KindGuests, Text: "- 2 without peas"}),
		e.event(Event{Kind: KindCovers, Number: 8}),
	}
	e.live.Take(nil, later)
	want := e.live.Worked().Demand
	for turn := range later {
		other := begin(t)
		for i := range later {
			other.live.Take(nil, later[(turn+i)%len(later):][:1])
		}
		assert.Equal(t, want, other.live.Worked().Demand, "from event %d on", turn)
	}
}

// A pot that gives 1.7 kg of 2 kg: by hand 1700/200 = 8 covers; 300 g more; a
// tenth of 1.7 kg to top up.
func TestChoicesOfAShortage(t *testing.T) {
	e := begin(t)
	soup := func() []Choice {
		comp := e.live.Worked().Demand.ByCard["soup"]
		if m := e.live.Worked().Consequence(comp); m != nil {
			return e.live.Choices(comp, m)
		}
		return nil
	}
	assert.Empty(t, soup())
	gave := kg(170)
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &gave})
	choices := soup()
	require.Len(t, choices, 4)
	assert.Equal(t, Choice{Kind: KindCovers, Number: 8}, choices[0])
	assert.Equal(t, "17/20", choices[1].Amount.Qty.String())
	assert.Equal(t, kg(30), choices[2].More)
	assert.Equal(t, kg(187).Qty.String(), choices[3].Amount.Qty.String())
	e.happens(Event{Kind: choices[0].Kind, Number: choices[0].Number})
	assert.Empty(t, soup(), "for eight it is enough")
}

func TestOddWeightsAreDoubted(t *testing.T) {
	e := begin(t)
	slip := kg(2)
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &slip})
	comp := e.live.Worked().Demand.ByCard["soup"]
	d, ok := e.live.Doubt(comp)
	require.True(t, ok)
	assert.Equal(t, Doubt{Key: "soup#1", Got: slip, Planned: kg(200)}, d)
	assert.False(t, comp.Batches[0].Measured)
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &slip})
	comp = e.live.Worked().Demand.ByCard["soup"]
	_, ok = e.live.Doubt(comp)
	assert.False(t, ok, "entered a second time, it counts")
	assert.True(t, comp.Batches[0].Measured)
}

func TestPerPlateLeavesOut(t *testing.T) {
	e := begin(t)
	per := e.live.Worked().PerPlate("plate")
	require.Len(t, per, 2)
	assert.Equal(t, "200", per[0].Qty.String())
	assert.Equal(t, "5", per[1].Qty.String())
	assert.Nil(t, e.live.Worked().PerPlate("soup"), "it makes no plates")
	e.happens(Event{Kind: KindLeave, On: ItemKey("plate", 2), Done: true})
	assert.Nil(t, e.live.Worked().PerPlate("plate")[1].Unit, "the cress is left out")
	assert.Equal(t, []string{"Soup"}, e.live.Worked().CoursesOf("stock"))
	assert.Equal(t, 10, e.live.Worked().Served(1, 1))
}

// The first plan is worked out once, and kept while only the clock moves.
func TestFirstPlanIsWorkedOutOnce(t *testing.T) {
	e := begin(t)
	served := int64(100_000_000_000)
	plan := func(minutes int64) *Planned {
		p, err := e.live.Plan(PlanClock{ServeAt: served, Now: served + minutes*60_000}, false)
		require.NoError(t, err)
		require.NoError(t, p.Err)
		return p
	}
	first := plan(-24 * 60)
	assert.Nil(t, first.Known, "nothing is under way")
	e.happens(Event{Kind: KindStart, On: StepKey("stock", 1, 1), Start: served - 4*3_600_000})
	e.happens(Event{Kind: KindCovers, Number: 11})
	before := e.work[Project]
	again := plan(-3 * 60)
	require.True(t, again.Under)
	assert.NotEmpty(t, again.Known)
	explosions, projects := e.work[Explosion], e.work[Project]-before
	later := plan(-3*60 + 1)
	assert.Equal(t, explosions, e.work[Explosion], "a re-plan explodes nothing")
	assert.Equal(t, again.Known, later.Known)
	assert.Less(t, e.work[Project]-before-projects, projects, "the first plan is not worked out again")
}

func TestMissingTextsAreProblems(t *testing.T) {
	l := Follow("s", &library.Cache{})
	assert.Nil(t, l.Worked())
	_, err := l.Plan(PlanClock{}, false)
	assert.ErrorContains(t, err, "comes with the next sync")
	e := begin(t)
	require.True(t, l.Take(nil, e.live.All()))
	require.Len(t, l.Worked().Problems, len(supper))
	assert.Contains(t, l.Worked().Problems[0].Msg, "not on this phone yet")
	texts := map[string]string{}
	for _, text := range supper {
		texts[Revision(text)] = text
	}
	require.True(t, l.Take(texts, nil))
	assert.Empty(t, l.Worked().Problems)
	assert.Equal(t, e.live.Worked().Demand, l.Worked().Demand)
}
