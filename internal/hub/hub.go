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

// maxReplyBytes is about how much one reply carries. A page of cards is far
// larger than a page of ticks, and a weak signal should lose little when it goes.
const maxReplyBytes = 1 << 20

// A Hub passes events and files between phones. It is safe for use by many
// goroutines.
type Hub struct {
	store *store.Store
	now   func() time.Time
	log   *slog.Logger

	mu    sync.Mutex
	at    Position
	tail  tail              // ends at at
	news  map[uint64][]byte // words for the stream, by where a phone is; as of at
	moved chan struct{}     // closed and replaced when at moves
}

// A Position is a place in the log.
type Position struct {
	Epoch string `json:"epoch"`
	Seq   uint64 `json:"seq,string"`
}

// New makes a hub on a store. Now is the server's clock; log hears of what an
// operator may want to know, never of what a card or a note says.
func New(s *store.Store, now func() time.Time, log *slog.Logger) (*Hub, error) {
	h := &Hub{store: s, now: now, log: log, at: Position{Epoch: s.Epoch()}, moved: make(chan struct{})}
	err := s.View(func(tx *store.Tx) error {
		h.at.Seq = tx.Seq()
		h.tail.from = h.at.Seq + 1
		return nil
	})
	return h, err
}

// Sync takes what a phone sends and gives it what it lacks. The phone repeats a
// request until it sees the answer, so the same one can come any number of
// times, from two tabs at once, hours late.
//
// An error means that nothing was acknowledged: one that wraps [ErrRequest] is
// the phone's, any other is the disk's and may pass.
func (h *Hub) Sync(req Request) (Reply, error) {
	reply := Reply{
		Epoch: h.store.Epoch(), Now: h.now().UnixMilli(),
		Role: req.Role, Acked: []string{}, Refused: []Refusal{}, Events: []dinner.Event{}, Files: []FileRecord{}, // [] in JSON, never null
	}
	if req.Role == Helper {
		reply.Kinds = HelperKinds
	}
	offered, kept, err := h.push(req, &reply)
	if err == nil {
		err = h.pull(req, &reply)
	}
	if err == nil {
		err = h.heads(offered, &reply)
	}
	if err != nil {
		return Reply{}, err
	}
	for _, ev := range kept {
		if !slices.ContainsFunc(reply.Events, func(e dinner.Event) bool { return e.ID == ev.ID }) {
			reply.Events = append(reply.Events, ev)
		}
	}
	return reply, nil
}

// pull fills in the page of the log that comes after the phone's cursor.
func (h *Hub) pull(req Request, reply *Reply) error {
	h.mu.Lock()
	end := h.at.Seq
	h.mu.Unlock()
	after, err := strconv.ParseUint(req.After, 10, 64)
	if req.After == "" {
		after, err = 0, nil
	}
	// Another epoch counts anew, and a cursor from beyond the end is of a log
	// that was longer: a data file put back by hand keeps its epoch.
	if req.Epoch != reply.Epoch && (req.Epoch != "" || after != 0) || err != nil || after > end {
		reply.Reset, after = true, 0
	}
	records, more, err := h.since(after)
	if err != nil {
		return err
	}
	for _, r := range records {
		after = r.Seq
		if r.Event != nil {
			reply.Events = append(reply.Events, *r.Event)
		} else {
			reply.Files = append(reply.Files, record(*r.File))
		}
	}
	reply.Next, reply.More = strconv.FormatUint(after, 10), more
	return nil
}

// since reads a page of the log, from memory where it can.
func (h *Hub) since(after uint64) (records []store.Record, more bool, err error) {
	h.mu.Lock()
	records, ok := h.tail.since(after)
	h.mu.Unlock()
	if ok {
		return records, false, nil
	}
	err = h.store.View(func(tx *store.Tx) (err error) {
		records, more, err = tx.Since(after, MaxRecords, maxReplyBytes)
		return err
	})
	return records, more, err
}

// heads adds the newest revision of each file that the phone offered. An offer
// may have brought nothing new, and the phone have read past the newest while
// its own edit was in the way: no record would ever tell it again.
func (h *Hub) heads(names []string, reply *Reply) error {
	return h.store.View(func(tx *store.Tx) error {
		for _, name := range names {
			head, last := tx.Head(name), ""
			for _, f := range reply.Files {
				if f.Name == name {
					last = f.Revision
				}
			}
			if head == "" || last == head {
				continue
			}
			f, err := tx.File(name, head)
			if err != nil {
				return err
			}
			reply.Files = append(reply.Files, record(f))
		}
		return nil
	})
}

func record(f store.File) FileRecord {
	return FileRecord{Name: f.Name, Revision: f.Revision, Base: f.Base, Text: f.Text, Device: f.Device, At: f.At, Clash: f.Clash}
}

// Watch tells where the log is, and gives a channel that is closed as soon as
// it is further. Whoever is slow to look gets one word for many changes.
func (h *Hub) Watch() (Position, <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.at, h.moved
}

// advance tells all who watch. Pushes that shared a transaction all come here;
// the first says it for the rest.
func (h *Hub) advance() error {
	h.mu.Lock()
	defer h.mu.Unlock()
	before := h.at.Seq
	err := h.store.View(func(tx *store.Tx) error {
		for more := true; more; {
			records, rest, err := tx.Since(h.at.Seq, MaxRecords, maxReplyBytes)
			if err != nil {
				return err
			}
			h.tail.add(records)
			h.at.Seq += uint64(len(records))
			more = rest
		}
		return nil
	})
	if h.at.Seq != before {
		h.news = nil
		close(h.moved)
		h.moved = make(chan struct{})
	}
	return err
}

// Healthy says whether the log can be read: nil, or what is wrong.
func (h *Hub) Healthy() error {
	err := h.store.View(func(tx *store.Tx) error {
		if tx.Epoch() != h.store.Epoch() {
			return errors.New("its epoch has changed")
		}
		return nil
	})
	if err != nil {
		return fmt.Errorf("the data file can't be read: %w", err)
	}
	return nil
}
