package quantity

// UnitToAsk returns the symbol of the unit in which a cook weighs or measures an
// amount, to ask for it: "kg", "ml", "lb", "piece".
func UnitToAsk(a Amount, show Prefs) string {
	base := a.Qty.Mul(a.Unit.Factor)
	pick := func(limit int64, small, large string) string {
		if base.Cmp(Int(limit)) < 0 {
			return small
		}
		return large
	}
	metric := show.system(a.Unit) == Metric
	switch {
	case a.Unit.Dim == Mass && metric:
		return pick(1000, "g", "kg")
	case a.Unit.Dim == Mass:
		return pick(453, "oz", "lb") // a pound is 453.6 g
	case a.Unit.Dim == Volume && metric:
		return pick(1000, "ml", "L")
	}
	return a.Unit.Symbol
}

// ShowPercent returns a number of per cent as text: "68 %".
func ShowPercent(n Number) string { return ShowNumber(n) + " %" }

// ShowShare returns a share of one in per cent: 1/20 is "5 %".
func ShowShare(n Number) string { return ShowPercent(n.Mul(Int(100))) }
