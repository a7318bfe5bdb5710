package card

import (
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// uses writes what every run of every step uses. An item used in several parts is
// rounded so that the shown parts add up to the shown whole.
func (s *Scaled) uses(used [][]Used) [][]ScaledUse {
	c := s.Card
	type place struct{ step, run int }
	parts := make([][]place, len(c.Items))
	shown := make([][]ScaledUse, len(used))
	for i := range used {
		shown[i] = make([]ScaledUse, len(used[i]))
		for r, u := range used[i] {
			run := c.Steps[i].Text[r]
			if item := run.Item; item > 0 && !u.Again && run.side != "" {
				egg := c.Items[item-1]
				egg.Name, egg.Each = "egg "+run.side, quantity.Amount{} // what an egg weighs is no weight of its yolk
				shown[i][r].Amount, shown[i][r].Aside = s.item(&egg, u.Amount)
			} else if item > 0 && !u.Again {
				parts[item-1] = append(parts[item-1], place{i, r})
			}
		}
	}
	for i, places := range parts {
		amounts := make([]quantity.Amount, len(places))
		for k, p := range places {
			amounts[k] = used[p.step][p.run].Amount
		}
		show := s.show
		show.Tight = larder.Exacting(c.Items[i].Name)
		texts, together := quantity.ShowParts(amounts, show)
		if !together {
			texts, together = s.partsByWeight(&c.Items[i], amounts)
		}
		for k, p := range places {
			text, aside := s.item(&c.Items[i], amounts[k])
			if together {
				text = texts[k]
			}
			if amounts[k].ToTaste {
				text = "" // the sentence says it: "season with salt"
			}
			shown[p.step][p.run] = ScaledUse{text, aside}
		}
	}
	return shown
}

// partsByWeight writes the parts of a whole that is counted, does not come out even
// (3.4 eggs), and so is shown by weight. ok is false for any other.
func (s *Scaled) partsByWeight(it *Item, parts []quantity.Amount) (texts []string, ok bool) {
	if len(parts) < 2 {
		return nil, false
	}
	var whole quantity.Amount
	grams := make([]quantity.Amount, len(parts))
	for i, a := range parts {
		if a.Unit == nil || a.Unit.Dim != quantity.Count || i > 0 && a.Unit != whole.Unit || !a.To.IsZero() {
			return nil, false
		}
		whole.Qty, whole.Unit = whole.Qty.Add(a.Qty), a.Unit
		n, _, err := larder.Convert(it.Name, a.Qty, a.Unit, gram, s.Card.OwnOf(it))
		if err != nil {
			return nil, false
		}
		grams[i] = quantity.Amount{Qty: n, Unit: gram}
	}
	if text, _ := s.item(it, whole); text == s.amount(whole) {
		return nil, false
	}
	return quantity.ShowParts(grams, s.show)
}
