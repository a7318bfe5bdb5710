package convert

// recipesIn parts a text that has several recipes, each with its own list of ingredients.
func recipesIn(rows []line) [][]line {
	var lists, starts []int
	cooking := false // a method has begun since the last list
	for i, l := range rows {
		switch p, _ := partOf(l); p {
		case partIngredients:
			if len(lists) == 0 || cooking {
				lists = append(lists, i)
			}
			cooking = false
		case partMethod:
			cooking = true
		}
	}
	if len(lists) < 2 {
		return [][]line{rows}
	}
	for n, at := range lists[1:] {
		starts = append(starts, titleBefore(rows, lists[n]+1, at))
	}
	var out [][]line
	from := 0
	for _, s := range starts {
		if s > from {
			out = append(out, rows[from:s])
			from = s
		}
	}
	return append(out, rows[from:])
}

// titleBefore returns the row of the title over the list of ingredients at a row: the last
// heading of the highest rank, or else the last line that may be one.
func titleBefore(rows []line, from, at int) int {
	best := at
	for i := at - 1; i > from; i-- {
		l := rows[i]
		switch {
		case l.level > 0 && (best == at || rows[best].level == 0 || l.level < rows[best].level):
			if p, _ := partOf(l); p == partTop {
				best = i
			} else {
				return best
			}
		case best == at && titleLike(l) && i > 0 && rows[i-1].blank && !isYield(l.words):
			best = i
		}
		if l.level == 1 {
			break
		}
	}
	return best
}
