package dinner

import (
	"bytes"
	"cmp"
	"encoding/json"
)

// Compare orders any two events the same way on every device: by stamp, then
// device, then ID. It returns 0 only for two copies of one event.
func (e *Event) Compare(f *Event) int {
	return cmp.Or(e.Stamp.Compare(f.Stamp), cmp.Compare(e.Device, f.Device), cmp.Compare(e.ID, f.ID))
}

// counts reports whether copy e of an event counts, and not copy f of the same ID. The
// copy with the lower stamp counts: the server nearly always lowers a stamp that it
// changes. Of equal stamps, which only a forged ID can have, the copy whose JSON
// sorts first counts; that is arbitrary, and the same everywhere.
func (e *Event) counts(f *Event) bool {
	if c := e.Stamp.Compare(f.Stamp); c != 0 {
		return c < 0
	}
	a, _ := json.Marshal(e) // an Event always has a JSON form
	b, _ := json.Marshal(f)
	return bytes.Compare(a, b) < 0
}

// Same reports whether two copies of one ID are the same but for the stamp, which the
// server may change.
func (e *Event) Same(f *Event) bool {
	a, b := *e, *f
	a.Stamp, b.Stamp = Stamp{}, Stamp{}
	x, _ := json.Marshal(&a)
	y, _ := json.Marshal(&b)
	return bytes.Equal(x, y)
}
