package hub

import (
	"fmt"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// Seed fills a new data file; it is for store.Options.New. It takes files and
// events as if a device had sent them, and fails where they would be refused. An import
// of the same files, edited on disk, goes on from them.
func Seed(tx *store.Tx, now time.Time, device string, files []Offer, events []dinner.Event) error {
	in := intake{called: device, now: now.UnixMilli(), offers: files, events: events, imports: true}
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

// SeedOffer returns the offer of a file that comes with the program. Its id is the
// one that phones use when they send a revision back, so that the same revision
// from another data file is recognised.
func SeedOffer(name, text string) Offer {
	return Offer{ID: returnedPrefix + dinner.Revision(text), Name: name, Text: text}
}
