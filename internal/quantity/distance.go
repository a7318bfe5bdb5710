package quantity

// Distance returns how many bytes must be changed, added, dropped or swapped with
// their neighbour to turn a into b, or limit + 1 where that is more than limit or
// a word is longer than 60 bytes. Every "did you mean" is found with it.
func Distance(a, b string, limit int) int {
	if a == b {
		return 0
	}
	if len(a)-len(b) > limit || len(b)-len(a) > limit {
		return limit + 1
	}
	if len(a) > 60 || len(b) > 60 {
		return limit + 1
	}
	prev2, prev, cur := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(b)]
}
