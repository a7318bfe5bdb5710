package hub

import (
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"strconv"
	"sync"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/store"
)

// A Hub passes events and files between phones. It is safe for use by many
// goroutines.
type Hub struct {
	store *store.Store
	now   func() time.Time
	log   *slog.Logger

	refused Tally      // records that can't be read or are not valid
	quota   quota      // what each device writes
	merging sync.Mutex // held during a merge: one at a time, so that ticks have a processor

	mu    sync.Mutex
	at    Position            // the end of the log
	tail  tail                // the newest records
	news  map[Position][]byte // messages for streams at this end of the log, by the phone's cursor
	moved chan struct{}       // closed and replaced when the log grows
}

// A Position is a place in the log.
type Position struct {
	Epoch string `json:"epoch"`
	Seq   uint64 `json:"seq,string"`
	Chain string `json:"chain"` // see store.Chain
}

// New returns a hub on a store. Now is the server's clock. The log gets what a
// person who runs the server may want to know, never the content of a card or a
// note.
func New(s *store.Store, now func() time.Time, log *slog.Logger) (*Hub, error) {
	h := &Hub{store: s, now: now, log: log, at: Position{Epoch: s.Epoch()}, moved: make(chan struct{})}
	h.mu.Lock() // so that take waits until at and tail are set
	defer h.mu.Unlock()
	seq, err := s.Follow(h.take)
	if err != nil {
		return nil, err
	}
	h.at.Seq, h.tail.from = seq, seq+1
	err = s.View(func(tx *store.Tx) error {
		h.tail.before, _ = tx.Chain(seq)
		return nil
	})
	h.at.Chain = h.tail.before.String()
	return h, err
}

// take adds records that have just been written to the tail, and tells everyone
// who watches. It runs once for each transaction, however many requests shared it.
func (h *Hub) take(written []store.Written) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.tail.add(written)
	last := written[len(written)-1]
	h.at.Seq, h.at.Chain = last.Seq, last.Chain.String()
	h.news = nil
	close(h.moved)
	h.moved = make(chan struct{})
}

// Sync takes what a phone sends and returns what it lacks. A phone repeats a
// request until it has seen the reply, so the same request may come any number of
// times, from two tabs at once, or hours late.
//
// An error means that nothing was acknowledged. One that wraps [ErrRequest] is a
// fault of the request, one that wraps [store.ErrNoDevice] says that the device was
// revoked; any other is a fault of the disk, and may pass. What the phone sent may be on
// disk while what it lacks can't be read: then the reply acknowledges, and says so.
func (h *Hub) Sync(req Request) (Reply, error) {
	reply := Reply{
		Epoch: h.store.Epoch(), Now: h.now().UnixMilli(),
		Acked: []string{}, Refused: []Refusal{}, Events: []dinner.Event{}, Files: []FileRecord{}, // [] in JSON, never null
	}
	in, err := h.push(req, &reply)
	if err != nil {
		return Reply{}, err
	}
	whole := reply
	whole.Acked = slices.Clone(reply.Acked) // answer takes out those that its files don't fit
	err = h.store.View(func(tx *store.Tx) error { return h.answer(tx, req, in, &whole) })
	switch {
	case err == nil:
		reply = whole
	case errors.Is(err, store.ErrNoDevice) || len(reply.Acked)+len(reply.Refused) == 0:
		return Reply{}, err
	default: // the cursor stays where it was
		h.log.Error("what a phone sent is saved, and what is new can't be read", "device", in.device(), "error", err)
		reply.Role, reply.Trouble = Role(in.by.Role), whyUnread
		reply.Epoch, reply.Next = req.Epoch, req.After
		if reply.Next == "" {
			reply.Next = "0"
		}
		if req.Chain != nil {
			reply.Chain = *req.Chain
		}
	}
	for _, ev := range in.kept {
		if !slices.ContainsFunc(reply.Events, func(e dinner.Event) bool { return e.ID == ev.ID }) {
			reply.Events = append(reply.Events, ev)
		}
	}
	return reply, nil
}

// whyUnread is what a reply says when the phone's records were saved and the log can't
// be read.
const whyUnread = "the server has saved what this phone sent, and can't read what is new: its log says why"

// answer adds to the reply what the phone may do and what it lacks. It fails with
// [store.ErrNoDevice] when the device was revoked since its records were taken.
func (h *Hub) answer(tx *store.Tx, req Request, in *intake, reply *Reply) error {
	by, err := sender(tx, req.From)
	if err != nil {
		return err
	}
	reply.Device = by.ID
	if reply.Role = Role(by.Role); reply.Role == Helper {
		reply.Kinds = HelperKinds
	}
	heads, err := h.heads(tx, in, reply)
	if err != nil {
		return err
	}
	h.wanted(tx, req, &in.space, reply)
	h.pull(tx, req, in.space.forPage(), reply)
	for _, f := range heads {
		last := ""
		for _, had := range reply.Files {
			if had.Name == f.Name {
				last = had.Revision
			}
		}
		if last != f.Revision {
			reply.Files = append(reply.Files, f)
		}
	}
	return nil
}

