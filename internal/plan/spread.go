package plan

import (
	"hobside/internal/document"
)

// A spread is how long something may really take, in minutes: a PERT time (a
// beta distribution) between low and high whose likeliest value lies so many
// quarters of the way up. The zero spread takes just as long as planned.
type spread struct {
	low, high float64
	quarter   int // 0 to 4
}

// What hands really take, beside what the card says, where it gives one figure:
// from a tenth less to three tenths more, likeliest as it says. Common
// practice, no source.
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

// waitSpread is that of a wait: one that the cook may choose, or that a timer
// ends, takes what it was planned to take.
func waitSpread(d document.Duration, overHeat bool) spread {
	if !overHeat && d.Form != document.About || d.Low == d.High {
		return spread{}
	}
	return spread{float64(d.Low) / bySeconds, float64(d.High) / bySeconds, 2}
}

// and is the spread of one thing after another, as if they were slow together.
func (s spread) and(t spread) spread {
	if s == (spread{}) {
		return t
	}
	s.low, s.high = s.low+t.low, s.high+t.high
	return s
}

// of is the spread of one part of a step, planned at so many minutes.
func (s spread) of(planned int) spread {
	if s.high == 0 {
		return spread{}
	}
	mean := s.mean()
	if mean <= 0 {
		return spread{}
	}
	// A load's share: the whole step's spread, scaled; never longer than planned twice over.
	scale := min(1, float64(planned)/mean)
	return spread{s.low * scale, s.high * scale, s.quarter}
}

// mean is the PERT mean, (low + 4 likeliest + high) / 6.
func (s spread) mean() float64 {
	likely := s.low + (s.high-s.low)*float64(s.quarter)/4
	return (s.low + 4*likely + s.high) / 6
}

// draw takes one of the times at random. With five numbers drawn evenly, the
// k-th smallest has just the beta distribution that PERT asks for.
func (s spread) draw(r *dice) float64 {
	var five [5]float64
	for i := range five {
		v := r.next()
		k := i
		for ; k > 0 && five[k-1] > v; k-- {
			five[k] = five[k-1]
		}
		five[k] = v
	}
	return s.low + (s.high-s.low)*five[s.quarter]
}

// dice are random numbers that are the same on every machine (splitmix64,
// Steele and others, OOPSLA 2014).
type dice struct{ state uint64 }

func (d *dice) next() float64 {
	d.state += 0x9e3779b97f4a7c15
	z := d.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	z ^= z >> 31
	return float64(z>>11) / (1 << 53)
}
