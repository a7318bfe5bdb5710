package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// manyChains returns a problem of so many chains of five activities on three machines.
// Within a chain each activity follows the one before it at once or a little later, and
// between chains there is much room.
func manyChains(chains int) *Problem {
	p := &Problem{Resources: []Resource{{Cap: 3}}}
	rnd := NewRandom(3)
	for c := range chains {
		for k := range 5 {
			i := len(p.Activities)
			dur := 3 + rnd.below(20)
			p.Activities = append(p.Activities, Activity{Dur: dur, Needs: []Need{{0, 1 + (c+k)%2, 0}}})
			if k > 0 {
				before := p.Activities[i-1].Dur
				p.Lags = append(p.Lags, Lag{i - 1, i, before}, Lag{i, i - 1, -before - rnd.below(8)})
			}
		}
	}
	return p
}

// TestLargeProblemWithChainsTakesOneList solves a problem of 300 activities in chains with
// a budget of one schedule. A list that takes the chains apart gives none.
func TestLargeProblemWithChainsTakesOneList(t *testing.T) {
	p := manyChains(60)
	s, rep, err := Solve(p, Budget{Schedules: 1, Seed: 1})
	require.NoError(t, err)
	require.NoError(t, Check(p, s))
	assert.Equal(t, 1, rep.Schedules)
}

// TestChainsAreThoseOfTheLags compares the chains with those that the problem was made of,
// and checks that a list by chain takes none apart.
func TestChainsAreThoseOfTheLags(t *testing.T) {
	m, infeasible := compile(manyChains(60))
	require.Nil(t, infeasible)
	chain := m.chains()
	for i, c := range chain {
		assert.Equal(t, int32(i/5*5), c, "activity %d", i)
	}
	rules := newPriorities(m, NewRandom(1))
	for k := range 2 * ruleCount {
		list := m.newActivityList(byChain(chain, rules.rule(k)))
		for at, i := range list {
			assert.Equal(t, list[at/5*5]/5, i/5, "rule %d, place %d", k, at)
		}
	}
}

// TestSmallProblemHasNoChains: small problems, and those without maximum time lags, are
// solved as if there were none.
func TestSmallProblemHasNoChains(t *testing.T) {
	m, infeasible := compile(manyChains(40))
	require.Nil(t, infeasible)
	assert.Nil(t, m.chains())
	p := manyChains(60)
	p.Lags = nil
	m, infeasible = compile(p)
	require.Nil(t, infeasible)
	assert.Nil(t, m.chains())
}
