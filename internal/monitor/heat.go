package monitor

import "hobside/internal/safety"

// heating compares core temperatures with the card's own limit, with the limits of
// the kitchen's rules, and with the model behind them.
func (w *watching) heating() {
	v := w.out
	v.State = Open
	own, has := w.aim()
	if has && own.Bound == safety.AtMost {
		w.keptCold(own)
		return
	}
	rows := w.rows()
	main := own
	if !has {
		if len(rows) == 0 {
			v.State = None
			w.noBasis()
			return
		}
		main = w.usual(rows)
	}
	if len(w.counted) == 0 {
		v.Line = "Core: " + w.asks(main) + ". Not read yet."
		w.line(Open, w.asks(main)+": not read yet", main.Source)
		if has && len(rows) > 0 {
			u := w.usual(rows)
			w.line(Open, w.asks(u)+": not read yet", u.Source)
		}
		w.noBasis()
		return
	}
	held, err := safety.Against([]safety.Limit{main}, w.counted)
	if err != nil || len(held) == 0 {
		return
	}
	last := w.counted[len(w.counted)-1]
	v.Line = w.ahead(main, held[0], last)
	v.State = w.stateOf(held[0].Met)
	w.line(w.stateOf(held[0].Met), w.heldText(held[0]), main.Source)
	if has && len(rows) > 0 {
		w.beside(rows)
	}
	w.model()
	w.noBasis()
}

// ahead returns the one line: what was read, what is asked, when it will be there.
func (w *watching) ahead(l safety.Limit, h safety.Held, last safety.Reading) string {
	read := w.degrees(last.TempC) + " at " + w.clock(last.Minute)
	if h.Met {
		return "Reached at " + w.clock(h.At) + ": " + w.asks(l) + "."
	}
	in, ok := safety.Reaching(l, w.counted)
	switch {
	case ok && last.Minute+in > w.minute():
		return read + "; " + w.limit(l) + " at about " + w.clock(last.Minute+in) + " at this rate."
	case ok:
		return read + "; at that rate " + w.limit(l) + " is there by now: read it again."
	case len(w.counted) == 1:
		return read + "; " + w.asks(l) + ". A second reading tells when."
	case last.TempC >= l.TempC:
		return read + ", and falling; " + w.asks(l) + "."
	}
	return read + ", and not rising; " + w.asks(l) + "."
}
