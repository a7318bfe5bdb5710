package demand

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/quantity"
)

// vesselProblems returns a warning for each step whose food does not go into its vessel, or
// whose vessels the kitchen does not have. A kitchen that lists none of a kind is taken to
// have enough of it.
func vesselProblems(in Input, d *Demand, k *kitchen.Kitchen) []document.Problem {
	var out []document.Problem
	for _, comp := range d.Components {
		c := comp.Card
		for i := range c.Steps {
			s := &c.Steps[i]
			if s.Vessel.Name == "" || len(comp.Batches) == 0 || !s.In(max(1, in.Ways[c.ID])) {
				continue
			}
			largest := comp.Batches[0].Factor
			for _, m := range comp.Batches {
				if m.Factor.Cmp(largest) > 0 {
					largest = m.Factor
				}
			}
			if msg, do := tooSmall(c, i, largest, k); msg != "" {
				out = append(out, document.Problem{File: c.File, Line: s.Pos.Line, Col: s.Pos.Col, Severity: document.Warning, Msg: msg, Do: do})
			}
		}
	}
	return out
}

// tooSmall returns what is wrong with the vessel of a step for a batch, and what to do; ""
// where its food goes in.
func tooSmall(c *card.Card, step int, factor quantity.Number, k *kitchen.Kitchen) (msg, do string) {
	s := &c.Steps[step]
	v, n := s.Vessel, c.Vessels(step, factor)
	f, ok := c.Fill(step, s.Way, factor)
	one := "in one " + v.Name + " of " + v.Words
	if v.Count > 1 {
		one = "in " + strconv.Itoa(v.Count) + " of the " + v.Name + " of " + v.Words
	}
	where := "step " + strconv.Itoa(s.Number) + ": " + fmt.Sprintf("%.3g kg, about %.3g L", f.Grams/1000, f.Litres)
	if len(f.Assumed) > 0 {
		where += " (" + strings.Join(f.Assumed[:min(2, len(f.Assumed))], ", ") + " taken at 1 kg a litre)"
	}
	if ok && f.Vessels > max(1, v.Count) && (v.Count > 0 || !spreads(v.Name)) {
		return fmt.Sprintf("%s, %s, which takes %.3g L", where, one, card.Room(v)*float64(max(1, v.Count))),
			`take a larger one, write how many ("` + v.Name + ": " + strconv.Itoa(f.Vessels) + ", " + v.Words + `"), or make less at once with "largest:"`
	}
	if k == nil {
		return "", ""
	}
	have, listed, most := 0, false, 0.0
	for _, kv := range k.Vessels {
		if kv.Name != v.Name {
			continue
		}
		listed, most = true, math.Max(most, kv.Litres)
		if AsLarge(kv, v) {
			have += kv.Count
		}
	}
	if !listed || have >= n {
		return "", ""
	}
	return fmt.Sprintf("step %d needs %d of the %s of %s, and the kitchen has %d as large: its largest takes %.3g L", s.Number, n, v.Name, v.Words, have, most),
		`name what there is under "## Equipment", or make less at once with "largest:"`
}

// spreads reports whether food is shared out over as many vessels of a kind as it takes:
// trays and tins, no pots.
func spreads(name string) bool {
	switch name {
	case "tray", "tin", "tub", "dish", "mould":
		return true
	}
	return false
}

// AsLarge reports whether a vessel of the kitchen does for one of a card: its floor is as
// large and it is as deep, or where either gives only its volume, it holds as much. Two per
// cent less is as large.
func AsLarge(kv, v document.Vessel) bool {
	const near = 0.98
	long, wide := math.Max(kv.LengthM, kv.WidthM), math.Min(kv.LengthM, kv.WidthM)
	if long > 0 && v.LengthM > 0 {
		return long >= near*math.Max(v.LengthM, v.WidthM) && wide >= near*math.Min(v.LengthM, v.WidthM) && kv.DepthM >= near*v.DepthM
	}
	return kv.Litres >= near*v.Litres
}
