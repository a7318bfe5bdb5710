package hub

import (
	"errors"
	"slices"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// A Role is what a device may do. The zero Role is this machine's own, which
// may do everything.
type Role string

const (
	Cook   Role = "cook"   // everything
	Helper Role = "helper" // what hands do at the stove: [HelperKinds]
)

// IsRole says whether a word is a role that a device can have.
func IsRole(word string) bool { return word == string(Cook) || word == string(Helper) }

// HelperKinds are the events a helper may send: what was done, weighed and read,
// and taking that back. What the dinner is (its cards, covers, times, ways and
// plan) is the cook's to say.
var HelperKinds = []dinner.Kind{
	dinner.KindTick, dinner.KindStart, dinner.KindFinish, dinner.KindMeasure, dinner.KindTemperature, dinner.KindTimer,
	dinner.KindDelay, dinner.KindHave, dinner.KindNote, dinner.KindUndo,
}

// Why a helper's phone keeps something to itself.
const (
	whyHelperFile  = "this phone is a helper's: it may tick, weigh and note, but not change cards, menus or kitchens; the cook can make it a cook's under Settings"
	whyHelperEvent = "this phone is a helper's: it may tick, weigh and note, but not change what the dinner is; the cook can make it a cook's under Settings"
	whyHelperUndo  = "this phone is a helper's and takes back what the server has not got: try again when the other phone has sent it"
)

// maxUndos is how far undos of undos are followed. Nobody changes a mind so often.
const maxUndos = 64

// mayEvent says why an event of a role is refused, or "".
func mayEvent(tx *store.Tx, role Role, ev dinner.Event) (why string, err error) {
	if role != Helper {
		return "", nil
	}
	if !slices.Contains(HelperKinds, ev.Kind) {
		return whyHelperEvent, nil
	}
	for n := 0; ev.Kind == dinner.KindUndo; n++ { // an undo does what it takes back
		if n == maxUndos {
			return whyHelperEvent, nil
		}
		r, err := tx.Find(ev.Undo)
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

// errRole is for a role that is none: a device of a newer release.
var errRole = errors.New("the device's role is not known here")

// CheckRole says whether a role is one there is.
func CheckRole(role Role) error {
	if role == "" || IsRole(string(role)) {
		return nil
	}
	return errRole
}
