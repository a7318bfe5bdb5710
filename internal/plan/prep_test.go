package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The prep list has every item of the plan's batches that needs work, once, with its
// batch's amount, on the day and with the cook of the first step that names it.
func TestPrepListHasEachItemOnceAtItsFirstUse(t *testing.T) {
	in := supper(t, 18)
	p, err := Make(in)
	require.NoError(t, err)
	in.explode()
	type item struct {
		card        string
		batch, item int
	}
	listed := map[item]bool{}
	lines := in.Prep(p)
	require.NotEmpty(t, lines)
	shared := 0
	for i, line := range lines {
		if i > 0 {
			before := lines[i-1]
			assert.False(t, line.Day < before.Day || line.Day == before.Day && line.Cook < before.Cook, "%s is out of order", line.Name)
			assert.NotEqual(t, [3]any{before.Day, before.Cook, before.Line}, [3]any{line.Day, line.Cook, line.Line}, "two lines of %s", line.Name)
		}
		shared += len(line.Parts) - 1
		for _, part := range line.Parts {
			key := item{part.Card, part.Batch, part.Item}
			assert.False(t, listed[key], "%v twice", key)
			listed[key] = true
			comp := in.Demand.ByCard[part.Card]
			assert.Equal(t, comp.Batches[part.Batch-1].Items[part.Item-1], part.Amount)
			first := -1
			for k := range p.Tasks {
				task := &p.Tasks[k]
				if first < 0 && task.Card == part.Card && task.Batch == part.Batch && comp.Card.Takes(task.Step.Step-1, part.Item-1) {
					first = k
				}
			}
			require.GreaterOrEqual(t, first, 0)
			assert.Equal(t, p.Tasks[first].Start, part.By)
			assert.Equal(t, p.Tasks[first].Cook, line.Cook)
			assert.Equal(t, p.Reading(part.By).DaysSince(p.Serve), line.Day)
		}
	}
	wanted := 0
	for _, comp := range in.Demand.Components {
		for i := range comp.Card.Items {
			if comp.Card.PrepWork(i) != "" && !in.Dinner.Off(comp.Card, i) {
				wanted += len(comp.Batches)
			}
		}
	}
	assert.Len(t, listed, wanted)
	assert.Positive(t, shared, "some ingredient is prepared for several cards at once")
}

func TestPrepPartsWithTheSameWorkStandTogether(t *testing.T) {
	parts := []PrepPart{{Card: "a", Work: "halved"}, {Card: "b", Work: "fine"}, {Card: "c", Work: "halved"}}
	together(parts)
	assert.Equal(t, []PrepPart{{Card: "a", Work: "halved"}, {Card: "c", Work: "halved"}, {Card: "b", Work: "fine"}}, parts)
}
