package quantity

import "fmt"

// ParsePrefs reads how a cook wants amounts shown: a system ("metric", "us",
// "imperial", or "typed" for each amount as its card has it) and what the scale can
// weigh ("0.1 g", "1 g", "5 g"). Empty words are metric and 1 g. The error names the
// words that are known.
func ParsePrefs(system, scale string) (Prefs, error) {
	show := Prefs{System: Metric, Scale: Int(1)}
	switch system {
	case "", "metric":
	case "us":
		show.System = US
	case "imperial":
		show.System = Imperial
	case "typed":
		show.AsTyped, show.Ladder = true, true
	default:
		return Prefs{}, fmt.Errorf("unknown system %q: metric, us, imperial or typed", system)
	}
	switch scale {
	case "", "1 g":
	case "0.1 g":
		show.Scale = Frac(1, 10)
	case "5 g":
		show.Scale = Int(5)
	default:
		return Prefs{}, fmt.Errorf("unknown scale %q: 0.1 g, 1 g or 5 g", scale)
	}
	return show, nil
}
