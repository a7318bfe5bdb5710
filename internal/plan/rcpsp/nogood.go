package rcpsp

// A nogood is a combination of bounds that no better schedule has. It is stored as
// a clause: literals of which at least one must be true. The first two are watched.
type nogood []literal

// watch is one entry in the list of a view: the watched literal becomes false when
// the view's bound falls to max or below.
type watch struct{ nogood, max int32 }

// nogoods stores what the search has learned, with two watched literals for each
// nogood: as long as neither is false, the nogood has nothing to propagate.
type nogoods struct {
	all     []nogood
	watches [][]watch // by the view whose tightening can make the literal false
}

func newNogoods(m *model) nogoods { return nogoods{watches: make([][]watch, 2*m.n)} }

// add stores a nogood and returns its number.
func (ns *nogoods) add(n nogood) int32 {
	number := int32(len(ns.all))
	ns.all = append(ns.all, n)
	if len(n) > 1 {
		ns.watch(number, n[0])
		ns.watch(number, n[1])
	}
	return number
}

func (ns *nogoods) watch(number int32, l literal) {
	n := l.negated()
	ns.watches[n.view] = append(ns.watches[n.view], watch{number, n.max})
}

// propagate examines the nogoods of which ev made a watched literal false. It
// returns false, with the trail's conflict set, if all literals of one are false.
func (ns *nogoods) propagate(t *trail, ev event) bool {
	list := ns.watches[ev.view]
	keep := 0 // the watches before this position stay in the list
	for k, w := range list {
		if w.max >= ev.max && w.max < ev.oldMax {
			if ns.moveWatch(t, w, ev.view) {
				continue
			}
			n := ns.all[w.nogood]
			if !t.isTrue(n[0]) && !t.set(n[0], reason{kind: fromNogood, a: w.nogood}) {
				for _, l := range n[1:] {
					t.conflict = append(t.conflict, l.negated())
				}
				keep += copy(list[keep:], list[k:])
				ns.watches[ev.view] = list[:keep]
				return false
			}
		}
		list[keep] = w
		keep++
	}
	ns.watches[ev.view] = list[:keep]
	return true
}

// moveWatch puts the literal that became false second in its nogood. It replaces
// it by a literal that is not false and returns true, unless the first literal is
// true already or there is no other.
func (ns *nogoods) moveWatch(t *trail, w watch, view int32) bool {
	n := ns.all[w.nogood]
	if first := n[0].negated(); first.view == view && first.max == w.max {
		n[0], n[1] = n[1], n[0]
	}
	if t.isTrue(n[0]) {
		return false
	}
	for x := 2; x < len(n); x++ {
		if !t.isFalse(n[x]) {
			n[1], n[x] = n[x], n[1]
			ns.watch(w.nogood, n[1])
			return true
		}
	}
	return false
}
