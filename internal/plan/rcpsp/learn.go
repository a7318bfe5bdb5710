package rcpsp

import (
	"slices"
	"sort"
)

// A nogood's facts cannot all be false. (It is stored as what must hold, so
// that the first two are the ones watched.)
type nogood []fact

type watch struct {
	nogood int32
	v      int32 // the watched fact is false when the watching side is at most this
}

// learner turns dead ends into nogoods: from the facts that clashed it goes back
// through the reasons until a single fact of the last decision's level is left
// (the first unique implication point of conflict-driven clause learning; on
// bounds made as they are needed: Schutt, Feydy, Stuckey, Wallace, Constraints
// 16, 2011, and the lazily explained bounds of later solvers; from memory).
type learner struct {
	t       *trail
	nogoods []nogood
	watches [][]watch // by the side whose tightening can make the fact false

	need   []int32 // the tightest value wanted of each side in the present cut
	in     []bool
	sides  []int32 // those that are or were in the cut
	listed []bool  // whether sides has it
	facts  []fact  // room for reasons
	heat   []float64
	gain   float64
}

func newLearner(m *model, t *trail) *learner {
	return &learner{t: t, watches: make([][]watch, 2*m.n), need: make([]int32, 2*m.n),
		in: make([]bool, 2*m.n), listed: make([]bool, 2*m.n), heat: make([]float64, m.n), gain: 1}
}

// because gives the facts that forced f at step s.
func (l *learner) because(s int32, f fact) []fact {
	switch why := l.t.steps[s].why; why.kind {
	case byLag:
		l.facts = append(l.facts[:0], fact{why.a, f.v + why.b})
	case byNogood:
		l.facts = l.facts[:0]
		for _, g := range l.nogoods[why.a] {
			if g.side != f.side || g.v > f.v {
				l.facts = append(l.facts, g.not())
			}
		}
	case byList:
		return l.t.list[why.a:why.b]
	}
	return l.facts
}

// learn explains the trail's clash and adds a nogood. It gives the level to
// go back to and the nogood's number; level -1 says that the clash does not
// depend on any choice, and so that there is no schedule.
func (l *learner) learn() (level int, added int32) {
	t := l.t
	current := t.levels[len(t.levels)-1].steps
	open := 0
	add := func(f fact) {
		s := t.madeTrue(f)
		if s < 0 {
			return
		}
		if !l.in[f.side] {
			l.in[f.side], l.need[f.side] = true, f.v
			if !l.listed[f.side] {
				l.listed[f.side] = true
				l.sides = append(l.sides, f.side)
			}
			if s >= current {
				open++
			}
			l.warm(f.side)
		} else if f.v < l.need[f.side] {
			if s >= current && t.madeTrue(fact{f.side, l.need[f.side]}) < current {
				open++
			}
			l.need[f.side] = f.v
		}
	}
	for _, f := range t.clash {
		add(f)
	}
	// A clash within an earlier level: a nogood was already violated when the
	// present level began. Go up to where it happened.
	for open == 0 {
		t.up(len(t.levels) - 1)
		if len(t.levels) == 0 {
			l.forget()
			return -1, 0
		}
		current = t.levels[len(t.levels)-1].steps
		for _, side := range l.sides {
			if t.madeTrue(fact{side, l.need[side]}) >= current {
				open++
			}
		}
	}
	var uip fact
	for s := int32(len(t.steps) - 1); ; s-- {
		st := &t.steps[s]
		if !l.in[st.side] || st.v > l.need[st.side] || st.old <= l.need[st.side] {
			continue
		}
		f := fact{st.side, l.need[st.side]}
		if open == 1 {
			uip = f
			break
		}
		open--
		l.in[st.side] = false
		for _, g := range l.because(s, f) {
			add(g)
		}
	}
	return l.record(uip)
}

