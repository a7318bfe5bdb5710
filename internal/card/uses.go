package card

import "hobside/internal/quantity"

// Used is what one run of a step takes of an item.
type Used struct {
	Amount quantity.Amount // zero for plain words, and for an item named again after all of it went in
	Again  bool            // named again: nothing more of it is taken
}

// Uses works out how much of each item every run of every step takes when the
// card is made factor times over by one of its ways (0 when it has none). The
// first index is the step's place in Steps, the second the run's in Text.
//
// A part that is named ("100 g butter", "half the butter") takes that much; a
// plain mention takes what is left. Over holds, per item, by how much the parts
// come to more than the formula has.
func (c *Card) Uses(way int, factor quantity.Number) (used [][]Used, over map[int]quantity.Number) {
	left := make([]quantity.Amount, len(c.Items))
	for i, it := range c.Items {
		left[i] = it.Takes(factor)
	}
	eggs := map[int]*sides{}
	used = make([][]Used, len(c.Steps))
	for s, step := range c.Steps {
		if step.Way != 0 && step.Way != way {
			continue
		}
		used[s] = make([]Used, len(step.Text))
		for r, run := range step.Text {
			if run.Item == 0 {
				continue
			}
			i := run.Item - 1
			times := factor
			if c.Items[i].Fixed {
				times = quantity.Int(1)
			}
			if run.side != "" && eggs[i] == nil {
				eggs[i] = &sides{yolks: left[i], whites: left[i]}
			}
			if e := eggs[i]; e != nil {
				used[s][r] = e.take(&left[i], c.Items[i].Amount, run, times)
			} else {
				used[s][r] = take(&left[i], c.Items[i].Amount, run, times)
			}
			if left[i].Qty.Sign() < 0 {
				if over == nil {
					over = map[int]quantity.Number{}
				}
				over[run.Item] = left[i].Qty.Neg()
			}
		}
	}
	return used, over
}

// sides holds what is left of eggs that steps part in yolks and whites.
type sides struct{ yolks, whites quantity.Amount }

// take takes one run's part out of the yolks, the whites or both. left becomes what is left
// of the eggs as a whole: the fewer of the two.
func (e *sides) take(left *quantity.Amount, whole quantity.Amount, run Run, factor quantity.Number) Used {
	var u Used
	switch run.side {
	case "yolk":
		u = take(&e.yolks, whole, run, factor)
	case "white":
		u = take(&e.whites, whole, run, factor)
	default:
		before := left.Qty
		u = take(left, whole, run, factor)
		went := before.Sub(left.Qty)
		e.yolks.Qty, e.whites.Qty = e.yolks.Qty.Sub(went), e.whites.Qty.Sub(went)
		return u
	}
	*left = e.yolks
	if e.whites.Qty.Cmp(left.Qty) < 0 {
		*left = e.whites
	}
	return u
}

// Takes returns how much of the item a batch of factor times the card takes. It is the
// amount as typed where that is fixed.
func (it *Item) Takes(factor quantity.Number) quantity.Amount {
	if it.Fixed {
		return it.Amount
	}
	return it.Amount.Scale(factor)
}

// take takes one run's part out of what is left of an item.
func take(left *quantity.Amount, whole quantity.Amount, run Run, factor quantity.Number) Used {
	switch {
	case run.Part.Unit != nil:
		part := run.Part.Scale(factor)
		if whole.Unit != nil {
			if n, ok := quantity.Convert(part.Qty, part.Unit, whole.Unit); ok {
				left.Qty = left.Qty.Sub(n)
				if !left.To.IsZero() {
					left.To = left.To.Sub(n)
				}
			}
		}
		return Used{Amount: part}
	case !run.Share.IsZero():
		part := whole.Scale(factor.Mul(run.Share))
		left.Qty = left.Qty.Sub(part.Qty)
		left.To = left.To.Sub(part.To)
		return Used{Amount: part}
	case whole.Unit == nil:
		return Used{Amount: whole} // "salt, to taste": nothing to keep count of
	case left.Qty.Sign() <= 0 && left.To.Sign() <= 0:
		return Used{Again: true}
	}
	rest := *left
	left.Qty, left.To = quantity.Number{}, quantity.Number{}
	return Used{Amount: rest}
}
