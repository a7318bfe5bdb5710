package safety

// holdMinutes returns how long food is held at c °C for the whole of k.Logs; ok is
// false below k.LowC.
func (k Kinetics) holdMinutes(c float64) (minutes float64, ok bool) {
	rate := k.Rate(c)
	if rate == 0 {
		return 0, false
	}
	return k.Logs * k.D / rate, true
}

// byID returns the row of the tables with a key.
func byID(id string) (Limit, bool) {
	for _, l := range All() {
		if l.ID == id {
			return l, true
		}
	}
	return Limit{}, false
}
