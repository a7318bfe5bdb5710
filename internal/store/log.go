package store

import (
	"fmt"

	"hobside/internal/dinner"
)

// The index of ids keeps those of events and of offered files apart: a record can't
// take the id of one of the other kind.
const (
	eventID = "e/"
	offerID = "f/"
)

// indexID returns the key of a record in the index of ids, nil for a file that the
// server made itself.
func indexID(r Record) []byte {
	switch {
	case r.Event != nil:
		return []byte(eventID + r.Event.ID)
	case r.File.ID != "":
		return []byte(offerID + r.File.ID)
	}
	return nil
}

// FindEvent returns the record of the event with an id. When there is none it returns
// a zero Record, whose sequence number is 0, and no error.
func (tx *Tx) FindEvent(id string) (Record, error) {
	r, err := tx.find([]byte(eventID + id))
	if err == nil && r.Seq != 0 && (r.Event == nil || r.Event.ID != id) {
		return Record{}, tx.store.note(fmt.Errorf("%w: record %d is not event %s", ErrDamaged, r.Seq, id))
	}
	return r, err
}

// FindOffer returns the record of the file that was offered with an id, or that an
// offer with this id brought again. When there is none it returns a zero Record and no
// error.
func (tx *Tx) FindOffer(id string) (Record, error) {
	r, err := tx.find([]byte(offerID + id))
	if err == nil && r.Seq != 0 && r.File == nil {
		return Record{}, tx.store.note(fmt.Errorf("%w: record %d is not the file of offer %s", ErrDamaged, r.Seq, id))
	}
	return r, err
}

func (tx *Tx) find(id []byte) (Record, error) {
	seq, err := tx.get(bucketByID, id)
	if seq == nil {
		return Record{}, err
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
	tx.scan(after, func(seq uint64, size int, r Record, err error) bool {
		if len(page.Records)+len(page.Damaged) >= max || bytes <= 0 {
			page.More = true
			return false
		}
		page.Next = seq
		bytes -= size
		if err != nil {
			page.Damaged = append(page.Damaged, Damaged{Seq: seq, Why: err.Error()})
			return true
		}
		if r.File != nil {
			bytes -= TextSize(r.File.Text)
		}
		page.Records = append(page.Records, r)
		return true
	})
	return page
}

// Each calls fn with every record that can be read, oldest first, with its text. It
// stops at the first error of fn and returns it. It returns the others by name.
func (tx *Tx) Each(fn func(Record) error) (damaged []Damaged, err error) {
	tx.scan(0, func(seq uint64, _ int, r Record, bad error) bool {
		if bad != nil {
			damaged = append(damaged, Damaged{Seq: seq, Why: bad.Error()})
		} else {
			err = fn(r)
		}
		return err == nil
	})
	return damaged, err
}

// scan calls fn with every record that follows a sequence number, in order, and the
// size of its entry, until fn returns false. A record that can't be read comes with an
// error. Where the disk changed a key of the log, the order of the entries tells which
// record it is.
func (tx *Tx) scan(after uint64, fn func(seq uint64, size int, r Record, err error) bool) {
	end, want := tx.Seq(), after+1
	c := tx.tx.Bucket(bucketLog).Cursor()
	k, v := c.Seek(key(want))
	if want <= end && unkey(k) != want { // a key is damaged, and bbolt may have searched in vain
		want = 1
		k, v = c.First()
	}
	for want <= end {
		at, ok := end+1, k != nil
		if ok {
			at = tx.place(unkey(k), want, v)
		}
		if ok && at < want || ok && at > end {
			k, v = c.Next() // not an entry of this log
			continue
		}
		for ; want < at; want++ {
			if want > after {
				r, err := tx.decoded(want, nil)
				if !fn(want, 0, r, err) {
					return
				}
			}
		}
		if !ok {
			return
		}
		if want > after {
			r, err := tx.decoded(at, v)
			if !fn(at, len(v), r, err) {
				return
			}
		}
		want++
		k, v = c.Next()
	}
}

// place returns the sequence number of an entry of the log: its key, or the number
// that it has by its order where only that fits its checksum.
func (tx *Tx) place(own, want uint64, value []byte) uint64 {
	if _, ok := bodyOf(own, value); ok || own == want {
		return own
	}
	if _, ok := bodyOf(want, value); ok {
		tx.store.note(fmt.Errorf("%w: the key of record %d has changed", ErrDamaged, want))
	}
	return want
}

// AppendEvent adds an event to the log. Its stamp must be final. It fails when
// the log has an event with this id.
func (tx *Tx) AppendEvent(ev dinner.Event) error {
	newest, err := tx.Newest()
	if err != nil {
		return err
	}
	if err := tx.append(Record{Event: &ev}); err != nil {
		return err
	}
	if _, whole := tx.newest(); whole && ev.Stamp.Compare(newest) <= 0 {
		return nil
	}
	if ev.Stamp.Compare(newest) > 0 {
		newest = ev.Stamp
	}
	return tx.putNewest(newest)
}

// Added returns how many records this transaction has added, and their size in bytes.
// Others that share the transaction are among them.
func (tx *Tx) Added() (records, bytes int) { return len(tx.written), tx.size }

// append gives a record the next sequence number and adds it to the log.
func (tx *Tx) append(r Record) error {
	log, id := tx.tx.Bucket(bucketLog), indexID(r)
	if id != nil && tx.has(bucketByID, id) {
		return fmt.Errorf("record %s is in the log already", r.ID())
	}
	chain, ok := tx.Chain(log.Sequence())
	if !ok || log.Get(key(log.Sequence()+1)) != nil {
		return fmt.Errorf("%w: the log does not end with record %d: stop the server and put the newest backup in its place", ErrFailed, log.Sequence())
	}
	body, event, err := encode(r)
	if err != nil {
		return err
	}
	tx.dirty = true
	log.FillPercent = 0.95 // keys only grow, so pages need no free space for later keys
	if r.Seq, err = log.NextSequence(); err != nil {
		return err
	}
	chain = chain.next(body)
	val := withHead(r.Seq, chain, body)
	if err := log.Put(key(r.Seq), val); err != nil {
		return fmt.Errorf("record %s: %w", r.ID(), err)
	}
	size := len(val)
	if r.File != nil {
		size += TextSize(r.File.Text)
	}
	tx.size += size
	tx.written = append(tx.written, Written{Record: r, EventJSON: event, Size: size, Chain: chain})
	if id == nil {
		return nil
	}
	return tx.put(bucketByID, id, key(r.Seq))
}
