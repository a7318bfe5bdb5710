package hub

// Bounds that keep a hostile text from holding the server up. Past them lines go
// unmatched: the merge shows more as clashing and loses nothing.
const (
	maxCells = 1 << 20 // of a table of the longest common subsequence
	maxDepth = 40
)

// match pairs the lines of a with equal lines of b, in order: for each line of a
// its place in b, or -1. Lines that each side has just once are paired first,
// because they tell a step from the blank lines around it; what lies between
// them is paired by longest common subsequence.
func match(a, b []string) []int {
	number := map[string]int{} // lines as small numbers
	name := func(lines []string) []int {
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
	m := matcher{a: name(a), b: name(b), at: make([]int, len(a))}
	for i := range m.at {
		m.at[i] = -1
	}
	m.stretch(0, len(a), 0, len(b), 0)
	return m.at
}

type matcher struct {
	a, b []int
	at   []int
}

// stretch pairs a[a0:a1] with b[b0:b1].
func (m *matcher) stretch(a0, a1, b0, b1, depth int) {
	for a0 < a1 && b0 < b1 && m.a[a0] == m.b[b0] {
		m.at[a0] = b0
		a0, b0 = a0+1, b0+1
	}
	for a0 < a1 && b0 < b1 && m.a[a1-1] == m.b[b1-1] {
		a1, b1 = a1-1, b1-1
		m.at[a1] = b1
	}
	if a0 == a1 || b0 == b1 {
		return
	}
	anchors := m.anchors(a0, a1, b0, b1)
	if len(anchors) == 0 || depth >= maxDepth {
		m.table(a0, a1, b0, b1)
		return
	}
	for _, p := range anchors {
		m.stretch(a0, p[0], b0, p[1], depth+1)
		m.at[p[0]] = p[1]
		a0, b0 = p[0]+1, p[1]+1
	}
	m.stretch(a0, a1, b0, b1, depth+1)
}

// anchors are pairs of lines that are there once on each side, the longest run
// of them that is in order on both.
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

// increasing is the longest run of pairs whose second numbers rise, by laying
// them on piles (patience sorting).
func increasing(pairs [][2]int) [][2]int {
	var tops []int // for each pile, the pair on top
	before := make([]int, len(pairs))
	for i, p := range pairs {
		lo, hi := 0, len(tops)
		for lo < hi {
			mid := (lo + hi) / 2
			if pairs[tops[mid]][1] < p[1] {
				lo = mid + 1
			} else {
				hi = mid
			}
		}
		before[i] = -1
		if lo > 0 {
			before[i] = tops[lo-1]
		}
		if lo == len(tops) {
			tops = append(tops, i)
		} else {
			tops[lo] = i
		}
	}
	run := make([][2]int, len(tops))
	if len(tops) == 0 {
		return run
	}
	for i, n := tops[len(tops)-1], len(run)-1; n >= 0; i, n = before[i], n-1 {
		run[n] = pairs[i]
	}
	return run
}

// table pairs by longest common subsequence, when the table is small enough.
func (m *matcher) table(a0, a1, b0, b1 int) {
	rows, cols := a1-a0+1, b1-b0+1
	if rows*cols > maxCells {
		return
	}
	length := make([]int32, rows*cols) // of what is left from here on
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
			m.at[a0+i] = b0 + j
			i, j = i+1, j+1
		case length[(i+1)*cols+j] >= length[i*cols+j+1]:
			i++
		default:
			j++
		}
	}
}
