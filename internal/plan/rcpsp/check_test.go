package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each row violates one constraint of a schedule that satisfies all.
func TestCheckFindsEachViolation(t *testing.T) {
	good := func() (*Problem, Schedule) {
		return &Problem{
			Horizon: 30,
			Activities: []Activity{
				{Dur: 4, Needs: []Need{{0, 1, 0}, {1, 1, 180}}},
				{Dur: 3, Needs: []Need{{0, 1, 0}}, Release: 4, Deadline: 12},
				{Dur: 5, Needs: []Need{{1, 1, 220}}, Fixed: true, Start: 6},
				{Dur: 2, Needs: []Need{{1, 1, 220}}},
			},
			Lags:      []Lag{{0, 1, 4}, {1, 0, -6}},
			Resources: []Resource{{Cap: 1, Changes: []Change{{20, 0}, {25, 1}}}, {Cap: 2}},
		}, Schedule{0, 5, 6, 7}
	}
	p, s := good()
	require.NoError(t, Check(p, s))
	for _, tt := range []struct {
		name   string
		change func(*Problem, Schedule) Schedule
		want   string
	}{
		{"too few starts", func(_ *Problem, s Schedule) Schedule { return s[:2] }, "the schedule has 2 starts for 4 activities"},
		{"before zero", func(_ *Problem, s Schedule) Schedule { s[0] = -1; return s }, "activity 0 starts at -1, before its release 0"},
		{"before release", func(p *Problem, s Schedule) Schedule { p.Activities[1].Release = 6; return s }, "activity 1 starts at 5, before its release 6"},
		{"after deadline", func(p *Problem, s Schedule) Schedule { p.Activities[1].Deadline = 7; return s }, "activity 1 ends at 8, after its deadline 7"},
		{"after horizon", func(_ *Problem, s Schedule) Schedule { s[3] = 29; return s }, "activity 3 ends at 31, after the horizon 30"},
		{"fixed activity moved", func(_ *Problem, s Schedule) Schedule { s[2] = 5; return s }, "activity 2 is fixed at 6 but starts at 5"},
		{"minimum lag", func(_ *Problem, s Schedule) Schedule { s[0] = 2; return s }, "activity 0 starts at 2 and activity 1 at 5: the time lag from 0 must be at least 4"},
		{"maximum lag", func(_ *Problem, s Schedule) Schedule { s[1] = 7; return s }, "activity 1 starts at 7 and activity 0 at 0: the time lag from 1 must be at least -6"},
		{"capacity", func(p *Problem, s Schedule) Schedule { p.Lags = nil; s[0] = 4; return s }, "at 5, 2 of resource 0 are in use, but its capacity is 1"},
		{"break", func(p *Problem, s Schedule) Schedule {
			p.Lags, p.Activities[1].Deadline, s[1] = nil, 0, 18
			return s
		}, "at 20, 1 of resource 0 are in use, but its capacity is 0"},
		{"state", func(p *Problem, s Schedule) Schedule {
			p.Lags, p.Activities[0].Needs, s[0] = nil, []Need{{1, 0, 180}}, 8
			return s
		}, "at 8, resource 1 would have to be in 2 states at the same time"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p, s := good()
			assert.EqualError(t, Check(p, tt.change(p, s)), tt.want)
		})
	}
}

// Fixed activities may violate constraints; what is planned beside them may not.
func TestCheckAcceptsFixedActivitiesAsFacts(t *testing.T) {
	p := &Problem{
		Activities: []Activity{
			{Dur: 5, Needs: []Need{{0, 1, 1}}, Fixed: true},
			{Dur: 5, Needs: []Need{{0, 1, 2}}, Fixed: true, Start: 1},
			{Dur: 1, Needs: []Need{{0, 1, 0}}},
		},
		Lags:      []Lag{{0, 1, 9}},
		Resources: []Resource{{Cap: 1}},
	}
	assert.NoError(t, Check(p, Schedule{0, 1, 6}))
	assert.ErrorContains(t, Check(p, Schedule{0, 1, 5}), "in use")
}

func TestValidateNamesTheInvalidValue(t *testing.T) {
	for _, tt := range []struct {
		want string
		p    Problem
	}{
		{"horizon -1", Problem{Horizon: -1}},
		{"resource 0: capacity 40000", Problem{Resources: []Resource{{Cap: 40000}}}},
		{"change 0: capacity -1", Problem{Resources: []Resource{{Changes: []Change{{0, -1}}}}}},
		{"change 0: time 16777217 is outside", Problem{Resources: []Resource{{Changes: []Change{{MaxTime + 1, 1}}}}}},
		{"change 1 at 3 must come after the one at 3", Problem{Resources: []Resource{{Changes: []Change{{3, 1}, {3, 2}}}}}},
		{"activity 0: duration -1", Problem{Activities: []Activity{{Dur: -1}}}},
		{"activity 0: release, deadline or start is outside", Problem{Activities: []Activity{{Release: MaxTime + 1}}}},
		{"needs resource 0, but there are 0 resources", Problem{Activities: []Activity{{Needs: []Need{{}}}}}},
		{"needs -1 of resource 0", Problem{Resources: make([]Resource, 1), Activities: []Activity{{Needs: []Need{{0, -1, 0}}}}}},
		{"needs resource 0 twice", Problem{Resources: make([]Resource, 1), Activities: []Activity{{Needs: []Need{{0, 1, 0}, {0, 1, 0}}}}}},
		{"activity 0, slope at 4: -1 is outside", Problem{Activities: []Activity{{Cost: Curve{{At: 4, Early: -1}}}}}},
		{"lag 0 is from activity 0 to activity 1, but the activities are 0 to 0", Problem{Activities: make([]Activity, 1), Lags: []Lag{{0, 1, 0}}}},
		{"lag 0: 20000000 is outside", Problem{Activities: make([]Activity, 1), Lags: []Lag{{0, 0, 20000000}}}},
	} {
		t.Run(tt.want, func(t *testing.T) {
			assert.ErrorContains(t, tt.p.Validate(), tt.want)
			_, _, err := Solve(&tt.p, Budget{Schedules: 1})
			assert.ErrorContains(t, err, tt.want)
		})
	}
}
