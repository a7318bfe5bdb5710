package plan

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// begun returns a dinner at a moment of its plan: steps that should have ended
// are done, steps that should have begun are running.
func begun(in Input, pl *Plan, now int) Input {
	in.Under, in.Now, in.Known = true, now, pl.Starts()
	in.Progress = map[Step]Progress{}
	for _, k := range pl.Tasks {
		if k.Start >= now {
			continue
		}
		p, ok := in.Progress[k.Step]
		if !ok {
			p = Progress{Begun: true, Start: k.Start, End: k.End, Done: true}
		}
		p.Start = min(p.Start, k.Start)
		p.End = max(p.End, k.End)
		p.Done = p.Done && k.End <= now
		in.Progress[k.Step] = p
	}
	return in
}

func remake(t testing.TB, in Input) *Plan {
	t.Helper()
	pl, err := Make(in)
	if b := new(Blocked); errors.As(err, &b) {
		t.Log(b.Because)
	}
	require.NoError(t, err)
	assert.Empty(t, breaks(in, pl))
	return pl
}

func task(t testing.TB, pl *Plan, card string, step int) Task {
	t.Helper()
	i := slices.IndexFunc(pl.Tasks, func(k Task) bool { return k.Card == card && k.Step.Step == step })
	require.GreaterOrEqual(t, i, 0)
	return pl.Tasks[i]
}

// TestRePlanWithoutChange plans again at any hour of a dinner that follows its
// plan: the plan stays the same.
func TestRePlanWithoutChange(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	in.Known = first.Starts()
	assert.Empty(t, remake(t, in).Moves(first.Starts()), "before anything is begun")
	for _, now := range []int{-3100, -2800, -1700, -1500, -400, -200, -60, 0, 40, 100} {
		again := begun(in, first, now)
		pl := remake(t, again)
		assert.Empty(t, pl.Moves(first.Starts()), "at %d", now)
		for _, c := range pl.Courses {
			assert.Equal(t, c.Due, c.At)
		}
	}
}

func TestStartedStepsStay(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	stock, second := task(t, first, "light-chicken-stock", 1), task(t, first, "light-chicken-stock", 2)
	in.Under, in.Known = true, first.Starts()
	in.Now = second.Start + 15
	in.Progress = map[Step]Progress{
		stock.Step:  {Begun: true, Done: true, Start: stock.Start - 3, End: stock.End - 7},
		second.Step: {Begun: true, Start: second.Start + 2, End: second.End + 20},
	}
	pl := remake(t, in)
	got := task(t, pl, "light-chicken-stock", 1)
	assert.Equal(t, []any{stock.Start - 3, stock.End - 7, true, true}, []any{got.Start, got.End, got.Held, got.Done})
	got = task(t, pl, "light-chicken-stock", 2)
	assert.Equal(t, []any{second.Start + 2, second.End + 20, true, false}, []any{got.Start, got.End, got.Held, got.Done})
	assert.GreaterOrEqual(t, task(t, pl, "light-chicken-stock", 3).Start, second.End+20, "what waits for it waits")
	for _, m := range pl.Moves(first.Starts()) {
		assert.NotEqual(t, second.Step, m.Step, "what is begun is no news")
	}
}

// TestLateStartMovesWhatFollows starts steps late: a step that should have begun
// starts now at the earliest, and a course is late only when it must be.
func TestLateStartMovesWhatFollows(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	for _, late := range []int{5, 20, 60} {
		again := in
		again.Under, again.Now, again.Known = true, first.Tasks[0].Start+late, first.Starts()
		pl := remake(t, again)
		assert.Zero(t, pl.Aims.Late, "%d minutes late", late)
		moves := pl.Moves(first.Starts())
		assert.NotEmpty(t, moves)
		assert.Less(t, len(moves), len(first.Tasks)/2, "%d minutes late moves half the dinner", late)
	}
}

