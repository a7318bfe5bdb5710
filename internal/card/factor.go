package card

import (
	"errors"
	"fmt"
	"strings"

	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// FactorTo returns the factor that makes the card give what was asked for: "2.4 kg",
// "30 pieces", "×3"; "" is once. The error says what to write instead.
func (c *Card) FactorTo(makes string) (quantity.Number, error) {
	one := quantity.Int(1)
	makes = strings.TrimSpace(makes)
	if makes == "" {
		return one, nil
	}
	for _, times := range [...]string{"×", "x", "*"} {
		rest, ok := strings.CutPrefix(strings.ToLower(makes), times)
		if !ok {
			continue
		}
		a, after, err := quantity.ParseAmount(strings.TrimSpace(rest))
		if doubtful(err) {
			return one, notAmount(makes, err)
		}
		if err != nil || after != "" || a.Unit != quantity.Each {
			return one, fmt.Errorf("%q is not so many times: write it like ×3", makes)
		}
		return a.Qty, nil
	}
	a, after, err := c.measures().ParseAmount(makes)
	if err != nil {
		return one, notAmount(makes, err)
	}
	if a.Unit == nil || after != "" {
		return one, fmt.Errorf("%q is not an amount: write it like 2.4 kg or ×3", makes)
	}
	if c.Makes.Unit == nil || c.Makes.Qty.Sign() <= 0 {
		return one, fmt.Errorf("the card does not say what it makes, so it can't be scaled to %s; ×3 works", makes)
	}
	n, _, err := larder.Convert(c.Title, a.Need(), a.Unit, c.Makes.Unit, c.Own())
	if err != nil {
		return one, fmt.Errorf("the card makes %s: %w", quantity.Show(c.Makes, quantity.Prefs{Scale: one}), err)
	}
	return n.Quo(c.Makes.Qty), nil
}

// FactorToItem returns the factor at which the card takes so much of one item, by
// its place in the formula counted from 1: "1.35 kg".
func (c *Card) FactorToItem(item int, takes string) (quantity.Number, error) {
	one := quantity.Int(1)
	if item < 1 || item > len(c.Items) {
		return one, fmt.Errorf("the formula has no line %d", item)
	}
	it := &c.Items[item-1]
	if it.Amount.Unit == nil || it.Amount.Need().IsZero() {
		return one, fmt.Errorf("%s has no amount to scale by", it.Name)
	}
	if it.Fixed {
		return one, fmt.Errorf("%s is fixed: a batch of any size takes %s; scale by another item", it.Name, quantity.Show(it.Amount, quantity.Prefs{Scale: one}))
	}
	a, after, err := c.measures().ParseAmount(takes)
	if doubtful(err) {
		return one, notAmount(takes, err)
	}
	if err != nil || a.Unit == nil || after != "" {
		return one, fmt.Errorf("%q is not an amount: write it like 1.35 kg", takes)
	}
	n, _, err := larder.Convert(it.Name, a.Need(), a.Unit, it.Amount.Unit, c.OwnOf(it))
	if err != nil {
		return one, err
	}
	return n.Quo(it.Amount.Need()), nil
}

// doubtful says whether an amount could not be read because it has two readings.
func doubtful(err error) bool {
	var e *quantity.AmountError
	return errors.As(err, &e) && e.Doubtful
}

// notAmount returns the error of a text that can't be read as an amount.
func notAmount(typed string, err error) error {
	if doubtful(err) {
		return fmt.Errorf("%q %w", typed, err)
	}
	return fmt.Errorf("%q is not an amount: %w", typed, err)
}

// measures returns whose pints the card means where it does not say.
func (c *Card) measures() quantity.Measures { return quantity.MeasuresOf(c.Rules) }
