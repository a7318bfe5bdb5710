package card

import "hobside/internal/document"

// ColdC is the highest temperature in °C at which a cooling step leaves food cold: above
// it the food is cooled further or used straight on.
const ColdC = 8

// StepBefore returns the index of the step that step i follows in its way; ok is false for
// one that is free from the start.
func (c *Card) StepBefore(i int) (int, bool) {
	s := &c.Steps[i]
	switch {
	case s.After.Start:
		return 0, false
	case s.After.Step > 0:
		return s.After.Step - 1, true
	}
	for j := i - 1; j >= 0; j-- {
		if other := c.Steps[j].Way; other == 0 || other == s.Way || s.Way == 0 {
			return j, true
		}
	}
	return 0, false
}

// StageBefore returns the index of the step whose cooling step i goes on with: the
// nearest step above it that cools, with no step over heat between. ok is false for a
// step that does not cool, or cools from the heat.
func (c *Card) StageBefore(i int) (stage int, ok bool) {
	if !c.Steps[i].Cool.Set {
		return 0, false
	}
	for j, more := c.StepBefore(i); more; j, more = c.StepBefore(j) {
		if c.Steps[j].Cool.Set {
			return j, c.Steps[j].Cool.ToC > c.Steps[i].Cool.ToC
		}
		if c.Steps[j].OverHeat() {
			return 0, false
		}
	}
	return 0, false
}

// OverHeat reports whether a step occupies equipment that heats, by the standard list.
func (s *Step) OverHeat() bool {
	for _, q := range s.Equipment {
		if e, ok := document.FindEquipment(q.Name); ok && e.Heat {
			return true
		}
	}
	return false
}

// LeftWarm reports whether a step cools food to a temperature at which it is not cold:
// it then goes straight on.
func (s *Step) LeftWarm() bool { return s.Cool.Set && s.Cool.ToC > ColdC }
