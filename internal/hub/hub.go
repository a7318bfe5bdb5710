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

	refused Tally // records that can't be read or are not valid

	mu    sync.Mutex
	at    Position          // the end of the log
	tail  tail              // the newest records
	news  map[uint64][]byte // messages for streams at this end of the log, by the phone's cursor
	moved chan struct{}     // closed and replaced when the log grows
}

// A Position is a place in the log.
type Position struct {
	Epoch string `json:"epoch"`
	Seq   uint64 `json:"seq,string"`
}

// New returns a hub on a store. Now is the server's clock. The log gets what a
// person who runs the server may want to know, never the content of a card or a
// note.
func New(s *store.Store, now func() time.Time, log *slog.Logger) (*Hub, error) {
	h := &Hub{store: s, now: now, log: log, at: Position{Epoch: s.Epoch()}, moved: make(chan struct{})}
	h.mu.Lock() // so that take waits until at and tail are set
	defer h.mu.Unlock()
	seq, err := s.Follow(h.take)
	h.at.Seq, h.tail.from = seq, seq+1
	return h, err
}

// take adds records that have just been written to the tail, and tells everyone
// who watches. It runs once for each transaction, however many requests shared it.
func (h *Hub) take(written []store.Written) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.tail.add(written)
	h.at.Seq = written[len(written)-1].Seq
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
// revoked; any other is a fault of the disk, and may pass.
func (h *Hub) Sync(req Request) (Reply, error) {
	reply := Reply{
		Epoch: h.store.Epoch(), Now: h.now().UnixMilli(),
		Acked: []string{}, Refused: []Refusal{}, Events: []dinner.Event{}, Files: []FileRecord{}, // [] in JSON, never null
	}
	in, err := h.push(req, &reply)
	if err == nil {
		err = h.store.View(func(tx *store.Tx) error { return h.answer(tx, req, in, &reply) })
	}
	if err != nil {
		return Reply{}, err
	}
	for _, ev := range in.kept {
		if !slices.ContainsFunc(reply.Events, func(e dinner.Event) bool { return e.ID == ev.ID }) {
			reply.Events = append(reply.Events, ev)
		}
	}
	return reply, nil
}

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
	// A cursor of another epoch is not valid here. One beyond the end is of a
	// longer log: a data file that was copied back by hand keeps its epoch.
	if req.Epoch != reply.Epoch && (req.Epoch != "" || after != 0) || err != nil || after > end {
		reply.Reset, after = true, 0
	}
	page := h.since(tx, after, bytes)
	for _, r := range page.Records {
		if r.Event != nil {
			reply.Events = append(reply.Events, *r.Event)
		} else {
			reply.Files = append(reply.Files, fileRecord(*r.File))
		}
	}
	reply.Next, reply.More, reply.Damaged = strconv.FormatUint(page.Next, 10), page.More, page.Damaged
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
			f, err := tx.File(o.Name, tx.Head(o.Name))
			switch {
			case tx.Head(o.Name) == "", errors.Is(err, store.ErrDamaged):
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

// fileRecord returns a stored file in its form on the wire.
func fileRecord(f store.File) FileRecord {
	return FileRecord{Name: f.Name, Revision: f.Revision, Base: f.Base, Text: f.Text, Device: f.Device, At: f.At, Clash: f.Clash}
}

// Watch returns the end of the log, and a channel that is closed when the log
// grows. A slow reader gets one notification for many changes.
func (h *Hub) Watch() (Position, <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.at, h.moved
}

// Healthy returns nil when the log can be read and no damage was found in it since
// the server started, else what is wrong.
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
	if err != nil {
		return fmt.Errorf("the data file can't be read: %w", err)
	}
	return nil
}
