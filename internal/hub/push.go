package hub

import (
	"errors"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/merge"
	"hobside/internal/store"
)

// Reasons for which a valid record is refused.
const (
	whyOther    = "another record with this id came before and is kept"
	whyDamaged  = "the server's disk has damaged what this belongs to: keep it here, and restore a backup on the server"
	whyTooLarge = "merged with what others wrote it is too large: copy your lines, fetch the newest text, and add them there"
)

// returnedPrefix begins the id of an offer by which a phone sends back a revision
// that it got from a server, after a restore for instance. It is not an edit.
const returnedPrefix = "file-"

// An intake is what one request brought that could be read and is valid, and what
// became of it.
type intake struct {
	from    func(*store.Tx) (store.Device, error) // see Request.From
	called  string                                // the device's own name for itself
	by      store.Device                          // the device in the current transaction
	keep    bool                                  // the offers are earlier revisions, see Request.Keep
	now     int64                                 // Unix milliseconds
	offers  []Offer
	events  []dinner.Event
	acked   []string
	refused []Refusal
	kept    []dinner.Event // events that the phone has in another form, as they are here
	space   space          // what kept leaves of the reply
	merged  []string       // names of files that were merged, for the log
	stamped int            // number of events that got another stamp
}

// push takes what the phone sends. All of it goes to disk in one transaction, so
// that either the reply acknowledges what is there or there is no reply. It
// returns what the request brought and what became of that.
func (h *Hub) push(req Request, reply *Reply) (*intake, error) {
	in := &intake{space: space{left: maxReplyBytes}, from: req.From, called: req.Device, keep: req.Keep, now: reply.Now}
	for _, raw := range req.Files {
		o, err := readOffer(raw)
		if err != nil {
			reply.Refused = append(reply.Refused, Refusal{ID: idOf(raw), Why: err.Error()})
			continue
		}
		in.offers = append(in.offers, o)
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
		h.refused.Add(len(reply.Refused), h.now(), h.log, "records refused", "latest device", req.Device, "latest reason", reply.Refused[0].Why)
	}
	if len(in.offers)+len(in.events) == 0 {
		return in, nil
	}
	if err := h.store.Update(in.take); err != nil {
		return nil, err
	}
	reply.Acked = append(reply.Acked, in.acked...)
	reply.Refused = append(reply.Refused, in.refused...)
	if in.stamped > 0 {
		h.log.Info("events restamped: the device's clock is ahead", "device", in.device(), "events", in.stamped)
	}
	for _, name := range in.merged {
		h.log.Info("file merged", "file", name, "device", in.device())
	}
	return in, nil
}

// take is the transaction. It may run more than once and starts over each time.
// Files come first, because an event may start a dinner that uses them.
func (in *intake) take(tx *store.Tx) error {
	by, err := sender(tx, in.from)
	if err != nil {
		return err
	}
	in.by = by
	in.acked, in.refused, in.kept, in.merged, in.stamped = nil, nil, nil, nil, 0
	in.space = space{left: maxReplyBytes}
	for _, o := range in.offers {
		why, err := in.takeFile(tx, o)
		if errors.Is(err, store.ErrDamaged) {
			why, err = whyDamaged, nil // the other records can be taken
		}
		if err != nil {
			return err
		}
		in.answer(o.ID, why)
	}
	for _, ev := range in.events {
		why, err := in.takeEvent(tx, ev)
		if errors.Is(err, errNoSpace) {
			continue
		}
		if errors.Is(err, store.ErrDamaged) {
			why, err = whyDamaged, nil
		}
		if err != nil {
			return err
		}
		in.answer(ev.ID, why)
	}
	return nil
}

// device returns the id of the device that sent the records; on the server's own
// machine, what it calls itself.
func (in *intake) device() string {
	if in.by.ID != "" {
		return in.by.ID
	}
	return in.called
}

// answer acknowledges a record, or refuses it when there is a reason why.
func (in *intake) answer(id, why string) {
	if why == "" {
		in.acked = append(in.acked, id)
	} else {
		in.refused = append(in.refused, Refusal{ID: id, Why: why})
	}
}

// takeEvent adds an event to the log. It returns why the event is refused, "" when
// it is not.
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
			if !in.space.take(eventSize(*known.Event)) {
				return "", errNoSpace
			}
			in.kept = append(in.kept, *known.Event) // the phone's cursor may be past it
		}
		if !sameDeed(*known.Event, ev) {
			return whyOther, nil
		}
		return "", nil // a repeat: the event keeps the stamp and the signature it got the first time
	}
	if why, err := mayEvent(tx, Role(in.by.Role), ev); why != "" || err != nil {
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
	sign(&ev, in.by, in.called)
	return "", tx.AppendEvent(ev)
}

// takeFile adds an offered revision to the log, merged with the newest one where
// the offer was not made from that. It returns why the offer is refused, "" when
// it is not.
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
	if in.by.Role == string(Helper) {
		if tx.Has(o.Name, revision) {
			return "", nil // sent back, and here already
		}
		return whyHelperFile, nil
	}
	offered := store.File{ID: o.ID, Name: o.Name, Base: o.Base, Text: o.Text, Device: in.device(), At: in.now, Clash: merge.Marked(o.Text)}
	if head == "" {
		_, err := tx.AppendFile(offered)
		return "", err
	}
	newest, err := tx.File(o.Name, head)
	if err != nil {
		return "", err
	}
	// The times of one file's revisions always increase, because a phone sends
	// them to a new data file in the order of their times.
	offered.At = max(in.now, newest.At+1)
	switch {
	case head == revision:
		return "", tx.Alias(o.ID, o.Name, revision)
	case (in.keep || strings.HasPrefix(o.ID, returnedPrefix)) && tx.Has(o.Name, revision):
		return "", tx.Alias(o.ID, o.Name, revision) // an earlier text, sent back; not an edit that returns to it
	case head == o.Base && !in.keep:
		_, err := tx.AppendFile(offered)
		return "", err
	}
	return in.merge(tx, offered, newest)
}

// merge adds an offer that was not made from the newest text. The offer itself
// becomes a revision, because a dinner may have pinned it; the merged text follows
// it and becomes the newest.
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
	switch back := strings.HasPrefix(offered.ID, returnedPrefix); {
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
	merged := store.File{Name: offered.Name, Base: newest.Revision, Text: text, Device: in.device(), At: offered.At + 1, Clash: merge.Marked(text)}
	switch text {
	case offered.Text: // the offer has everything; it stays the newest
		return "", nil
	case newest.Text: // the offer brought nothing, and must not stay the newest
		merged.Base = newest.Base
	}
	_, err = tx.AppendFile(merged)
	return "", err
}
