package safety

import "math"

// shape is one of the three bodies that have a series solution.
type shape int

const (
	wall     shape = iota // plane wall, its length the half thickness
	cylinder              // long cylinder, its length the radius
	ball                  // sphere, its length the radius
)

// terms is the number of terms of the series that are summed. Above a Fourier number of
// soonest the rest is below 1e-9, for the wall as well.
const (
	terms   = 30
	soonest = 0.003
)

// series is the solution for the centre of a body that starts at an even temperature in
// a medium of another: theta = sum of c exp(-zeta² Fo). Incropera ch. 5; Cengel ch. 4.
type series struct {
	zeta2, c [terms]float64
}

// solve returns the series for a Biot number h L / k above 0.
func solve(s shape, biot float64) series {
	var out series
	for i := range terms {
		z := root(s, biot, i)
		out.zeta2[i], out.c[i] = z*z, coefficient(s, z)
	}
	return out
}

// at returns theta at the centre: 1 at the start, 0 at the end.
func (s *series) at(fourier float64) float64 {
	if fourier < soonest {
		return 1 // no change has reached the centre yet
	}
	sum := 0.0
	for i := range terms {
		x := s.zeta2[i] * fourier
		if x > 40 {
			break
		}
		sum += s.c[i] * math.Exp(-x)
	}
	return math.Min(1, math.Max(0, sum))
}

// root returns root i, counted from 0, of the equation of the shape. It is between
// two neighbouring zeros that do not depend on the Biot number.
func root(s shape, biot float64, i int) float64 {
	n := float64(i)
	switch s {
	case wall: // zeta tan zeta = Bi
		return bisect(n*math.Pi, (n+0.5)*math.Pi, func(z float64) float64 { return z*math.Sin(z) - biot*math.Cos(z) })
	case cylinder: // zeta J1 = Bi J0
		low := 0.0
		if i > 0 {
			low = bisect((n+0.25)*math.Pi-0.3, (n+0.25)*math.Pi+0.3, math.J1)
		}
		high := bisect((n+0.75)*math.Pi-0.3, (n+0.75)*math.Pi+0.3, math.J0)
		return bisect(low, high, func(z float64) float64 { return z*math.J1(z) - biot*math.J0(z) })
	}
	return bisect(n*math.Pi, (n+1)*math.Pi, func(z float64) float64 { // 1 - zeta cot zeta = Bi
		return (1-biot)*math.Sin(z) - z*math.Cos(z)
	})
}

// coefficient returns the factor of a root's term at the centre.
func coefficient(s shape, z float64) float64 {
	switch s {
	case wall:
		return 4 * math.Sin(z) / (2*z + math.Sin(2*z))
	case cylinder:
		j0, j1 := math.J0(z), math.J1(z)
		return 2 * j1 / (z * (j0*j0 + j1*j1))
	}
	return 4 * (math.Sin(z) - z*math.Cos(z)) / (2*z - math.Sin(2*z))
}

// bisect returns the zero of f between low and high. Where f is 0 at low itself (the
// ball's first equation) it returns the zero above.
func bisect(low, high float64, f func(float64) float64) float64 {
	up := f(high) > 0
	for range 60 {
		mid := (low + high) / 2
		if (f(mid) > 0) == up {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}
