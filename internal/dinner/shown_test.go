package dinner

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
	"hobside/internal/quantity"
)

var metric = quantity.Prefs{System: quantity.Metric, Scale: quantity.Int(1)}

// The soup gives 1.7 kg of 2 kg. By hand: 1700/200 = 8.5, so 8 covers; 85 % of a
// portion; another 300 g; a tenth of 1.7 kg is 170 g of water.
func TestMeansOfAShortBatch(t *testing.T) {
	e := begin(t)
	means := func() *Means { return e.live.Means(e.live.Worked().Demand.ByCard["soup"], metric) }
	assert.Nil(t, means(), "all as planned")
	gave := kg(170)
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &gave})
	m := means()
	require.NotNil(t, m)
	assert.Equal(t, []string{"2 kg", "1.7 kg", "2 kg", "300 g", ""}, []string{m.Planned, m.Made, m.Need, m.Short, m.Spare})
	assert.Equal(t, []Get{{To: "Soup in bowls", Planned: "2 kg", Now: "1.7 kg"}}, m.Gets)
	var texts []string
	for _, c := range m.Choices {
		texts = append(texts, c.Text)
	}
	assert.Equal(t, []string{"8 covers, a whole portion each", "10 covers, 85 % of a portion", "Make another 300 g", "Top up with 170 g of water"}, texts)
}

func TestMeansOfALargeBatchAndOfAnOddWeight(t *testing.T) {
	e := begin(t)
	means := func() *Means { return e.live.Means(e.live.Worked().Demand.ByCard["soup"], metric) }
	slip := kg(2)
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &slip})
	require.NotNil(t, means())
	assert.Equal(t, "20 g where 2 kg was planned: it is kept, and does not count yet. If it is right enter it once more, else weigh again", means().Doubt)
	more := kg(230)
	e.happens(Event{Kind: KindMeasure, On: BatchKey("soup", 1), Amount: &more})
	m := means()
	assert.Equal(t, []string{"", "300 g", ""}, []string{m.Short, m.Spare, m.Doubt})
	assert.Empty(t, m.Choices)
}

// By hand for ten covers: 2 kg of soup are one batch, with 800 g of peas; its 1.2 kg
// of stock are 1.2/1.6 of a batch with 3.2 kg of celery.
func TestOrderListOfASupper(t *testing.T) {
	e := begin(t)
	need := map[string]OrderLine{}
	for _, s := range e.live.OrderList(metric).Sections {
		for _, l := range s.Lines {
			need[l.Name] = l
		}
	}
	assert.Equal(t, "2.4 kg", need["celery"].Need)
	assert.Equal(t, []string{"Stock: 2.4 kg"}, need["celery"].For)
	assert.Equal(t, OrderKey("celery"), need["celery"].Key)
	assert.NotContains(t, need, "water", "it comes from the tap")
	have := kg(1000)
	e.happens(Event{Kind: KindHave, On: OrderKey("celery"), Amount: &have})
	for _, s := range e.live.OrderList(metric).Sections {
		for _, l := range s.Lines {
			if l.Name == "celery" {
				assert.Equal(t, []string{"enough there", "10 kg"}, []string{l.Buy, l.Have})
				assert.Empty(t, l.Asked)
			}
		}
	}
	assert.Empty(t, Follow("new", nil).OrderList(metric).Sections, "nothing is known of it yet")
}

// Celery is on the EU's list and not on the US's (Regulation (EU) No 1169/2011,
// Annex II; 21 U.S.C. 321(qq)).
func TestSheetAndClashesOfASupper(t *testing.T) {
	e := begin(t)
	guests := "2 covers: no celery (by the door)"
	e.happens(Event{Kind: KindGuests, Text: guests})
	e.happens(Event{Kind: KindLeave, On: ItemKey("plate", 2), Done: true})
	w := e.live.Worked()
	sheet := w.Sheet()
	require.Len(t, sheet, 1)
	assert.Equal(t, []any{"Soup", "Soup", 10}, []any{sheet[0].Course, sheet[0].Plate, sheet[0].Covers})
	require.Len(t, sheet[0].EU, 1)
	assert.Equal(t, Allergen{Code: "celery", Name: larder.OfficialName(larder.EU, "celery"), Certainty: larder.Always, Via: []string{"Soup › Stock › celery"}}, sheet[0].EU[0])
	assert.Empty(t, sheet[0].US)

	groups := w.ExclusionGroups()
	require.Len(t, groups, 1)
	via := []string{"Soup in bowls", "Soup", "Stock", "celery"}
	assert.Equal(t, ExclusionGroup{Covers: 2, Exclude: []string{"celery"}, Without: " without celery", NotChecked: []string{}, Note: "by the door", Clashes: []GroupClash{{Course: "Soup", Plate: "Soup", Clashing: Clashing{Word: "celery", Via: via, Sure: true}}}}, groups[0])
	assert.Equal(t, []PlateClash{{Covers: 2, Without: " without celery", Clashing: Clashing{Word: "celery", Via: via, Sure: true}}}, w.PlateClashes(1, 1))
	assert.Empty(t, w.PlateClashes(1, 2))
}

// The supper is served at 19:30 UTC. Its soup is boiled for 20 min by one cook, its
// stock twice.
func TestScheduleOfASupper(t *testing.T) {
	e := begin(t)
	const serveAt = 1_812_828_600_000 // 2027-06-12 19:30 UTC
	p, err := e.live.Plan(PlanClock{ServeAt: serveAt, Now: serveAt - 30*24*3_600_000}, false)
	require.NoError(t, err)
	s := e.live.Schedule(p, metric, true)
	assert.Empty(t, s.Blocked)
	assert.Equal(t, []string{"cook 1"}, s.Cooks)
	assert.Equal(t, []ShiftTime{{From: -690, To: 150, Wall: "2027-06-12T08:00", End: "2027-06-12T22:00"}}, s.Hours)
	assert.Equal(t, []CourseTime{{Name: "Soup", At: 0, Wall: "2027-06-12T19:30"}}, s.Courses)
	require.Len(t, s.Tasks, 4)
	boil := s.Tasks[2]
	assert.Equal(t, StepPlace{"soup", 1, 1}, boil.At)
	assert.Equal(t, []any{StepKey("soup", 1, 1), "Soup", "Boil the peas in the stock", 1, 20}, []any{boil.Key, boil.Title, boil.Say, boil.Number, boil.End - boil.Start})
	assert.Len(t, s.Starts, 4)
	assert.Equal(t, boil.Start, s.Starts[boil.Key])
	require.Len(t, s.Chances, 1)
	assert.Equal(t, "Soup", s.Chances[0].Course)
	assert.Empty(t, e.live.Schedule(p, metric, false).Chances, "only when asked for")

	e.happens(Event{Kind: KindServe, Text: "2027-06-12T08:30"}) // half an hour after the kitchen opens
	p, err = e.live.Plan(PlanClock{ServeAt: serveAt, Now: serveAt - 30*24*3_600_000}, false)
	require.NoError(t, err)
	s = e.live.Schedule(p, metric, true)
	assert.NotEmpty(t, s.Blocked)
	assert.Empty(t, s.Tasks)
}
