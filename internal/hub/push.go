package hub

import (
	"errors"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// Reasons for which a valid record is refused.
const (
	whyOther   = "another record with this id came before and is kept"
	whyDamaged = "the server's disk has damaged what this belongs to: keep it here, and restore a backup on the server"
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
	imports bool                                  // the offers are the files of a folder, see Request.Import
	quota   *quota
	now     int64 // Unix milliseconds
	offers  []Offer
	events  []dinner.Event
	acked   []string
	refused []Refusal
	kept    []dinner.Event // events that the phone has in another form, as they are here
	space   space          // what kept leaves of the reply
	beside  bool           // the offer at hand was put beside the newest revision
	clashed []string       // ids of offers that are beside the newest revision
	trouble string         // why nothing was taken
	joins   joins          // merges worked out so far
	merged  []string       // names of files that were merged, for the log
	stamped int            // number of events that got another stamp
	records int            // number of records written
	bytes   int            // their size
}

// push takes what the phone sends. All of it goes to disk in one transaction, so
// that either the reply acknowledges what is there or there is no reply. It
// returns what the request brought and what became of that.
func (h *Hub) push(req Request, reply *Reply) (*intake, error) {
	in := &intake{space: space{left: maxReplyBytes}, from: req.From, called: req.Device, keep: req.Keep, imports: req.Import, quota: &h.quota, now: reply.Now}
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
	if err := h.write(in); err != nil {
		return nil, err
	}
	if in.by.ID != "" && in.records > 0 {
		h.quota.add(in.by.ID, in.records, in.bytes, h.now())
	}
	reply.Trouble, reply.Clashed = in.trouble, in.clashed
	reply.Acked = append(reply.Acked, in.acked...)
	reply.Refused = append(reply.Refused, in.refused...)
	if in.stamped > 0 {
		h.log.Info("events restamped: the device's clock is ahead", "device", in.device(), "events", in.stamped)
	}
	if in.trouble != "" {
		h.refused.Add(1, h.now(), h.log, "a device wrote too much", "latest device", in.device())
	}
	for _, name := range in.merged {
		h.log.Info("file merged", "file", name, "device", in.device())
	}
	return in, nil
}

// write runs the transaction. Merges are worked out before it, so that nobody's tick
// waits for one. Where another phone changes a file meanwhile, they are worked out again.
func (h *Hub) write(in *intake) error {
	for {
		err := h.store.Update(in.take)
		if !errors.Is(err, errJoin) {
			return err
		}
		h.merging.Lock()
		in.joins.work()
		h.merging.Unlock()
	}
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
	in.clashed, in.records, in.bytes = nil, 0, 0
	in.space = space{left: maxReplyBytes}
	if in.trouble, err = in.stop(tx); in.trouble != "" || err != nil {
		return err
	}
	records, bytes := tx.Added()
	if err := in.takeAll(tx); err != nil {
		return err
	}
	if len(in.joins.wanted) > 0 {
		return errJoin
	}
	in.records, in.bytes = tx.Added()
	in.records, in.bytes = in.records-records, in.bytes-bytes
	if in.by.ID == "" || in.records == 0 {
		return nil
	}
	return tx.AddVolume(in.by.ID, uint64(in.bytes))
}

// takeAll takes the records one by one.
func (in *intake) takeAll(tx *store.Tx) error {
	for _, o := range in.offers {
		why, err := in.takeFile(tx, o)
		if errors.Is(err, errJoin) {
			continue // and see which other merges are needed
		}
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
	known, err := tx.FindEvent(ev.ID)
	if err != nil {
		return "", err
	}
	if known.Seq != 0 {
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
