package hub

import (
	"fmt"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// Seed fills a new data file, as store.Options.New: files by name, then events,
// as if a device had sent them. What a phone may not send may not be seeded.
func Seed(tx *store.Tx, now time.Time, device string, files []Offer, events []dinner.Event) error {
	in := intake{device: device, now: now.UnixMilli(), offers: files, events: events}
	for _, ev := range events {
		if err := dinner.Validate(ev); err != nil {
			return fmt.Errorf("event %s: %w", ev.ID, err)
		}
	}
	if err := in.take(tx); err != nil {
		return err
	}
	if len(in.refused) > 0 {
		return fmt.Errorf("%s: %s", in.refused[0].ID, in.refused[0].Why)
	}
	return nil
}

// SeedOffer makes the offer of a file that comes with the program. It has the id
// that phones use for a revision they hand back, so that one they had from
// another data file is known as the same.
func SeedOffer(name, text string) Offer {
	return Offer{ID: handedBackBy + dinner.Revision(text), Name: name, Text: text}
}
