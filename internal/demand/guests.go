package demand

import (
	"slices"
	"strings"

	"hobside/internal/larder"
	"hobside/internal/menu"
)

// served holds, by course and plate, how many covers get a plate and which groups
// of guests. Groups count from 1; group 0 is everybody without exclusions.
type served struct {
	covers [][]int
	groups [][][]int
}

// serve gives each group of guests its plates. A plate "for no fish" goes to guests
// who exclude fish, instead of the nearest plate above it that is for everybody. A
// group that several plates suit gets the one that meets most of its exclusions. A plate
// that the cook chose for a group comes first.
func serve(in Input, covers int) served {
	var s served
	m := in.Menu
	for k, c := range m.Courses {
		plates := make([]int, len(c.Plates))
		groups := make([][]int, len(c.Plates))
		for i := 0; i < len(c.Plates); {
			next := i + 1
			for next < len(c.Plates) && len(c.Plates[next].For) > 0 {
				next++
			}
			rest := covers
			groups[i] = append(groups[i], 0)
			for g, guests := range m.Guests {
				n := min(guests.Covers, rest)
				rest -= n
				at := i + standIn(m.Foods, c.Plates[i:next], guests.Exclude)
				if chosen := in.Seats[SeatOf(k+1, guests)] - 1; chosen >= i && chosen < next {
					at = chosen
				}
				plates[at] += n
				groups[at] = append(groups[at], g+1)
			}
			plates[i] += rest
			i = next
		}
		s.covers = append(s.covers, plates)
		s.groups = append(s.groups, groups)
	}
	return s
}

// SeatOf returns the seat of a group of guests in a course.
func SeatOf(course int, g menu.Guests) Seat {
	return Seat{Course: course, Words: strings.Join(g.Exclude, ", ")}
}

// standIn returns the index of the plate that a group gets: 0, the plate for
// everybody, unless another is for some of its exclusions. A plate for no shellfish
// is for a guest without prawns, and a plate for no meat for a vegetarian.
func standIn(foods *larder.Foods, plates []menu.Plate, exclude []string) int {
	best, most := 0, 0
	for i, p := range plates {
		meets := 0
		for _, ex := range avoided(foods, p.For) {
			if slices.ContainsFunc(avoided(foods, exclude), func(g larder.Avoid) bool { return ex.Covers(g) || g.Covers(ex) }) {
				meets++
			}
		}
		if meets > most {
			best, most = i, meets
		}
	}
	return best
}
