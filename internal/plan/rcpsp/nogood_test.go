package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Nogoods propagate like clauses, whatever was set and undone before: when nothing
// is left to propagate, a nogood that has one literal left which is not false has
// that literal true, and none has all its literals false. A conflict names literals
// that hold.
func TestNogoodsPropagateLikeClauses(t *testing.T) {
	units := 0
	rapid.Check(t, func(rt *rapid.T) {
		const activities, latest = 4, 6
		m := &model{n: activities, es: make([]int32, activities), ls: make([]int32, activities)}
		for i := range m.ls {
			m.ls[i] = latest
		}
		tr, ns := newTrail(m), newNogoods(m)
		drawLiteral := func() literal {
			i, at := int32(rapid.IntRange(0, activities-1).Draw(rt, "activity")), int32(rapid.IntRange(1, latest).Draw(rt, "at"))
			if rapid.Bool().Draw(rt, "at least") {
				return startAtLeast(i, at)
			}
			return startAtMost(i, at-1)
		}
		for range rapid.IntRange(1, 8).Draw(rt, "nogoods") {
			var n nogood
			views := map[int32]bool{}
			for len(n) < rapid.IntRange(2, 4).Draw(rt, "literals") {
				if l := drawLiteral(); !views[l.view] {
					views[l.view] = true
					n = append(n, l)
				}
			}
			ns.add(n)
		}
		for range rapid.IntRange(1, 25).Draw(rt, "steps") {
			if len(tr.levels) > 0 && rapid.IntRange(0, 4).Draw(rt, "back") == 0 {
				tr.backtrack(rapid.IntRange(0, len(tr.levels)-1).Draw(rt, "level"))
				continue
			}
			l := drawLiteral()
			if tr.isTrue(l) || tr.isFalse(l) {
				continue
			}
			tr.newLevel()
			ok := tr.set(l, reason{kind: decision})
			for ok && tr.next < len(tr.events) {
				tr.next++
				ok = ns.propagate(tr, tr.events[tr.next-1])
			}
			if !ok {
				for _, l := range tr.conflict {
					require.True(rt, tr.isTrue(l), "a literal of the conflict does not hold")
				}
				tr.backtrack(len(tr.levels) - 1)
				continue
			}
			for _, n := range ns.all {
				open, holds := 0, false
				for _, l := range n {
					holds = holds || tr.bound[l.view] <= l.max
					if tr.bound[l.view^1] > -l.max-1 { // some start left makes it true
						open++
					}
				}
				require.True(rt, holds || open > 1, "%v should have been propagated", n)
				if holds && open == 1 {
					units++
				}
			}
		}
	})
	require.Positive(t, units, "no literal was propagated")
}

// Not (x < 3 and y >= 3) with not (x < 3 and y < 3) leaves x no start under 3.
func TestTwoNogoodsThatForceOppositesConflict(t *testing.T) {
	m := &model{n: 2, es: []int32{0, 0}, ls: []int32{6, 6}}
	tr, ns := newTrail(m), newNogoods(m)
	x, y := int32(0), int32(1)
	ns.add(nogood{startAtLeast(x, 3), startAtLeast(y, 3)})
	ns.add(nogood{startAtLeast(x, 3), startAtMost(y, 2)})
	tr.newLevel()
	ok := tr.set(startAtMost(x, 2), reason{kind: decision})
	for ok && tr.next < len(tr.events) {
		tr.next++
		ok = ns.propagate(tr, tr.events[tr.next-1])
	}
	require.False(t, ok, "y can start neither before 3 nor from 3 on")
	require.NotEmpty(t, tr.conflict)
	for _, l := range tr.conflict {
		require.True(t, tr.isTrue(l), "a literal of the conflict does not hold")
	}
}
