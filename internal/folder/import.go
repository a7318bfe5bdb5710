package folder

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// A Syncer takes what a phone would send: a hub, or a running server.
type Syncer interface {
	Sync(hub.Request) (hub.Reply, error)
}

// Taken is what an import brought.
type Taken struct {
	Files, Events int           // taken now, or there already
	Refused       []hub.Refusal // not taken, and why
	Clashed       []string      // names of files that were changed here and in the app: both versions are kept
}

// Import sends the folder dir to a server. It returns an error, with nothing
// changed, when the folder holds nothing or something in it can't be read. It
// follows no link and reads nothing but regular files, each of a bounded size.
// connect is called only after the whole folder was read.
func Import(ctx context.Context, dir string, connect func() (Syncer, error)) (Taken, error) {
	t, err := openTree(dir)
	if err != nil {
		return Taken{}, err
	}
	defer t.root.Close()
	names := map[string]string{}
	earlier, err := readRevisions(t, names)
	if err != nil {
		return Taken{}, err
	}
	files, err := readCards(t, names)
	if err != nil {
		return Taken{}, err
	}
	events, err := readDinners(t)
	if err != nil {
		return Taken{}, err
	}
	if len(files)+len(earlier)+len(events) == 0 {
		return Taken{}, fmt.Errorf("%s has no cards (.md) and no %s: nothing was changed", dir, dinnersDir)
	}
	to, err := connect()
	if err != nil {
		return Taken{}, err
	}
	s := &sender{to: to}
	if err := s.all(ctx, earlier, files, events); err != nil {
		return s.taken, fmt.Errorf("import broke off, and can be repeated: %w", err)
	}
	return s.taken, nil
}

// sender sends a folder in requests of a bounded size.
type sender struct {
	to      Syncer
	taken   Taken
	clashed []string // ids of offers
}

const (
	importDevice = "import"
	pageRecords  = 200     // events in one request
	pageBytes    = 2 << 20 // of one request, about
)

// all sends the newest texts first, each with the revision that the folder says it was
// made from, and then the earlier ones, which the server keeps without making them the
// newest.
func (s *sender) all(ctx context.Context, earlier, files []hub.Offer, events []dinner.Event) error {
	last := map[string]hub.Offer{}
	for _, o := range earlier {
		last[o.Name] = o
	}
	for _, o := range files {
		if was, ok := last[o.Name]; ok && was.Text == o.Text {
			o.Base = was.Base
		} else if ok { // edited since it was exported
			o.Base = dinner.Revision(was.Text)
		}
		clashed := len(s.clashed)
		if err := s.send(ctx, hub.Request{Import: true}, []hub.Offer{o}, nil); err != nil {
			return err
		}
		if len(s.clashed) > clashed {
			s.taken.Clashed = append(s.taken.Clashed, o.Name)
		}
	}
	for _, o := range earlier {
		if err := s.send(ctx, hub.Request{Keep: true}, []hub.Offer{o}, nil); err != nil {
			return err
		}
	}
	for len(events) > 0 {
		n, size := 0, 0
		for n < len(events) && n < pageRecords && size < pageBytes {
			size += 300 + len(events[n].Text) + 40*len(events[n].Plan)
			n++
		}
		if err := s.send(ctx, hub.Request{}, nil, events[:n]); err != nil {
			return err
		}
		events = events[n:]
	}
	return nil
}

// send makes one request and repeats it, with growing pauses, while the server
// does not answer.
func (s *sender) send(ctx context.Context, req hub.Request, files []hub.Offer, events []dinner.Event) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	req.Device = importDevice
	for _, f := range files {
		b, err := json.Marshal(f)
		if err != nil {
			return err
		}
		req.Files = append(req.Files, b)
	}
	for _, ev := range events {
		b, err := json.Marshal(ev)
		if err != nil {
			return err
		}
		req.Events = append(req.Events, b)
	}
	for wait := 50 * time.Millisecond; ; wait *= 2 {
		reply, err := s.to.Sync(req)
		if err == nil {
			s.taken.Refused = append(s.taken.Refused, reply.Refused...)
			s.clashed = append(s.clashed, reply.Clashed...)
			if len(files) > 0 {
				s.taken.Files += len(reply.Acked)
			} else {
				s.taken.Events += len(reply.Acked)
			}
			return nil
		}
		if wait > time.Second {
			return err
		}
		select { // the server may be busy; every request is safe to repeat
		case <-time.After(wait):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}
