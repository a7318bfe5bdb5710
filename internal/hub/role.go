package hub

import (
	"fmt"
	"slices"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// A Role is what a device may do. The zero Role is that of the server's own
// machine, which may do everything.
type Role string

const (
	Cook   Role = "cook"   // everything
	Helper Role = "helper" // events of the kinds in [HelperKinds], and no files
)

// IsRole reports whether a word is a role that a device can have.
func IsRole(word string) bool { return word == string(Cook) || word == string(Helper) }

// HelperKinds are the kinds of events that a helper may send: what was done,
// weighed and measured, and undoing that. Only a cook may change the dinner itself:
// its cards, covers, times, ways and plan.
var HelperKinds = []dinner.Kind{
	dinner.KindTick, dinner.KindStart, dinner.KindFinish, dinner.KindMeasure, dinner.KindTemperature, dinner.KindTimer,
	dinner.KindDelay, dinner.KindHave, dinner.KindNote, dinner.KindUndo,
}

// Reasons for which a helper's record is refused.
const (
	whyHelperFile  = "this phone is a helper's: it may tick, weigh and note, but not change cards, menus or kitchens; the cook can make it a cook's under Settings"
	whyHelperEvent = "this phone is a helper's: it may tick, weigh and note, but not change what the dinner is; the cook can make it a cook's under Settings"
	whyHelperUndo  = "this phone is a helper's and undoes something that the server does not have yet: try again when the other phone has sent it"
)

// maxUndos is how many undos of undos are followed.
const maxUndos = 64

// mayEvent returns why an event from a device with a role is refused, "" when it
// is not.
func mayEvent(tx *store.Tx, role Role, ev dinner.Event) (why string, err error) {
	if role != Helper {
		return "", nil
	}
	if !slices.Contains(HelperKinds, ev.Kind) {
		return whyHelperEvent, nil
	}
	for n := 0; ev.Kind == dinner.KindUndo; n++ { // an undo has the kind of what it undoes
		if n == maxUndos {
			return whyHelperEvent, nil
		}
		r, err := tx.FindEvent(ev.Undo)
		if err != nil {
			return "", err
		}
		if r.Event == nil {
			return whyHelperUndo, nil
		}
		ev = *r.Event
	}
	if !slices.Contains(HelperKinds, ev.Kind) {
		return whyHelperEvent, nil
	}
	return "", nil
}

// sender returns the device that sent a request, the zero Device for the server's own
// machine. The request may have been on its way for long, so the device is looked up
// in the transaction that uses its rights. It fails with [store.ErrNoDevice] when the
// device was revoked, and when its role is not known here.
func sender(tx *store.Tx, from func(*store.Tx) (store.Device, error)) (store.Device, error) {
	if from == nil {
		return store.Device{}, nil
	}
	d, err := from(tx)
	if err != nil {
		return store.Device{}, err
	}
	return d, CheckRole(Role(d.Role))
}

// errRole is the error for an unknown role, which a newer release may have stored. A
// device that may do nothing is to the sync as if it were not there.
var errRole = fmt.Errorf("%w whose role is known here", store.ErrNoDevice)

// CheckRole returns an error that wraps [store.ErrNoDevice] when a role is not known here.
func CheckRole(role Role) error {
	if role == "" || IsRole(string(role)) {
		return nil
	}
	return errRole
}
