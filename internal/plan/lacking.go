package plan

import (
	"slices"
	"strconv"

	"hobside/internal/card"
	"hobside/internal/document"
)

// lack records what the kitchen lacks for a step. Equipment that heats or chills
// must be listed; a tool that is not listed is assumed to be there.
func (b *builder) lack(key Step, s *card.Step) {
	for _, q := range s.Equipment {
		e := has(b.in.Kitchen, q.Name)
		std, _ := document.FindEquipment(q.Name)
		switch {
		case e != nil && counted(e) && q.Count > capacity(e):
			b.miss(q.Name, b.name(key)+" takes up "+strconv.Itoa(q.Count)+" places of the "+q.Name+", and the kitchen has "+strconv.Itoa(capacity(e)))
		case e != nil:
		case std.Heat || std.Temp || chills(q.Name):
			b.miss(q.Name, "the kitchen has no "+q.Name+", and "+b.name(key)+" needs one")
		default:
			b.note("the kitchen's file does not list a " + q.Name + "; the plan takes it to be there")
		}
	}
}

// tooOld records a step whose first load would exceed its keeping time before its
// last load is done. Where keeping times may be exceeded, the plan has a note of it.
func (b *builder) tooOld(of Step, h hold, aged int) {
	text := b.name(of) + " goes in loads one after the other: the first waits " + document.FormatSeconds(aged*bySeconds) +
		" for the last, and may wait " + waits(h.within, h.place) + byDefault(h.usual)
	if b.in.loose {
		b.note(text)
		return
	}
	if !b.told[text] {
		b.told[text] = true
		b.old = append(b.old, text)
		b.oldSteps = append(b.oldSteps, of)
		b.oldWaits = append(b.oldWaits, longerWait{h, of, b.name(of), aged - h.within})
	}
}

// miss records missing equipment.
func (b *builder) miss(equipment, text string) {
	if !b.told[text] {
		b.told[text] = true
		b.missing = append(b.missing, text)
	}
	if !slices.Contains(b.lacking, equipment) {
		b.lacking = append(b.lacking, equipment)
	}
}
