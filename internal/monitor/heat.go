package monitor

import (
	"strings"

	"hobside/internal/safety"
)

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
	read := w.Degrees(last.TempC) + " at " + w.clock(last.Minute)
	if h.Met {
		return "Reached at " + w.clock(h.At) + ": " + w.asks(l) + "."
	}
	if w.brief {
		return read + "; " + w.asks(l) + "."
	}
	switch in := safety.Reaching(l, w.counted, w.warming()); {
	case in.Why == "" && last.Minute+in.Minutes.Slow <= w.minute():
		return read + "; by now " + w.limit(l) + " should be there: read it again."
	case in.Why == "":
		return read + "; " + w.limit(l) + " " + w.between(last.Minute+in.Minutes.Quick, last.Minute+in.Minutes.Slow) + ", by conduction."
	case last.TempC >= l.TempC:
		return read + ", and falling; " + w.asks(l) + "."
	default:
		return read + "; " + w.asks(l) + ". " + strings.ToUpper(in.Why[:1]) + in.Why[1:] + "."
	}
}

// between writes two minutes of the readings as times of day: "at about 14:10", "between
// 14:10 and 14:25".
func (w *watching) between(from, to float64) string {
	a, b := w.clock(from), w.clock(to)
	if a == b || to-from < 2 {
		return "at about " + w.clock((from+to)/2)
	}
	return "between " + a + " and " + b
}

// warming returns what the step heats its food by: its equipment's temperature, or water
// that boils.
func (w *watching) warming() safety.Warming {
	for _, q := range w.step.Equipment {
		if in := safety.WarmingIn(q.Name, q.TempC, q.HasTemp); in.Known() {
			return in
		}
	}
	if w.step.Uses("hob") && safety.Boils(w.step.Sentence()) {
		return safety.WarmingInBoil()
	}
	return safety.Warming{}
}
