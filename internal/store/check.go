package store

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"hobside/internal/dinner"
)

// Check reads the whole file and says everything that is wrong with it: bbolt's
// own pages, every record against its checksum, and every index against the
// log. It returns nil when all is well, else an error that wraps [ErrDamaged].
// Writes wait meanwhile.
func (s *Store) Check(ctx context.Context) error {
	s.writing.Lock()
	defer s.writing.Unlock()
	// The pages come first: all that follows trusts them, and what goes wrong in
	// bbolt's check, which runs in a goroutine of its own, can't be caught.
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

// checker holds what the log says the indexes should.
type checker struct {
	ctx  context.Context
	last map[string]string // file name -> newest revision
	want map[string]uint64 // id -> sequence number
	errs []error
}

func (c *checker) wrong(format string, args ...any) {
	if len(c.errs) < 20 { // a file that is all wrong needs no list of it
		c.errs = append(c.errs, fmt.Errorf("%w: "+format, append([]any{ErrDamaged}, args...)...))
	}
}

func (c *checker) walk(tx *Tx) error {
	if err := c.texts(tx); err != nil {
		return err
	}
	if err := c.log(tx); err != nil {
		return err
	}
	c.heads(tx)
	if _, err := tx.Devices(); err != nil {
		c.errs = append(c.errs, err)
	}
	if err := c.ids(tx); err != nil {
		return err
	}
	return errors.Join(c.errs...)
}

func (c *checker) texts(tx *Tx) error {
	return tx.tx.Bucket(bucketTexts).ForEach(func(k, v []byte) error {
		if dinner.Revision(string(v)) != string(k) {
			c.wrong("the text of revision %s is another", k)
		}
		return c.ctx.Err()
	})
}

func (c *checker) log(tx *Tx) error {
	var prev uint64
	var newest dinner.Stamp
	err := tx.tx.Bucket(bucketLog).ForEach(func(k, v []byte) error {
		seq := unkey(k)
		if seq != prev+1 {
			c.wrong("record %d follows record %d", seq, prev)
		}
		prev = seq
		r, err := decode(seq, v)
		if err != nil {
			c.errs = append(c.errs, err)
			return c.ctx.Err()
		}
		if id := r.ID(); id != "" {
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
			if f.Base != "" && !tx.IsBase(f.Name, f.Base) {
				c.wrong("revision %s of %s is not known to be what %s was made from", f.Base, f.Name, f.Revision)
			}
			if at := unkey(tx.tx.Bucket(bucketRevisions).Get(revisionKey(f.Name, f.Revision))); at < seq {
				c.wrong("revision %s of %s is at %d, not known as such", f.Revision, f.Name, seq)
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
	if have, err := tx.Newest(); err != nil || have != newest {
		c.wrong("the newest stamp is %v and not %v", newest, have)
	}
	return nil
}

func (c *checker) heads(tx *Tx) {
	n := 0
	tx.tx.Bucket(bucketHeads).ForEach(func(k, v []byte) error {
		n++
		if c.last[string(k)] != string(v) {
			c.wrong("the newest revision of %q is %q and not %q", k, c.last[string(k)], v)
		}
		return nil
	})
	if n != len(c.last) {
		c.wrong("%d files have a newest revision, of %d", n, len(c.last))
	}
	tx.tx.Bucket(bucketRevisions).ForEach(func(k, v []byte) error {
		name, revision, _ := bytes.Cut(k, []byte{0})
		r, err := decode(unkey(v), tx.tx.Bucket(bucketLog).Get(key(unkey(v))))
		if err != nil || r.File == nil || r.File.Name != string(name) || r.File.Revision != string(revision) {
			c.wrong("record %d is not revision %s of %q", unkey(v), revision, name)
		}
		return nil
	})
}

// ids looks whether every record is found by its id. An id that no record has
// is an offer that brought nothing new, and points at the file's record.
func (c *checker) ids(tx *Tx) error {
	found := 0
	err := tx.tx.Bucket(bucketByID).ForEach(func(k, v []byte) error {
		seq := unkey(v)
		if want, ok := c.want[string(k)]; ok {
			found++
			if seq != want {
				c.wrong("%s is at %d and not at %d", k, want, seq)
			}
			return c.ctx.Err()
		}
		r, err := decode(seq, tx.tx.Bucket(bucketLog).Get(key(seq)))
		if err != nil || r.File == nil {
			c.wrong("%q is at no record", k)
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
