package hub

import (
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// maxWho is how many bytes of a device's name go into an event.
const maxWho = 80

// sign sets who did an event, and on which device, from the device that sent it. A
// helper signs all that it sends. A cook's phone signs its own events: called is the
// name that the phone has for itself. It may hand in those of other phones, as it does
// after a restore, and say who holds it. The zero Device is the server's own machine,
// whose events stay as they are.
func sign(ev *dinner.Event, by store.Device, called string) {
	switch {
	case by.ID == "":
	case by.Role == string(Helper):
		ev.Device, ev.Who = by.ID, nameIn(by.Name)
	case ev.Device == called:
		ev.Device = by.ID
		fallthrough
	case ev.Device == by.ID:
		if ev.Who == "" {
			ev.Who = nameIn(by.Name)
		}
	}
}

// nameIn returns a device's name in the bytes that an event has for it.
func nameIn(name string) string {
	if len(name) > maxWho {
		name = name[:maxWho]
	}
	return strings.ToValidUTF8(name, "") // the cut may have split a letter
}

// sameDeed reports whether two copies of one event tell the same, whoever signed them.
// A phone repeats an event as it made it, and may have been paired again meanwhile.
func sameDeed(a, b dinner.Event) bool {
	a.Device, a.Who, b.Device, b.Who = "", "", "", ""
	return a.Same(&b)
}