// pull adds the records that follow the phone's cursor to the reply, up to a number of
// bytes.
func (h *Hub) pull(tx *store.Tx, req Request, bytes int, reply *Reply) {
	h.mu.Lock()
	end := h.at.Seq
	h.mu.Unlock()
	after, err := strconv.ParseUint(req.After, 10, 64)
	if req.After == "" {
		after, err = 0, nil
	}
	// A cursor of another epoch is not valid here. A data file that was copied back by
	// hand keeps its epoch: there a cursor beyond the end is of a longer log, and one with
	// another chain is of a log that went on in another way.
	chain, ok := tx.Chain(after)
	ok = ok && (after == 0 || req.Chain == nil || *req.Chain == chain.String())
	if sure := req.Sure; sure != nil && sure.Epoch == reply.Epoch {
		chain, known := tx.Chain(sure.Seq)
		ok = ok && known && sure.Seq <= end && sure.Chain == chain.String()
	}
	if req.Epoch != reply.Epoch && (req.Epoch != "" || after != 0) || err != nil || after > end || !ok {
		reply.Reset, after = true, 0
	}
	page := h.since(tx, after, bytes)
	next, _ := tx.Chain(page.Next)
	for _, r := range page.Records {
		if r.Event != nil {
			reply.Events = append(reply.Events, *r.Event)
		} else {
			reply.Files = append(reply.Files, fileRecord(*r.File))
		}
	}
	reply.Next, reply.Chain = strconv.FormatUint(page.Next, 10), next.String()
	reply.More, reply.Damaged = page.More, page.Damaged
	if page.More {
		last, _ := tx.Chain(tx.Seq())
		reply.End = &Position{Epoch: reply.Epoch, Seq: tx.Seq(), Chain: last.String()}
	}
}

// since returns a page of the log, from memory where that has it.
func (h *Hub) since(tx *store.Tx, after uint64, bytes int) store.Page {
	h.mu.Lock()
	records, ok := h.tail.since(after, bytes)
	h.mu.Unlock()
	if ok {
		return store.Page{Records: records, Next: after + uint64(len(records))}
	}
	return tx.Since(after, MaxRecords, bytes)
}

// heads returns the newest revision of each offered file. An offer may have brought
// nothing new, and the phone may have read past the newest revision while its own edit
// was waiting: no later page would bring it that revision. A damaged revision is left
// out; the page that has it names it. Where a revision does not fit into the reply, its
// offers are not acknowledged, so that the phone sends them again.
func (h *Hub) heads(tx *store.Tx, in *intake, reply *Reply) (heads []FileRecord, err error) {
	fits := map[string]bool{} // by name
	for _, o := range in.offers {
		fit, done := fits[o.Name]
		if !done {
			fit = true
			f, err := newestOf(tx, o.Name)
			switch {
			case f.Name == "" && err == nil, errors.Is(err, store.ErrDamaged):
			case err != nil:
				return nil, err
			default:
				if fit = in.space.take(fileSize(f)); fit {
					heads = append(heads, fileRecord(f))
				}
			}
			fits[o.Name] = fit
		}
		if !fit {
			reply.Acked = slices.DeleteFunc(reply.Acked, func(id string) bool { return id == o.ID })
		}
	}
	return heads, nil
}

// newestOf returns the newest record of a file, the zero File when there is none.
func newestOf(tx *store.Tx, name string) (store.File, error) {
	head, err := tx.Head(name)
	if head == "" || err != nil {
		return store.File{}, err
	}
	return tx.File(name, head)
}

// fileRecord returns a stored file in its form on the wire.
func fileRecord(f store.File) FileRecord {
	return FileRecord{Name: f.Name, Revision: f.Revision, Base: f.Base, Text: f.Text, Device: f.Device, At: f.At, Clash: f.Clash, Beside: f.Beside, Awaits: f.Awaits, Settles: f.Settles}
}

// Watch returns the end of the log, and a channel that is closed when the log
// grows. A slow reader gets one notification for many changes.
func (h *Hub) Watch() (Position, <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.at, h.moved
}

// Healthy returns nil when the log can be read, its file is in its place and no damage
// was found in it since the server started, else what is wrong.
func (h *Hub) Healthy() error {
	err := h.store.View(func(tx *store.Tx) error {
		if tx.Epoch() != h.store.Epoch() {
			return errors.New("its epoch has changed")
		}
		return nil
	})
	if err == nil {
		err = h.store.Damage()
	}
	if replaced := h.store.Replaced(); replaced != nil {
		return replaced
	}
	if err != nil {
		return fmt.Errorf("the data file can't be read: %w", err)
	}
	return nil
}
