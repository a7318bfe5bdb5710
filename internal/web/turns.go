package web

import (
	"context"
	"sync"
)

// maxWaiting is how many requests of one device may wait for their turn. The page sends
// one at a time; a second is one that the phone has given up, or another tab's.
const maxWaiting = 4

// turns lets each device have one sync worked on at a time, so that a device that asks
// with many connections takes no more of the server than one that asks with one.
type turns struct {
	mu sync.Mutex
	of map[string]*turn
}

// A turn is what one device is waiting for.
type turn struct {
	free chan struct{} // has one token while nothing is worked on
	in   int           // requests that work or wait
}

// take waits for the device's turn and returns what ends it; nil when too many requests
// of the device wait already or ctx is done first.
func (t *turns) take(ctx context.Context, device string) (end func()) {
	t.mu.Lock()
	if t.of == nil {
		t.of = map[string]*turn{}
	}
	mine := t.of[device]
	if mine == nil {
		mine = &turn{free: make(chan struct{}, 1)}
		mine.free <- struct{}{}
		t.of[device] = mine
	}
	if mine.in > maxWaiting {
		t.mu.Unlock()
		return nil
	}
	mine.in++
	t.mu.Unlock()
	select {
	case <-mine.free:
		return func() { mine.free <- struct{}{}; t.leave(device, mine) }
	case <-ctx.Done():
		t.leave(device, mine)
		return nil
	}
}

// leave forgets a device of which no request is left.
func (t *turns) leave(device string, of *turn) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if of.in--; of.in == 0 {
		delete(t.of, device)
	}
}