// record makes the nogood of the cut, less what the rest of the cut implies.
func (l *learner) record(uip fact) (level int, added int32) {
	t := l.t
	no := nogood{uip.not()}
	second := int32(-1) // the latest step among the others
	for _, side := range l.sides {
		if !l.in[side] || side == uip.side {
			continue
		}
		f := fact{side, l.need[side]}
		s := t.madeTrue(f)
		if l.implied(s, f) {
			continue
		}
		no = append(no, f.not())
		if s > second {
			second = s
			no[1], no[len(no)-1] = no[len(no)-1], no[1]
		}
	}
	l.forget()
	for k := len(t.levels) - 1; k >= 0; k-- {
		if t.levels[k].steps <= second {
			level = k + 1
			break
		}
	}
	added = int32(len(l.nogoods))
	l.nogoods = append(l.nogoods, no)
	if len(no) > 1 {
		l.watch(added, no[0])
		l.watch(added, no[1])
	}
	l.gain *= 1.05
	if l.gain > 1e100 {
		for i := range l.heat {
			l.heat[i] *= 1e-100
		}
		l.gain *= 1e-100
	}
	return level, added
}

// implied says that the reasons of f are in the cut themselves, each made true
// before f, so that no two facts can stand for one another.
func (l *learner) implied(s int32, f fact) bool {
	if l.t.steps[s].why.kind == chosen {
		return false
	}
	for _, g := range l.because(s, f) {
		if l.t.madeTrue(g) < 0 {
			continue
		}
		if !l.in[g.side] || l.need[g.side] > g.v || l.t.madeTrue(fact{g.side, l.need[g.side]}) >= s {
			return false
		}
	}
	return true
}

func (l *learner) forget() {
	for _, side := range l.sides {
		l.in[side], l.listed[side] = false, false
	}
	l.sides = l.sides[:0]
}

func (l *learner) warm(side int32) { l.heat[side/2] += l.gain }

// blame warms what a clash at the root goes back to, reason by reason: with no
// choice made, that is the proof.
func (l *learner) blame() {
	todo := slices.Clone(l.t.clash)
	seen := map[int32]bool{}
	for len(todo) > 0 {
		f := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		l.warm(f.side)
		s := l.t.last[f.side]
		for s >= 0 && l.t.steps[s].old <= f.v {
			s = l.t.steps[s].before
		}
		if s >= 0 && !seen[s] && l.t.steps[s].why.kind != chosen {
			seen[s] = true
			todo = append(todo, l.because(s, f)...)
		}
	}
}

// hottest are the activities met most in dead ends, late ones counting more.
func (l *learner) hottest(most int) []int {
	var out []int
	for i, h := range l.heat {
		if h > 0 {
			out = append(out, i)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return l.heat[out[a]] > l.heat[out[b]] })
	return out[:min(most, len(out))]
}

func (l *learner) watch(no int32, f fact) {
	n := f.not()
	l.watches[n.side] = append(l.watches[n.side], watch{no, n.v})
}

func (l *learner) isFalse(f fact) bool { return l.t.bound[f.side^1] <= -f.v-1 }
func (l *learner) isTrue(f fact) bool  { return l.t.bound[f.side] <= f.v }

// falsified looks at the nogoods that watch a fact which the step made false.
func (l *learner) falsified(st step) bool {
	ws := l.watches[st.side]
	keep := 0
	for k := 0; k < len(ws); k++ {
		w := ws[k]
		if w.v < st.v || w.v >= st.old {
			ws[keep] = w
			keep++
			continue
		}
		no := l.nogoods[w.nogood]
		if n := no[0].not(); n.side == st.side && n.v == w.v {
			no[0], no[1] = no[1], no[0]
		}
		if l.isTrue(no[0]) {
			ws[keep] = w
			keep++
			continue
		}
		moved := false
		for x := 2; x < len(no); x++ {
			if !l.isFalse(no[x]) {
				no[1], no[x] = no[x], no[1]
				l.watch(w.nogood, no[1])
				moved = true
				break
			}
		}
		if moved {
			continue
		}
		ws[keep] = w
		keep++
		if !l.t.set(no[0], reason{kind: byNogood, a: w.nogood}) {
			for _, g := range no[1:] {
				l.t.clash = append(l.t.clash, g.not())
			}
			for k++; k < len(ws); k++ {
				ws[keep] = ws[k]
				keep++
			}
			l.watches[st.side] = ws[:keep]
			return false
		}
	}
	l.watches[st.side] = ws[:keep]
	return true
}
