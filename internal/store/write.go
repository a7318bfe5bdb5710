package store

import (
	"fmt"
	"slices"
)

// maxTogether bounds how many writes share a transaction, so that the first of
// them does not wait for ever longer.
const maxTogether = 512

// A write is one caller's change, waiting for its answer.
type write struct {
	fn   func(*Tx) error
	done chan error
}

// Update changes the store: all of what fn did is on disk when it returns nil,
// nothing of it when it returns an error. It wraps [ErrFull] when the disk is
// full, which may pass, and [ErrFailed] when nothing more can be written.
//
// Changes that come together go in one transaction, in turn. Fn may therefore be
// run again, when another's change had to be taken back: it must begin anew
// each time.
func (s *Store) Update(fn func(*Tx) error) error {
	w := &write{fn: fn, done: make(chan error, 1)}
	select {
	case s.writes <- w:
		return <-w.done
	case <-s.closing:
		return ErrClosed
	}
}

// writer is the one goroutine that writes. While it waits for the disk others
// queue at the channel; it then takes them all at once. Unlike bolt.DB.Batch
// nobody waits for company.
func (s *Store) writer() {
	defer close(s.closed)
	for {
		select {
		case <-s.closing:
			return
		case first := <-s.writes:
			s.together(s.queued([]*write{first}))
		}
	}
}

// queued adds the writes that are waiting right now.
func (s *Store) queued(batch []*write) []*write {
	for len(batch) < maxTogether {
		select {
		case w := <-s.writes:
			batch = append(batch, w)
		default:
			return batch
		}
	}
	return batch
}

// together writes a batch. One whose function fails is answered and left out,
// and the rest begin again without it.
func (s *Store) together(batch []*write) {
	s.writing.Lock()
	defer s.writing.Unlock()
	for len(batch) > 0 {
		bad, err := s.try(batch)
		if bad < 0 {
			for _, w := range batch {
				w.done <- err
			}
			return
		}
		batch[bad].done <- err
		batch = slices.Delete(batch, bad, bad+1)
	}
}

// try runs a batch in one transaction. Bad is the write whose function failed;
// below 0 the error, or its absence, is everybody's.
func (s *Store) try(batch []*write) (bad int, err error) {
	if s.failed != nil {
		return -1, s.failed
	}
	btx, err := s.db.Begin(true)
	if err != nil {
		return -1, fmt.Errorf("%w: %v", ErrFailed, err)
	}
	tx := &Tx{tx: btx}
	for i, w := range batch {
		if err := guard(func() error { return w.fn(tx) }); err != nil {
			btx.Rollback()
			return i, err
		}
	}
	if !tx.dirty {
		btx.Rollback() // repeats only: they are on disk since the first time
		return -1, nil
	}
	err = guard(btx.Commit)
	switch {
	case err == nil:
		return -1, nil
	case isFull(err):
		return -1, fmt.Errorf("%w: %v: free some room, then it goes on by itself", ErrFull, err)
	}
	// After a failed sync nobody knows what the disk holds of this transaction,
	// and the kernel may forget that it failed at all (Rebello and others, "Can
	// Applications Recover from fsync Failures?", USENIX ATC 2020). What was
	// acknowledged before is safe; a further write might not be.
	s.failed = fmt.Errorf("%w: %v: stop the server, check the disk, and start it again", ErrFailed, err)
	return -1, s.failed
}
