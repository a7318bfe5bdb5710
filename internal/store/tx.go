package store

import (
	"encoding/json"
	"errors"
	"fmt"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/dinner"
)

// A Tx sees the store at one moment and, in [Store.Update], changes it. It is
// good until the function it was given to returns.
type Tx struct {
	tx    *bolt.Tx
	dirty bool
}

// View runs fn on the store as it is at one moment.
func (s *Store) View(fn func(*Tx) error) error {
	return guard(func() error {
		tx, err := s.db.Begin(false)
		if err != nil {
			return fmt.Errorf("%w: %v", ErrClosed, err)
		}
		defer tx.Rollback()
		return fn(&Tx{tx: tx})
	})
}

// Seq is the newest record's number, 0 when there is none.
func (tx *Tx) Seq() uint64 { return tx.tx.Bucket(bucketLog).Sequence() }

// Epoch names the run of numbers.
func (tx *Tx) Epoch() string { return string(tx.tx.Bucket(bucketMeta).Get(keyEpoch)) }

// Newest is the latest stamp in the log.
func (tx *Tx) Newest() (dinner.Stamp, error) {
	var s dinner.Stamp
	b := tx.tx.Bucket(bucketMeta).Get(keyNewest)
	if b == nil {
		return s, nil
	}
	if err := json.Unmarshal(b, &s); err != nil {
		return s, fmt.Errorf("%w: the newest stamp: %v", ErrDamaged, err)
	}
	return s, nil
}

// Find returns the record that came by an id, or one with no number when none did.
func (tx *Tx) Find(id string) (Record, error) {
	seq := tx.tx.Bucket(bucketByID).Get([]byte(id))
	if seq == nil {
		return Record{}, nil
	}
	return tx.record(unkey(seq))
}

func (tx *Tx) record(seq uint64) (Record, error) {
	r, err := decode(seq, tx.tx.Bucket(bucketLog).Get(key(seq)))
	if err != nil || r.File == nil {
		return r, err
	}
	r.File.Text, err = tx.Text(r.File.Revision)
	return r, err
}

// Since returns the records after a number, oldest first: at most max of them,
// and no more once their texts pass so many bytes. More says that others follow.
func (tx *Tx) Since(after uint64, max, bytes int) (records []Record, more bool, err error) {
	c := tx.tx.Bucket(bucketLog).Cursor()
	for k, v := c.Seek(key(after + 1)); k != nil; k, v = c.Next() {
		if len(records) >= max || bytes <= 0 {
			return records, true, nil
		}
		r, err := decode(unkey(k), v)
		if err != nil {
			return nil, false, err
		}
		bytes -= len(v)
		if r.File != nil {
			if r.File.Text, err = tx.Text(r.File.Revision); err != nil {
				return nil, false, err
			}
			bytes -= len(r.File.Text)
		}
		records = append(records, r)
	}
	return records, false, nil
}

// Head is the newest revision of a file, "" when there is no such file.
func (tx *Tx) Head(name string) string { return string(tx.tx.Bucket(bucketHeads).Get([]byte(name))) }

// Has says whether a file has, or once had, a revision.
func (tx *Tx) Has(name, revision string) bool {
	return tx.tx.Bucket(bucketRevisions).Get(revisionKey(name, revision)) != nil
}

// IsBase says whether a revision of a file that is here was made from this one,
// which itself may not be here.
func (tx *Tx) IsBase(name, revision string) bool {
	return tx.tx.Bucket(bucketBases).Get(revisionKey(name, revision)) != nil
}

// File is the newest record of one revision of a file.
func (tx *Tx) File(name, revision string) (File, error) {
	seq := tx.tx.Bucket(bucketRevisions).Get(revisionKey(name, revision))
	if seq == nil {
		return File{}, fmt.Errorf("%s has no revision %s", name, revision)
	}
	r, err := tx.record(unkey(seq))
	if err != nil {
		return File{}, err
	}
	if r.File == nil {
		return File{}, fmt.Errorf("%w: record %d is not revision %s of %s", ErrDamaged, r.Seq, revision, name)
	}
	return *r.File, nil
}

// Knows says whether the text of a revision is here, whatever its file's name.
func (tx *Tx) Knows(revision string) bool {
	return revision != "" && tx.tx.Bucket(bucketTexts).Get([]byte(revision)) != nil
}

// Text is the text of a revision.
func (tx *Tx) Text(revision string) (string, error) {
	b := tx.tx.Bucket(bucketTexts).Get([]byte(revision))
	if b == nil {
		return "", fmt.Errorf("%w: the text of revision %s is missing", ErrDamaged, revision)
	}
	return string(b), nil
}

// AppendEvent writes an event with its final stamp.
func (tx *Tx) AppendEvent(ev dinner.Event) error {
	newest, err := tx.Newest()
	if err != nil {
		return err
	}
	if err := tx.append(Record{Event: &ev}); err != nil {
		return err
	}
	if ev.Stamp.Compare(newest) <= 0 {
		return nil
	}
	b, err := json.Marshal(ev.Stamp)
	if err != nil {
		return err
	}
	return tx.tx.Bucket(bucketMeta).Put(keyNewest, b)
}

// AppendFile writes a revision of a file and makes it the newest. Its Revision
// is worked out from its Text.
func (tx *Tx) AppendFile(f File) (File, error) {
	f.Revision = dinner.Revision(f.Text)
	if err := tx.append(Record{File: &f}); err != nil {
		return f, err
	}
	var err error
	if f.Base != "" {
		err = tx.tx.Bucket(bucketBases).Put(revisionKey(f.Name, f.Base), []byte{})
	}
	return f, errors.Join(err,
		tx.tx.Bucket(bucketTexts).Put([]byte(f.Revision), []byte(f.Text)),
		tx.tx.Bucket(bucketHeads).Put([]byte(f.Name), []byte(f.Revision)),
		tx.tx.Bucket(bucketRevisions).Put(revisionKey(f.Name, f.Revision), key(tx.Seq())),
	)
}

// Alias notes that an offer by this id brought nothing new: the file has that
// revision already.
func (tx *Tx) Alias(id, name, revision string) error {
	seq := tx.tx.Bucket(bucketRevisions).Get(revisionKey(name, revision))
	if seq == nil {
		return fmt.Errorf("%s has no revision %s", name, revision)
	}
	tx.dirty = true
	return tx.tx.Bucket(bucketByID).Put([]byte(id), key(unkey(seq)))
}

func (tx *Tx) append(r Record) error {
	log, byID := tx.tx.Bucket(bucketLog), tx.tx.Bucket(bucketByID)
	id := []byte(r.ID())
	if len(id) > 0 && byID.Get(id) != nil {
		return fmt.Errorf("record %s is in the log already", id)
	}
	tx.dirty = true
	log.FillPercent = 0.95 // numbers only grow: leaves need no room in between
	seq, err := log.NextSequence()
	if err != nil {
		return err
	}
	val, err := encode(r)
	if err != nil {
		return err
	}
	if err := log.Put(key(seq), val); err != nil {
		return fmt.Errorf("record %s: %w", id, err)
	}
	if len(id) == 0 {
		return nil
	}
	return byID.Put(id, key(seq))
}

// revisionKey joins name and revision by a byte that no file name has.
func revisionKey(name, revision string) []byte { return []byte(name + "\x00" + revision) }
