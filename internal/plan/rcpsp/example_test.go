package rcpsp_test

import (
	"errors"
	"fmt"

	"hobside/internal/plan/rcpsp"
)

// A workshop makes a table. Times are in hours. Two people work there; sanding
// needs both. The legs and the top can be made at the same time, and both have to
// be ready before the table is put together.
func Example() {
	const people = 0 // index in Resources
	const legs, top, sand, join = 0, 1, 2, 3
	needs := func(n int) []rcpsp.Need { return []rcpsp.Need{{Resource: people, Amount: n}} }
	p := &rcpsp.Problem{
		Resources: []rcpsp.Resource{{Cap: 2}},
		Activities: []rcpsp.Activity{
			legs: {Dur: 3, Needs: needs(1)},
			top:  {Dur: 2, Needs: needs(1)},
			sand: {Dur: 1, Needs: needs(2)},
			join: {Dur: 2, Needs: needs(1)},
		},
		Lags: []rcpsp.Lag{ // from start to start: the duration of the first, so that it has ended
			{From: top, To: sand, Min: 2},
			{From: legs, To: join, Min: 3},
			{From: sand, To: join, Min: 1},
		},
	}
	s, rep, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 100, Seed: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("legs", s[legs], "top", s[top], "sand", s[sand], "join", s[join])
	fmt.Println("makespan", s.Makespan(p), "without resources", rep.CriticalPath)
	fmt.Println("optimal", rep.Status == rcpsp.Optimal, "checked", rcpsp.Check(p, s) == nil)
	// Output:
	// legs 0 top 0 sand 3 join 4
	// makespan 6 without resources 5
	// optimal true checked true
}

// Glue has to be used at most one hour after it was mixed: a maximum time lag from
// mixing to gluing, which is a negative lag the other way round. Without it, the
// glue would be mixed at once and wait for the saw cut.
func Example_maximumLag() {
	const saw, mix, glue = 0, 1, 2
	p := &rcpsp.Problem{
		Activities: []rcpsp.Activity{saw: {Dur: 5}, mix: {Dur: 1}, glue: {Dur: 2}},
		Lags: []rcpsp.Lag{
			{From: saw, To: glue, Min: 5},
			{From: mix, To: glue, Min: 1},
			{From: glue, To: mix, Min: -2}, // mix starts at most 2 before glue does
		},
	}
	s, _, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 100})
	fmt.Println("saw", s[saw], "mix", s[mix], "glue", s[glue], err)
	// Output: saw 0 mix 3 glue 5 <nil>
}

// The machine is switched off from 4 to 6: a calendar. Activities are not
// interrupted, so one that does not fit before the break starts after it.
func Example_calendar() {
	const machine = 0
	needs := []rcpsp.Need{{Resource: machine, Amount: 1}}
	p := &rcpsp.Problem{
		Resources:  []rcpsp.Resource{{Cap: 1, Changes: []rcpsp.Change{{At: 4, Cap: 0}, {At: 6, Cap: 1}}}},
		Activities: []rcpsp.Activity{{Dur: 3, Needs: needs}, {Dur: 4, Needs: needs}},
	}
	s, _, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 100})
	fmt.Println(s, s.Makespan(p), err)
	// Output: [6 0] 9 <nil>
}

// A kiln holds two pieces, and both have to be fired at the same temperature: the
// state of the resource.
func Example_state() {
	fire := func(celsius int) rcpsp.Activity {
		return rcpsp.Activity{Dur: 5, Needs: []rcpsp.Need{{Resource: 0, Amount: 1, State: celsius}}}
	}
	p := &rcpsp.Problem{
		Resources:  []rcpsp.Resource{{Cap: 2}},
		Activities: []rcpsp.Activity{fire(900), fire(1200), fire(900)},
	}
	s, _, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 100})
	fmt.Println("together", s[0] == s[2], "makespan", s.Makespan(p), err)
	// Output: together true makespan 10 <nil>
}

// The first activity should start at 6: earlier and later both cost something. The
// second is followed by nothing and costs less the earlier it starts.
func ExampleReduceCost() {
	p := &rcpsp.Problem{
		Horizon:   12,
		Resources: []rcpsp.Resource{{Cap: 1}},
		Activities: []rcpsp.Activity{
			{Dur: 3, Needs: []rcpsp.Need{{Amount: 1}}, Cost: rcpsp.Curve{{At: 6, Early: 2, Late: 5}}},
			{Dur: 2, Needs: []rcpsp.Need{{Amount: 1}}, Cost: rcpsp.Curve{{Late: 1}}},
			{Dur: 12},
		},
	}
	before := rcpsp.Schedule{0, 3, 0}
	after, cost, err := rcpsp.ReduceCost(p, before, rcpsp.Budget{Schedules: 20})
	fmt.Println(before, "costs", p.Cost(before))
	fmt.Println(after, "costs", cost, err)
	// Output:
	// [0 3 0] costs 15
	// [6 0 0] costs 0 <nil>
}

// Two activities of 4 hours each on one machine do not fit into 7 hours.
func ExampleInfeasibleError() {
	needs := []rcpsp.Need{{Resource: 0, Amount: 1}}
	p := &rcpsp.Problem{
		Horizon:    7,
		Resources:  []rcpsp.Resource{{Cap: 1}},
		Activities: []rcpsp.Activity{{Dur: 4, Needs: needs}, {Dur: 4, Needs: needs}},
	}
	_, _, err := rcpsp.Solve(p, rcpsp.Budget{Schedules: 100})
	if infeasible := new(rcpsp.InfeasibleError); errors.As(err, &infeasible) && infeasible.Overload != nil {
		fmt.Println("required", infeasible.Overload.Required, "available", infeasible.Overload.Available)
	}
	fmt.Println(err)
	// Output:
	// required 8 available 7
	// activities [0 1] must all run between 0 and 7 and require 8 of resource 0 over that time, which has 7
}
