package plan

import (
	"hobside/internal/document"
	"hobside/internal/plan/rcpsp"
)

// A spread is how long something may really take, in minutes: a PERT (beta)
// distribution between low and high whose mode lies quarter/4 of the way up. The
// zero spread takes exactly as long as planned.
type spread struct {
	low, high float64
	quarter   int // 0 to 4
}

// What hands-on work really takes where the card gives one figure: from a tenth
// less to three tenths more, mode near the figure. Common practice, no source.
const (
	quickest = 0.9
	slowest  = 1.3
)

func handSpread(d document.Duration) spread {
	low, high := float64(d.Low)/bySeconds, float64(d.High)/bySeconds
	if d.Low == d.High {
		return spread{low * quickest, high * slowest, 1}
	}
	return spread{low, high, 2}
}

// waitSpread returns the spread of an unattended time. One that the cook chooses,
// or that a timer ends, has none.
func waitSpread(d document.Duration, overHeat bool) spread {
	if !overHeat && d.Form != document.About || d.Low == d.High {
		return spread{}
	}
	return spread{float64(d.Low) / bySeconds, float64(d.High) / bySeconds, 2}
}

// over returns the spread of work that so many people share evenly.
func (s spread) over(people int) spread {
	n := float64(people)
	return spread{s.low / n, s.high / n, s.quarter}
}

// and returns the spread of two times in sequence, taken as fully correlated.
func (s spread) and(t spread) spread {
	if s == (spread{}) {
		return t
	}
	s.low, s.high = s.low+t.low, s.high+t.high
	return s
}

// of returns the spread of a part of a step, planned at so many minutes.
func (s spread) of(planned int) spread {
	if s.high == 0 {
		return spread{}
	}
	mean := s.mean()
	if mean <= 0 {
		return spread{}
	}
	// A load gets its share of the whole step's spread.
	scale := min(1, float64(planned)/mean)
	return spread{s.low * scale, s.high * scale, s.quarter}
}

// mean returns the PERT mean, (low + 4 mode + high) / 6.
func (s spread) mean() float64 {
	likely := s.low + (s.high-s.low)*float64(s.quarter)/4
	return (s.low + 4*likely + s.high) / 6
}

// draw returns a random time. The k-th smallest of five uniform numbers has the
// beta distribution of PERT.
func (s spread) draw(r *rcpsp.Random) float64 {
	var five [5]float64
	for i := range five {
		v := r.Unit()
		k := i
		for ; k > 0 && five[k-1] > v; k-- {
			five[k] = five[k-1]
		}
		five[k] = v
	}
	return s.low + (s.high-s.low)*five[s.quarter]
}
