package rcpsp

import "slices"

// sweep moves each activity, alone and then with those that have to move along,
// to where it is cheapest. It says whether anything was gained.
func (sm *smoother) sweep() bool {
	gained := false
	order := slices.Clone(sm.list)
	sm.shuffle(order)
	for _, i := range order {
		if sm.left <= 0 {
			break
		}
		if len(sm.m.p.Activities[i].Cost) == 0 {
			continue
		}
		from := sm.start[i]
		sm.lift(i)
		t, ok := sm.best(i)
		if !ok || sm.cost(i, t) >= sm.cost(i, from) {
			t = from
		}
		sm.drop(i, t)
		gained = gained || t != from
		if sm.along(i) {
			gained = true
		}
	}
	return gained
}

// along moves i towards where it is cheaper and takes with it what its lags
// bind to it: to each end of a straight piece of its cost, then half, then a
// quarter of the way to the cheapest.
func (sm *smoother) along(i int32) bool {
	curve, now := sm.m.p.Activities[i].Cost, sm.cost(i, sm.start[i])
	moved := false
	curve.pieces(int(sm.m.lo[i]), int(sm.hi[i]), func(a, b int) bool {
		first, last := curve.At(a), curve.At(b)
		if min(first, last) >= now {
			return true
		}
		t, inward := int32(a), int32(1)
		if last < first {
			t, inward = int32(b), -1
		}
		for range detours {
			fits, aside := sm.shift(i, t, inward)
			if moved = fits; fits || aside == 0 {
				break
			}
			t += aside * inward
			if t < int32(a) || t > int32(b) || sm.left <= 0 {
				break
			}
		}
		return !moved && sm.left > 0
	})
	if moved {
		return true
	}
	wish := int32(curve.best(int(sm.m.lo[i]), int(sm.hi[i])))
	for step := (wish - sm.start[i]) / 2; step != 0 && sm.left > 0; step /= 2 {
		if fits, _ := sm.shift(i, sm.start[i]+step, 0); fits {
			return true
		}
	}
	return false
}

// detours is how often a group that has no room where it would be cheapest is
// tried a little further on.
const detours = 12

// shift moves i to t and every other activity just as far as the lags then
// demand; it takes all back unless that fits and is cheaper. If it is only that
// one of them has no room there, aside says how much further in the direction
// given it would have.
func (sm *smoother) shift(i, t, direction int32) (fits bool, aside int32) {
	gain := sm.cost(i, sm.start[i]) - sm.cost(i, t)
	sm.group = append(sm.group[:0], i)
	later := t > sm.start[i]
	sm.old[i] = t // for now: where to
	for _, j := range sm.list {
		if j == i {
			continue
		}
		to := sm.start[j]
		if e := sm.m.dist[i][j]; later && e != noLag {
			to = max(to, t+e)
		}
		if e := sm.m.back[i][j]; !later && e != noLag {
			to = min(to, t-e)
		}
		if to != sm.start[j] {
			sm.group = append(sm.group, j)
			sm.old[j] = to
			gain += sm.cost(j, sm.start[j]) - sm.cost(j, to)
			if to < sm.m.lo[j] || to > sm.hi[j] {
				return false, 0
			}
		}
	}
	sm.left--
	if gain <= 0 || len(sm.group) == 1 { // alone it has been tried
		return false, 0
	}
	sm.left -= len(sm.group)
	for _, j := range sm.group {
		sm.lift(j)
		sm.start[j], sm.old[j] = sm.old[j], sm.start[j]
	}
	// First each by itself, then all of them: one that is in another's way there
	// says nothing of how far the whole group would have to go.
	for _, j := range sm.group {
		if aside, ok := sm.room(j, direction); !ok {
			sm.back(0)
			return false, aside
		}
	}
	for k, j := range sm.group {
		if aside, ok := sm.room(j, direction); !ok {
			sm.back(k)
			return false, aside
		}
		sm.drop(j, sm.start[j])
	}
	return true, 0
}

// room says whether j has room where it is to start, and if not, how much
// further in a direction it would have.
func (sm *smoother) room(j, direction int32) (aside int32, ok bool) {
	u, dur, at := &sm.m.uses[j], sm.m.dur[j], sm.start[j]
	free := sm.f.earliest(u, at, dur)
	if free == at {
		return 0, true
	}
	if direction < 0 {
		if free = sm.f.latest(u, at, dur); free > always {
			return at - free, false
		}
	} else if direction > 0 && free < never {
		return free - at, false
	}
	return 0, false
}

// back undoes a move of the group of which the first k are placed again.
func (sm *smoother) back(k int) {
	for _, j := range sm.group[:k] {
		sm.lift(j)
	}
	for _, j := range sm.group {
		sm.drop(j, sm.old[j])
	}
}

// rearrange takes out a few activities that run at about one time and puts them
// back in another order, each where it is cheapest then. It keeps what is no
// dearer and says whether it is cheaper.
func (sm *smoother) rearrange() bool {
	if len(sm.list) < 2 {
		sm.left = 0
		return false
	}
	sm.gather()
	before := 0
	for _, i := range sm.group {
		before += sm.cost(i, sm.start[i])
		sm.old[i] = sm.start[i]
	}
	for _, i := range sm.group {
		sm.lift(i)
	}
	sm.shuffle(sm.group)
	odd := -1 // the one that is not put where it is cheapest, so that others may be
	if sm.rnd.below(2) == 0 {
		odd = sm.rnd.below(len(sm.group))
	}
	after := 0
	for k, i := range sm.group {
		t, ok := sm.best(i)
		if ok && k == odd {
			t, ok = sm.near(i, t)
		}
		if ok {
			after += sm.cost(i, t)
		}
		if !ok || after > before {
			sm.back(k)
			return false
		}
		sm.drop(i, t)
	}
	return after < before
}

// near is a start of i not far from t, by chance.
func (sm *smoother) near(i, t int32) (int32, bool) {
	lo, hi := sm.window(i)
	far := int32(1 + sm.rnd.below(2<<sm.rnd.below(7)))
	if sm.rnd.below(2) == 0 {
		far = -far
	}
	t = sm.f.earliest(&sm.m.uses[i], max(lo, t+far), sm.m.dur[i])
	return t, t <= hi
}

// gather picks one activity by chance and up to seven that run near it.
func (sm *smoother) gather() {
	c := sm.list[sm.rnd.below(len(sm.list))]
	sm.group = append(sm.group[:0], sm.list...)
	far := func(i int32) int32 {
		return max(sm.start[i]-sm.start[c]-sm.m.dur[c], sm.start[c]-sm.start[i]-sm.m.dur[i], 0)
	}
	sm.shuffle(sm.group) // of those equally near, any
	n := min(len(sm.group), 2+sm.rnd.below(7))
	for k := range n {
		nearest := k
		for i := k + 1; i < len(sm.group); i++ {
			if far(sm.group[i]) < far(sm.group[nearest]) {
				nearest = i
			}
		}
		sm.group[k], sm.group[nearest] = sm.group[nearest], sm.group[k]
	}
	sm.group = sm.group[:n]
}

func (sm *smoother) shuffle(s []int32) {
	for k := len(s) - 1; k > 0; k-- {
		x := sm.rnd.below(k + 1)
		s[k], s[x] = s[x], s[k]
	}
}
