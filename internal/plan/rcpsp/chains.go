package rcpsp

import "sort"

// chainsFrom is the number of activities from which the activity lists keep chains
// together. Smaller problems find a schedule without, and from more different lists.
const chainsFrom = 240

// looseness is how much room a chain has, in mean durations of an activity. It was set on
// dinners of 100 to 400 steps: with 2 to 20 their first list gives a schedule.
const looseness = 4

// chains returns the chain of each activity, named by its lowest activity: activities whose
// time lags leave little room between their starts are in one chain. Nil if the problem is small or has no maximum
// time lags.
//
// An activity list that takes a chain apart schedules other activities between those of
// the chain, and finds no room for the rest of it before its latest start. Almost every
// list does so when there are many chains.
func (m *model) chains() []int32 {
	if m.minLagsOnly || m.movable < chainsFrom {
		return nil
	}
	sum := 0
	for _, d := range m.dur {
		sum += int(d)
	}
	room := int32(looseness * sum / m.n)
	chain := make([]int32, m.n)
	for i := range chain {
		chain[i] = int32(i)
	}
	root := func(i int32) int32 {
		for chain[i] != i {
			i = chain[i]
		}
		return i
	}
	for i := range int32(m.n) {
		for j := range i {
			there, back := m.dist[i][j], m.dist[j][i]
			if !m.fixed[i] && !m.fixed[j] && there != noPath && back != noPath && there+back >= -room {
				a, b := root(i), root(j)
				chain[max(a, b)] = min(a, b)
			}
		}
	}
	for i := range chain {
		chain[i] = root(int32(i))
	}
	return chain
}

// byChain returns keys that order chains by their activity with the least key, and the
// activities of a chain by key.
func byChain(chain []int32, key func(int32) float64) func(int32) float64 {
	least := make([]float64, len(chain))
	order := make([]int32, len(chain))
	for i, c := range chain {
		order[i] = int32(i)
		if k := key(int32(i)); i == int(c) || k < least[c] { // i == c comes first
			least[c] = k
		}
	}
	sort.Slice(order, func(x, y int) bool {
		a, b := order[x], order[y]
		switch ca, cb := chain[a], chain[b]; {
		case least[ca] != least[cb]:
			return least[ca] < least[cb]
		case ca != cb:
			return ca < cb
		case key(a) != key(b):
			return key(a) < key(b)
		}
		return a < b
	})
	at := make([]float64, len(order))
	for place, i := range order {
		at[i] = float64(place)
	}
	return func(i int32) float64 { return at[i] }
}
