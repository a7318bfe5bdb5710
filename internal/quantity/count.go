package quantity

import "strings"

// ParseCount reads a text that is one whole number from 1 to most: covers, cooks,
// shelves. "1,200" can be 1200 or 1.2, and like anything that is not a whole number it
// gives an [*AmountError]; the readings in it are those that are whole.
func ParseCount(text string, most int) (n int, err error) {
	a, rest, err := ParseAmount(text)
	if err != nil {
		if doubt, ok := err.(*AmountError); ok {
			doubt.Readings = wholes(doubt.Readings)
		}
		return 0, err
	}
	count, whole := a.Qty.Int64()
	if rest != "" || a.Unit != Each || !whole || !a.To.IsZero() || a.About {
		return 0, &AmountError{Msg: `"` + strings.TrimSpace(text) + `" is not a whole number`, Do: `type digits alone, such as "18"`}
	}
	if count > int64(most) {
		return 0, &AmountError{Msg: "more than " + Int(int64(most)).String(), Do: "check the number"}
	}
	return int(count), nil
}

// wholes returns the amounts whose figures are whole.
func wholes(readings []Amount) []Amount {
	var out []Amount
	for _, a := range readings {
		if a.Qty.IsInt() && a.To.IsInt() {
			out = append(out, a)
		}
	}
	return out
}