// TestOverrunMovesWhatFollows lets a step take longer: the steps that wait for
// it move, and when a course is late the plan says by how much.
func TestOverrunMovesWhatFollows(t *testing.T) {
	in := cook(t, galley(1, "12:00–22:00", "oven: 1"), courses(4, "plate"), map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"1 piece bread"},
		"Knead.; hands: 20 min; keep: 30 min room", "Bake the **bread**.; oven: 200 °C; hands: 5 min; wait: 25 min; keep: 10 min hot", "Send.; hands: 10 min; serve")})
	first := remake(t, in)
	knead, bake := task(t, first, "plate", 1), task(t, first, "plate", 2)
	again := begun(in, first, bake.Start+10)
	again.Progress[knead.Step] = Progress{Begun: true, Done: true, Start: knead.Start, End: knead.End}
	again.Progress[bake.Step] = Progress{Begun: true, Start: bake.Start, End: bake.End + 12}
	pl := remake(t, again)
	send := task(t, pl, "plate", 3)
	assert.Equal(t, bake.End+12, send.Start)
	assert.Equal(t, bake.End+22, pl.Courses[0].At, "not a minute more than it must be")
	assert.Equal(t, bake.End+22, pl.Aims.Late)

	// No timer was set, and the step should have ended: it is taken to end now.
	again = begun(in, first, bake.End+3)
	again.Progress = map[Step]Progress{bake.Step: {Begun: true, Start: bake.Start, End: bake.Start}, knead.Step: again.Progress[knead.Step]}
	pl = remake(t, again)
	assert.Equal(t, again.Now, task(t, pl, "plate", 2).End)
	assert.GreaterOrEqual(t, task(t, pl, "plate", 3).Start, again.Now)
}

// TestOverdueIsReported checks that food which has waited too long is reported
// by the plan and does not block it.
func TestOverdueIsReported(t *testing.T) {
	in := cook(t, galley(1, "12:00–22:00"), courses(4, "plate"), map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"1 piece bread"},
		"Cut.; hands: 10 min; keep: 30 min room", "Send.; hands: 10 min; serve")})
	in.Under, in.Now = true, -60
	in.Progress = map[Step]Progress{{"plate", 1, 1}: {Begun: true, Done: true, Start: -120, End: -110}}
	pl := remake(t, in)
	assert.Equal(t, 65, task(t, pl, "plate", 2).Overdue, "from 80 minutes before serving to 15: it was to be dressed in the last quarter of an hour")
	in.Now = -40
	in.Progress = map[Step]Progress{{"plate", 1, 1}: {Begun: true, Done: true, Start: -55, End: -45}}
	pl = remake(t, in)
	assert.Zero(t, task(t, pl, "plate", 2).Overdue)
}

// TestPostponedStep puts a step off by ten minutes: it starts ten minutes later.
func TestPostponedStep(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	cut := task(t, first, "pickled-radishes", 1)
	again := begun(in, first, cut.Start)
	again.Later = map[Step]int{cut.Step: cut.Start + 10}
	pl := remake(t, again)
	assert.GreaterOrEqual(t, task(t, pl, "pickled-radishes", 1).Start, cut.Start+10)
	assert.Less(t, len(pl.Moves(first.Starts())), 10, "the others hardly move")
}

// TestRePlanAtAnyMoment plans again after any events: the plan keeps the rules
// for every step that is not begun.
func TestRePlanAtAnyMoment(t *testing.T) {
	in := supper(t, 18)
	first, err := Make(in)
	require.NoError(t, err)
	planned, late := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		now := rapid.IntRange(-3040, 130).Draw(t, "now")
		again := in
		again.Under, again.Now, again.Known = true, now, first.Starts()
		again.Progress = map[Step]Progress{}
		slip := rapid.IntRange(0, 40).Draw(t, "slip")
		for _, k := range first.Tasks {
			if k.Start >= now-slip {
				continue
			}
			off := rapid.SampledFrom([]int{0, 0, 0, 0, 0, 0, 0, 0, -3, 4, 12, 25}).Draw(t, "off")
			p := Progress{Begun: true, Start: k.Start, End: min(max(k.Start, k.End+off), now), Done: true}
			if k.End+off > now {
				p.Done, p.End = false, rapid.SampledFrom([]int{k.Start, k.End + off}).Draw(t, "timer")
			}
			again.Progress[k.Step] = p
		}
		pl, err := Make(again)
		if err != nil {
			t.Fatalf("at %d: %v", now, err)
		}
		planned++
		late += min(1, pl.Aims.Late)
		said := breaks(again, pl)
		if len(said) > 0 {
			t.Fatalf("at %d: %s", now, strings.Join(said, "\n"))
		}
	})
	t.Logf("%d plans, %d with a late course", planned, late)
}
