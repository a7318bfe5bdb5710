package merge

import "sort"

// maxSteps bounds the work of one merge, so that nobody waits for it: a step takes
// about 20 ns. A merge that needs more is left to people.
const maxSteps = 1 << 20

const (
	lookupSteps = 2  // what it costs to look a line up
	maxDepth    = 40 // of matches between matched lines
)

// match pairs the lines of a with equal lines of b, in order. It returns, for
// each line of a, the index of its partner in b, or -1.
//
// Lines that each side has exactly once are paired first, because they tell a
// step from the blank lines around it (the idea is known as patience diff). The
// lines between them are paired by longest common subsequence. It takes its work from
// steps, and leaves the rest unmatched when that is below 0.
func match(a, b []string, steps *int) []int {
	number := map[string]int{} // each different line as a small number
	numbered := func(lines []string) []int {
		out := make([]int, len(lines))
		for i, l := range lines {
			n, ok := number[bare(l)]
			if !ok {
				n = len(number)
				number[bare(l)] = n
			}
			out[i] = n
		}
		return out
	}
	*steps -= lookupSteps * (len(a) + len(b))
	m := matcher{a: numbered(a), b: numbered(b), partner: make([]int, len(a)), steps: steps}
	for i := range m.partner {
		m.partner[i] = -1
	}
	m.between(0, len(a), 0, len(b), 0)
	return m.partner
}

// A matcher is one run of match.
type matcher struct {
	a, b    []int
	partner []int
	steps   *int // left
}

// spend takes n steps. It returns false when there are not enough.
func (m *matcher) spend(n int) bool {
	*m.steps -= n
	return *m.steps >= 0
}

// between pairs a[a0:a1] with b[b0:b1].
func (m *matcher) between(a0, a1, b0, b1, depth int) {
	for a0 < a1 && b0 < b1 && m.a[a0] == m.b[b0] {
		m.partner[a0] = b0
		a0, b0 = a0+1, b0+1
	}
	for a0 < a1 && b0 < b1 && m.a[a1-1] == m.b[b1-1] {
		a1, b1 = a1-1, b1-1
		m.partner[a1] = b1
	}
	if a0 == a1 || b0 == b1 || !m.spend(lookupSteps*(a1-a0+b1-b0)) {
		return
	}
	anchors := m.anchors(a0, a1, b0, b1)
	if len(anchors) == 0 || depth >= maxDepth {
		m.longest(a0, a1, b0, b1)
		return
	}
	for _, p := range anchors {
		m.between(a0, p[0], b0, p[1], depth+1)
		m.partner[p[0]] = p[1]
		a0, b0 = p[0]+1, p[1]+1
	}
	m.between(a0, a1, b0, b1, depth+1)
}

// anchors returns pairs of equal lines that are exactly once on each side: the
// longest list of them whose order is the same on both.
func (m *matcher) anchors(a0, a1, b0, b1 int) [][2]int {
	type place struct{ inA, inB, at int }
	seen := map[int]*place{}
	for i := a0; i < a1; i++ {
		if p := seen[m.a[i]]; p != nil {
			p.inA++
		} else {
			seen[m.a[i]] = &place{inA: 1}
		}
	}
	for j := b0; j < b1; j++ {
		if p := seen[m.b[j]]; p != nil {
			p.inB++
			p.at = j
		}
	}
	var once [][2]int // in the order of a
	for i := a0; i < a1; i++ {
		if p := seen[m.a[i]]; p.inA == 1 && p.inB == 1 {
			once = append(once, [2]int{i, p.at})
		}
	}
	return increasing(once)
}

// increasing returns the longest list of pairs, in order, whose second numbers
// increase (by patience sorting). The second numbers must all differ.
func increasing(pairs [][2]int) [][2]int {
	var tops []int // for each pile, the index of the pair on top
	before := make([]int, len(pairs))
	for i, p := range pairs {
		pile := sort.Search(len(tops), func(n int) bool { return pairs[tops[n]][1] >= p[1] })
		before[i] = -1
		if pile > 0 {
			before[i] = tops[pile-1]
		}
		if pile == len(tops) {
			tops = append(tops, i)
		} else {
			tops[pile] = i
		}
	}
	list := make([][2]int, len(tops))
	if len(tops) == 0 {
		return list
	}
	for i, n := tops[len(tops)-1], len(list)-1; n >= 0; i, n = before[i], n-1 {
		list[n] = pairs[i]
	}
	return list
}

// longest pairs by longest common subsequence. It pairs nothing when there are not
// enough steps for the table.
func (m *matcher) longest(a0, a1, b0, b1 int) {
	rows, cols := a1-a0+1, b1-b0+1
	if !m.spend(rows * cols) {
		return
	}
	length := make([]int32, rows*cols) // of the longest common subsequence from this cell on
	for i := rows - 2; i >= 0; i-- {
		for j := cols - 2; j >= 0; j-- {
			if m.a[a0+i] == m.b[b0+j] {
				length[i*cols+j] = length[(i+1)*cols+j+1] + 1
			} else {
				length[i*cols+j] = max(length[(i+1)*cols+j], length[i*cols+j+1])
			}
		}
	}
	for i, j := 0, 0; i < rows-1 && j < cols-1; {
		switch {
		case m.a[a0+i] == m.b[b0+j]:
			m.partner[a0+i] = b0 + j
			i, j = i+1, j+1
		case length[(i+1)*cols+j] >= length[i*cols+j+1]:
			i++
		default:
			j++
		}
	}
}
