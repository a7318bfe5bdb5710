package quantity

// longestWord is the most bytes of a word that [Distance] compares.
const longestWord = 60

// Distance returns how many bytes must be changed, added, dropped or swapped with
// their neighbour to turn a into b, or limit + 1 where that is more than limit or
// a word is longer than 60 bytes. Every "did you mean" is found with it.
func Distance(a, b string, limit int) int {
	if a == b {
		return 0
	}
	if len(a)-len(b) > limit || len(b)-len(a) > limit || len(a) > longestWord || len(b) > longestWord {
		return limit + 1
	}
	// Three rows of the table on the stack: a card is compared with many words.
	var rows [3][longestWord + 1]int8
	prev2, prev, cur := rows[0][:len(b)+1], rows[1][:len(b)+1], rows[2][:len(b)+1]
	for j := range prev {
		prev[j] = int8(j)
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = int8(i)
		least := cur[0]
		for j := 1; j <= len(b); j++ {
			cost := int8(1)
			if a[i-1] == b[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
			least = min(least, cur[j])
		}
		if int(least) > limit+1 {
			return limit + 1 // a swap looks back two rows, and each row costs at most one less
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return min(int(prev[len(b)]), limit+1)
}
