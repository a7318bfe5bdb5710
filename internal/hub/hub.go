package hub

import (
	"errors"
	"fmt"
	"log/slog"
	"slices"
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
