package store

import (
	"fmt"
	"slices"
	"time"
)

// maxTogether is how many writes share a transaction at most, which limits how
// long the first of them waits.
const maxTogether = 512

// A write is one caller's change. Its result is sent to done.
type write struct {
	fn   func(*Tx) error
	done chan error
}

// Update changes the store. Everything fn did is on disk when it returns nil,
// and nothing of it when it returns an error. The error wraps [ErrFull] when the
// disk is full, which may pass, [ErrReplaced] while the file's name leads to another file,
// and [ErrFailed] when nothing more can be written.
//
// Changes that arrive together go into one transaction, one after the other. fn
// may run more than once, because the transaction is started over when another
// change in it fails; fn must not depend on an earlier run.
func (s *Store) Update(fn func(*Tx) error) error {
	w := &write{fn: fn, done: make(chan error, 1)}
	select {
	case s.writes <- w:
		return <-w.done
	case <-s.closing:
		return ErrClosed
	}
}

// Follow calls fn with the records of each transaction from now on, in the order
// of the log, when they are on disk and before [Store.Update] returns. It returns
// the newest sequence number at this moment: fn gets every record after it.
//
// fn runs on the goroutine that writes. It must be quick, must not change the
// records and must not call Update or Follow.
func (s *Store) Follow(fn func([]Written)) (seq uint64, err error) {
	s.writing.Lock()
	defer s.writing.Unlock()
	err = s.View(func(tx *Tx) error { seq = tx.Seq(); return nil })
	if err == nil {
		s.followers = append(s.followers, fn)
	}
	return seq, err
}

// writer is the only goroutine that writes. While it waits for the disk, other
// writes queue at the channel; it then takes all of them at once. No write waits
// for others to join it, unlike in bolt.DB.Batch.
func (s *Store) writer() {
	defer close(s.closed)
	watch := s.watch
	if watch == nil {
		t := time.NewTicker(watchEvery)
		defer t.Stop()
		watch = t.C
	}
	for {
		select {
		case <-s.closing:
			return
		case <-watch:
			s.look()
		case first := <-s.writes:
			s.together(s.queued([]*write{first}))
		}
	}
}

// queued returns batch with the writes that are waiting at this moment added.
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

// together writes a batch in one transaction. When the function of one write
// fails, that write gets its error and the others are tried again without it.
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

// try runs a batch in one transaction. It returns the index of the write whose
// function failed, with its error. A negative index means that the result, an
// error or nil, is that of every write in the batch.
func (s *Store) try(batch []*write) (bad int, err error) {
	if s.failed != nil {
		return -1, s.failed
	}
	if err := s.look(); err != nil {
		return -1, err
	}
	btx, err := s.db.Begin(true)
	if err != nil {
		return -1, fmt.Errorf("%w: %v", ErrFailed, err)
	}
	tx := &Tx{store: s, tx: btx}
	for i, w := range batch {
		if err := s.note(guard(func() error { return w.fn(tx) })); err != nil {
			btx.Rollback()
			return i, err
		}
	}
	if !tx.dirty {
		btx.Rollback() // only repeats of what is on disk already
		return -1, nil
	}
	err = guard(btx.Commit)
	switch {
	case err == nil:
		s.tell(tx.written)
		return -1, nil
	case isFull(err):
		return -1, fmt.Errorf("%w: %v: free some space; no restart is needed", ErrFull, err)
	}
	// After a failed sync it is unknown what the disk holds of this transaction,
	// and the kernel may forget that the sync failed (Rebello and others, "Can
	// Applications Recover from fsync Failures?", USENIX ATC 2020). What was
	// acknowledged before is safe; a further write might not be.
	s.failed = fmt.Errorf("%w: %v: stop the server, check the disk, and start it again", ErrFailed, err)
	return -1, s.failed
}

// tell gives the records of a committed transaction to all followers.
func (s *Store) tell(written []Written) {
	if len(written) == 0 {
		return
	}
	for _, fn := range s.followers {
		fn(written)
	}
}
