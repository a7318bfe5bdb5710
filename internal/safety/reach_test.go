package safety

import "slices"

// known reports whether c is one of [Classes].
func (c Class) known() bool { return slices.Contains(Classes(), c) }

// Until returns the minutes until the centre reaches c °C: 0 where it starts there,
// +Inf where it does not within ten days.
func (f *Forecast) Until(c float64) Band {
	return Band{f.until(0, c), f.until(1, c), f.until(2, c)}
}
