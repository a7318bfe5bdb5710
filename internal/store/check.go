package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"hobside/internal/dinner"
)

// Check reads the whole file. It compares every record with its checksum, every
// text with its revision and every index with the log, and checks the pages,
// with bbolt's own check too. It returns nil when everything is right, else an
// error that wraps [ErrDamaged] and lists what is wrong. It stops with the
// context's error when ctx is done. Writes wait until it has finished.
func (s *Store) Check(ctx context.Context) error {
	s.writing.Lock()
	defer s.writing.Unlock()
	// The pages come first, because everything after trusts them: bbolt's check
	// runs on a goroutine of its own, where guard can't catch a fault.
	if err := s.pages(); err != nil {
		return err
	}
	c := checker{ctx: ctx, last: map[string]string{}, want: map[string]uint64{}}
	if err := s.View(c.walk); err != nil {
		return err
	}
	return s.View(func(tx *Tx) error {
		var all []error
		for err := range tx.tx.Check() {
			all = append(all, fmt.Errorf("%w: %v", ErrDamaged, err))
		}
		return errors.Join(all...)
	})
}

// A checker is one run of Check. Its maps hold what the indexes should, worked
// out from the log.
type checker struct {
	ctx  context.Context
	last map[string]string // file name -> newest revision
	want map[string]uint64 // id -> sequence number
	errs []error           // what is wrong so far
}

// wrong notes something that is wrong. It keeps the first 20: a file that is all
// wrong needs no longer list.
func (c *checker) wrong(format string, args ...any) {
	if len(c.errs) < 20 {
		c.errs = append(c.errs, fmt.Errorf("%w: "+format, append([]any{ErrDamaged}, args...)...))
	}
}

// walk checks texts, records, indexes and devices.
func (c *checker) walk(tx *Tx) error {
	if err := c.texts(tx); err != nil {
		return err
	}
	if err := c.log(tx); err != nil {
		return err
	}
	c.heads(tx)
	tx.sealed(func(err error) { c.errs = append(c.errs, err) })
	devices := 0
	tx.eachDevice(func([]byte, Device) { devices++ })
	if n := tx.tx.Bucket(bucketDevices).Stats().KeyN; n != devices {
		c.wrong("%d of %d devices can't be read", n-devices, n)
	}
	if err := c.ids(tx); err != nil {
		return err
	}
	return errors.Join(c.errs...)
}

// texts compares every text with its revision, which is its hash.
func (c *checker) texts(tx *Tx) error {
	return tx.tx.Bucket(bucketTexts).ForEach(func(k, v []byte) error {
		if _, ok := tx.readText(string(k), v); !ok {
			c.wrong("the text of revision %s has another revision", k)
		}
		return c.ctx.Err()
	})
}

// log reads every record, and checks that the numbers have no gaps and that each
// record of a file is in the indexes of texts, bases and revisions.
func (c *checker) log(tx *Tx) error {
	var prev uint64
	var chain Chain
	var newest dinner.Stamp
	err := tx.tx.Bucket(bucketLog).ForEach(func(k, v []byte) error {
		seq := unkey(k)
		if seq != prev+1 {
			c.wrong("record %d follows record %d", seq, prev)
		}
		prev = seq
		before := chain
		chain, _ = chainOf(v)
		r, err := decode(seq, v)
		if err != nil {
			c.errs = append(c.errs, err)
			return c.ctx.Err()
		}
		if want := before.next(v[recordHead:]); chain != want {
			c.wrong("the chain of record %d is %v and not %v", seq, chain, want)
		}
		if id := string(indexID(r)); id != "" {
			if c.want[id] != 0 {
				c.wrong("records %d and %d are both %s", c.want[id], seq, id)
			}
			c.want[id] = seq
		}
		if r.Event != nil && r.Event.Stamp.Compare(newest) > 0 {
			newest = r.Event.Stamp
		}
		if f := r.File; f != nil {
			c.last[f.Name] = f.Revision
			if !tx.Knows(f.Revision) {
				c.wrong("the text of %s, revision %s, is missing", f.Name, f.Revision)
			}
			for _, from := range append([]string{f.Base}, f.Settles...) {
				if from != "" && !tx.IsBase(f.Name, from) {
					c.wrong("revision %s of %s, from which %s was made, is not in the index of bases", from, f.Name, f.Revision)
				}
			}
			if at, err := tx.SeqOf(f.Name, f.Revision); err != nil || at < seq {
				c.wrong("revision %s of %s, record %d, is not in the index of revisions", f.Revision, f.Name, seq)
			}
		}
		return c.ctx.Err()
	})
	if err != nil {
		return err
	}
	if tx.Seq() != prev {
		c.wrong("the log ends at %d and not at %d", prev, tx.Seq())
	}
	if have, ok := tx.newest(); !ok || have != newest {
		c.wrong("the newest stamp is %v and not %v", newest, have)
	}
	return nil
}

// heads compares the indexes of newest revisions and of all revisions with the
// log.
func (c *checker) heads(tx *Tx) {
	n := 0
	tx.tx.Bucket(bucketHeads).ForEach(func(k, v []byte) error {
		n++
		if have, _ := unseal(bucketHeads, k, v); c.last[string(k)] != string(have) {
			c.wrong("the newest revision of %q is %q and not %q", k, c.last[string(k)], have)
		}
		return nil
	})
	if n != len(c.last) {
		c.wrong("%d files have a newest revision and %d are in the log", n, len(c.last))
	}
	tx.tx.Bucket(bucketRevisions).ForEach(func(k, v []byte) error {
		name, revision, _ := bytes.Cut(k, []byte{0})
		at, _ := unseal(bucketRevisions, k, v)
		r, err := decode(unkey(at), tx.tx.Bucket(bucketLog).Get(key(unkey(at))))
		if err != nil || r.File == nil || r.File.Name != string(name) || r.File.Revision != string(revision) {
			c.wrong("record %d is not revision %s of %q", unkey(at), revision, name)
		}
		return nil
	})
}

// ids checks that every record is found by its id. An id that no record has is
// an [Tx.Alias] and must lead to a record of a file.
func (c *checker) ids(tx *Tx) error {
	found := 0
	err := tx.tx.Bucket(bucketByID).ForEach(func(k, v []byte) error {
		at, _ := unseal(bucketByID, k, v)
		seq := unkey(at)
		if want, ok := c.want[string(k)]; ok {
			found++
			if seq != want {
				c.wrong("%s is at %d and not at %d", k, want, seq)
			}
			return c.ctx.Err()
		}
		r, err := decode(seq, tx.tx.Bucket(bucketLog).Get(key(seq)))
		if err != nil || r.File == nil {
			c.wrong("the id %q leads to no record", k)
		}
		return c.ctx.Err()
	})
	if err != nil {
		return err
	}
	if found != len(c.want) {
		c.wrong("%d of %d records can't be found by their ids", len(c.want)-found, len(c.want))
	}
	return nil
}
