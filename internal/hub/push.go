package hub

import (
	"slices"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/merge"
	"hobside/internal/store"
)

// Why something that reads well is refused all the same.
const (
	whyOther     = "something else came by this id before, and that is kept"
	whyTooLarge  = "merged with what others wrote it is too large: copy your lines, fetch the newest, and put them in"
	handedBackBy = "file-" // how a phone names an offer of a revision it only hands back
)

// intake is what one request brought, readable and valid.
type intake struct {
	device  string
	role    Role
	keep    bool // offers are earlier revisions, see Request.Keep
	now     int64
	offers  []Offer
	events  []dinner.Event
	acked   []string
	refused []Refusal
	kept    []dinner.Event // as they are here, where the phone has them otherwise
	merged  []string       // names of files that were merged, for the log
	stamped int            // events that got another stamp
}

// push takes what the phone sends. All of it goes to disk in one transaction:
// the reply names what is there, or there is no reply. It gives back the names
// of the files that were offered, and the events that the phone has otherwise
// than they are here.
func (h *Hub) push(req Request, reply *Reply) (offered []string, kept []dinner.Event, err error) {
	in := intake{device: req.Device, role: req.Role, keep: req.Keep, now: reply.Now}
	for _, raw := range req.Files {
		o, err := readOffer(raw)
		if err != nil {
			reply.Refused = append(reply.Refused, Refusal{ID: idOf(raw), Why: err.Error()})
			continue
		}
		in.offers = append(in.offers, o)
		if !slices.Contains(offered, o.Name) {
			offered = append(offered, o.Name)
		}
	}
	for _, raw := range req.Events {
		ev, err := readEvent(raw)
		if err != nil {
			reply.Refused = append(reply.Refused, Refusal{ID: idOf(raw), Why: err.Error()})
			continue
		}
		in.events = append(in.events, ev)
	}
	if len(reply.Refused) > 0 {
		h.log.Warn("refused", "device", req.Device, "records", len(reply.Refused), "first", reply.Refused[0].Why)
	}
	if len(in.offers)+len(in.events) == 0 {
		return nil, nil, nil
	}
	if err := h.store.Update(in.take); err != nil {
		return nil, nil, err
	}
	reply.Acked = append(reply.Acked, in.acked...)
	reply.Refused = append(reply.Refused, in.refused...)
	if in.stamped > 0 {
		h.log.Info("restamped: a clock is ahead of ours", "device", req.Device, "events", in.stamped)
	}
	for _, name := range in.merged {
		h.log.Info("merged", "file", name, "device", req.Device)
	}
	return offered, in.kept, h.advance()
}

// take is the transaction. It may be run more than once, and begins anew each
// time. Files come first: an event may open a dinner of them.
func (in *intake) take(tx *store.Tx) error {
	in.acked, in.refused, in.kept, in.merged, in.stamped = nil, nil, nil, nil, 0
	for _, o := range in.offers {
		why, err := in.takeFile(tx, o)
		if err != nil {
			return err
		}
		in.answer(o.ID, why)
	}
	for _, ev := range in.events {
		why, err := in.takeEvent(tx, ev)
		if err != nil {
			return err
		}
		in.answer(ev.ID, why)
	}
	return nil
}

func (in *intake) answer(id, why string) {
	if why == "" {
		in.acked = append(in.acked, id)
	} else {
		in.refused = append(in.refused, Refusal{ID: id, Why: why})
	}
}

func (in *intake) takeEvent(tx *store.Tx, ev dinner.Event) (why string, err error) {
	known, err := tx.Find(ev.ID)
	if err != nil {
		return "", err
	}
	if known.Seq != 0 {
		if known.Event == nil {
			return whyOther, nil
		}
		if known.Event.Stamp != ev.Stamp || !known.Event.Same(&ev) {
			in.kept = append(in.kept, *known.Event) // the phone may have read past it
		}
		if !known.Event.Same(&ev) {
			return whyOther, nil
		}
		return "", nil // a repeat; the stamp it got the first time stays
	}
	if why, err := mayEvent(tx, in.role, ev); why != "" || err != nil {
		return why, err
	}
	newest, err := tx.Newest()
	if err != nil {
		return "", err
	}
	final, changed := dinner.Final(ev.Stamp, in.now, newest)
	if changed {
		in.stamped++
	}
	ev.Stamp = final
	return "", tx.AppendEvent(ev)
}

func (in *intake) takeFile(tx *store.Tx, o Offer) (why string, err error) {
	known, err := tx.Find(o.ID)
	if err != nil {
		return "", err
	}
	if known.Seq != 0 {
		if known.File == nil || known.File.Name != o.Name || known.File.Text != o.Text {
			return whyOther, nil
		}
		return "", nil
	}
	revision, head := dinner.Revision(o.Text), tx.Head(o.Name)
	if in.role == Helper {
		if tx.Has(o.Name, revision) {
			return "", nil // handed back, and here already
		}
		return whyHelperFile, nil
	}
	offered := store.File{ID: o.ID, Name: o.Name, Base: o.Base, Text: o.Text, Device: in.device, At: in.now, Clash: merge.Marked(o.Text)}
	if head == "" {
		_, err := tx.AppendFile(offered)
		return "", err
	}
	newest, err := tx.File(o.Name, head)
	if err != nil {
		return "", err
	}
	// The times of one file's revisions always rise: a phone that hands them to a
	// new data file does so in the order of their times.
	offered.At = max(in.now, newest.At+1)
	switch {
	case head == revision:
		return "", tx.Alias(o.ID, o.Name, revision)
	case (in.keep || strings.HasPrefix(o.ID, handedBackBy)) && tx.Has(o.Name, revision):
		return "", tx.Alias(o.ID, o.Name, revision) // an earlier text, not a wish to go back to it
	case head == o.Base && !in.keep:
		_, err := tx.AppendFile(offered)
		return "", err
	}
	return in.merge(tx, offered, newest)
}

// merge joins an offer with the newest text, which it was not made from. The
// offer is kept as a revision of its own, because a dinner may have pinned it;
// the merged text follows it and is the newest.
func (in *intake) merge(tx *store.Tx, offered, newest store.File) (why string, err error) {
	var base *string
	if tx.Knows(offered.Base) {
		text, err := tx.Text(offered.Base)
		if err != nil {
			return "", err
		}
		base = &text
	}
	text := ""
	switch back := strings.HasPrefix(offered.ID, handedBackBy); {
	case in.keep:
		text = newest.Text
	case back && (tx.IsBase(offered.Name, dinner.Revision(offered.Text)) || merge.Holds(newest.Text, offered.Text)):
		text = newest.Text
	case back && merge.Holds(offered.Text, newest.Text):
		text = offered.Text
	default:
		text = merge.Lines(base, newest.Text, offered.Text)
	}
	if len(text) > MaxText || strings.Count(text, "\n") > MaxLines {
		return whyTooLarge, nil
	}
	if _, err := tx.AppendFile(offered); err != nil {
		return "", err
	}
	in.merged = append(in.merged, offered.Name)
	merged := store.File{Name: offered.Name, Base: newest.Revision, Text: text, Device: in.device, At: offered.At + 1, Clash: merge.Marked(text)}
	switch text {
	case offered.Text: // it held all that was new
		return "", nil
	case newest.Text: // it held nothing new, and must not stay the newest
		merged.Base = newest.Base
	}
	_, err = tx.AppendFile(merged)
	return "", err
}
