package store

import (
	"encoding/json"
	"errors"
	"fmt"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/dinner"
)

// A Tx reads the store as it is at one moment and, in [Store.Update], changes
// it. It is valid until the function it was given to returns.
type Tx struct {
	store   *Store // nil while a new file is filled
	tx      *bolt.Tx
	dirty   bool      // there is something to commit
	written []Written // records appended so far
}

// View runs fn on the store as it is at one moment, and returns fn's error. It
// fails with [ErrClosed] after Close, and with [ErrDamaged] when a damaged page
// makes bbolt panic. An error that wraps ErrDamaged is kept for [Store.Damage].
func (s *Store) View(fn func(*Tx) error) error {
	return s.note(guard(func() error {
		tx, err := s.db.Begin(false)
		if err != nil {
			return fmt.Errorf("%w: %v", ErrClosed, err)
		}
		defer tx.Rollback()
		return fn(&Tx{store: s, tx: tx})
	}))
}

// Seq returns the newest record's sequence number, 0 when there is no record.
func (tx *Tx) Seq() uint64 { return tx.tx.Bucket(bucketLog).Sequence() }

// Epoch returns the epoch that is in the file; see [Store.Epoch].
func (tx *Tx) Epoch() string { return string(tx.tx.Bucket(bucketMeta).Get(keyEpoch)) }

// Newest returns the latest stamp of all events in the log.
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

// Find returns the record that was sent with an id. When there is none it
// returns a zero Record, whose sequence number is 0, and no error.
func (tx *Tx) Find(id string) (Record, error) {
	seq := tx.tx.Bucket(bucketByID).Get([]byte(id))
	if seq == nil {
		return Record{}, nil
	}
	return tx.record(unkey(seq))
}

// record returns a record with its text.
func (tx *Tx) record(seq uint64) (Record, error) {
	return tx.decoded(seq, tx.tx.Bucket(bucketLog).Get(key(seq)))
}

// decoded returns a stored record with its text. It tells the store of damage.
func (tx *Tx) decoded(seq uint64, value []byte) (Record, error) {
	r, err := decode(seq, value)
	if err == nil && r.File != nil {
		r.File.Text, err = tx.Text(r.File.Revision)
	}
	return r, tx.store.note(err)
}

// A Page is a part of the log.
type Page struct {
	Records []Record  // oldest first
	Damaged []Damaged // records of this part that can't be read
	Next    uint64    // sequence number of the last record of this part, readable or not
	More    bool      // other records follow
}

// A Damaged names a record that can't be read.
type Damaged struct {
	Seq uint64 `json:"seq,string"`
	Why string `json:"why"`
}

// Since returns the records that follow a sequence number: at most max records,
// and none after their size in JSON passes a number of bytes. It names damaged records and
// goes on after them.
func (tx *Tx) Since(after uint64, max, bytes int) Page {
	page := Page{Next: after}
	c := tx.tx.Bucket(bucketLog).Cursor()
	for k, v := c.Seek(key(after + 1)); k != nil; k, v = c.Next() {
		if len(page.Records)+len(page.Damaged) >= max || bytes <= 0 {
			page.More = true
			return page
		}
		page.Next = unkey(k)
		bytes -= len(v)
		r, err := tx.decoded(page.Next, v)
		if err != nil {
			page.Damaged = append(page.Damaged, Damaged{Seq: page.Next, Why: err.Error()})
			continue
		}
		if r.File != nil {
			bytes -= TextSize(r.File.Text)
		}
		page.Records = append(page.Records, r)
	}
	return page
}

// Each calls fn with every record, oldest first, with its text. It stops at the
// first error and returns it.
func (tx *Tx) Each(fn func(Record) error) error {
	return tx.tx.Bucket(bucketLog).ForEach(func(k, v []byte) error {
		r, err := tx.decoded(unkey(k), v)
		if err != nil {
			return err
		}
		return fn(r)
	})
}

// Head returns the newest revision of a file, "" when there is no such file.
func (tx *Tx) Head(name string) string { return string(tx.tx.Bucket(bucketHeads).Get([]byte(name))) }

// Has reports whether a file has a revision, as its newest or an earlier one.
func (tx *Tx) Has(name, revision string) bool {
	return tx.tx.Bucket(bucketRevisions).Get(revisionKey(name, revision)) != nil
}

// IsBase reports whether some revision of a file was made from this one. This
// one itself need not be in the store.
func (tx *Tx) IsBase(name, revision string) bool {
	return tx.tx.Bucket(bucketBases).Get(revisionKey(name, revision)) != nil
}

// File returns the newest record of one revision of a file. It fails when the
// file has no such revision.
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

// Knows reports whether the text of a revision is in the store, under any file
// name.
func (tx *Tx) Knows(revision string) bool {
	return revision != "" && tx.tx.Bucket(bucketTexts).Get([]byte(revision)) != nil
}

// Text returns the text of a revision. A revision is the hash of its text: Text
// fails with [ErrDamaged] when the text is missing or has changed on the disk.
func (tx *Tx) Text(revision string) (string, error) {
	b := tx.tx.Bucket(bucketTexts).Get([]byte(revision))
	if b == nil {
		return "", fmt.Errorf("%w: the text of revision %s is missing", ErrDamaged, revision)
	}
	text := string(b)
	if have := dinner.Revision(text); have != revision {
		return "", fmt.Errorf("%w: the text of revision %s has changed: its revision is %s", ErrDamaged, revision, have)
	}
	return text, nil
}

// AppendEvent adds an event to the log. Its stamp must be final. It fails when
// the log has a record with the event's id.
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

// AppendFile adds a revision of a file to the log and makes it the file's
// newest. It returns the file with its Revision, which it works out from the
// Text. It fails when the log has a record with the file's id.
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

// Alias notes that an offer with this id brought a revision that the file has
// already, so that Find returns the revision's record. It fails when the file
// has no such revision.
func (tx *Tx) Alias(id, name, revision string) error {
	seq := tx.tx.Bucket(bucketRevisions).Get(revisionKey(name, revision))
	if seq == nil {
		return fmt.Errorf("%s has no revision %s", name, revision)
	}
	tx.dirty = true
	return tx.tx.Bucket(bucketByID).Put([]byte(id), key(unkey(seq)))
}

// append gives a record the next sequence number and adds it to the log.
func (tx *Tx) append(r Record) error {
	log, byID := tx.tx.Bucket(bucketLog), tx.tx.Bucket(bucketByID)
	id := []byte(r.ID())
	if len(id) > 0 && byID.Get(id) != nil {
		return fmt.Errorf("record %s is in the log already", id)
	}
	tx.dirty = true
	log.FillPercent = 0.95 // keys only grow, so pages need no free space for later keys
	var err error
	if r.Seq, err = log.NextSequence(); err != nil {
		return err
	}
	val, event, err := encode(r)
	if err != nil {
		return err
	}
	if err := log.Put(key(r.Seq), val); err != nil {
		return fmt.Errorf("record %s: %w", id, err)
	}
	size := len(val)
	if r.File != nil {
		size += TextSize(r.File.Text)
	}
	tx.written = append(tx.written, Written{Record: r, EventJSON: event, Size: size})
	if len(id) == 0 {
		return nil
	}
	return byID.Put(id, key(r.Seq))
}

// revisionKey joins a file name and a revision with a byte that no name has.
func revisionKey(name, revision string) []byte { return []byte(name + "\x00" + revision) }
