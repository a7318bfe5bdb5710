package store

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	bolt "go.etcd.io/bbolt"
)

// importer is the name under which imports signed files in format 3.
const importer = "import"

// An upgrade4 is one upgrade from format 3 to 4.
type upgrade4 struct {
	tx      *bolt.Tx
	imports map[string]string // file name -> newest revision that an import brought
	events  map[uint64]bool   // sequence numbers of events
	files   map[uint64]bool   // sequence numbers of files
}

// sealAll chains the records and seals the entries of all other buckets. A record or
// an entry that was damaged stays damaged.
func sealAll(tx *bolt.Tx) error {
	for _, name := range [][]byte{bucketLog, bucketMeta, bucketTexts, bucketByID, bucketHeads, bucketRevisions, bucketBases, bucketDevices} {
		if tx.Bucket(name) == nil {
			return fmt.Errorf("%w: its bucket %q is missing", ErrDamaged, name)
		}
	}
	for _, name := range [][]byte{bucketImports, bucketVolumes} {
		if _, err := tx.CreateBucketIfNotExists(name); err != nil {
			return err
		}
	}
	u := &upgrade4{tx: tx, imports: map[string]string{}, events: map[uint64]bool{}, files: map[uint64]bool{}}
	for _, step := range []func() error{u.chain, u.texts, u.ids, u.seals, u.noteImports} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// chain writes every record with its chain.
func (u *upgrade4) chain() error {
	log := u.tx.Bucket(bucketLog)
	log.FillPercent = 0.95
	var c Chain
	for seq := uint64(1); seq <= log.Sequence(); seq++ {
		v := bytes.Clone(log.Get(key(seq)))
		if v == nil {
			continue // it is missing, and stays so
		}
		body, whole := formerBody(v)
		if !whole {
			body = v[min(4, len(v)):]
		}
		c = c.next(body)
		next := withHead(seq, c, body)
		if whole {
			u.note(seq, body)
		} else {
			next[0] ^= 0xff // so that the new checksum does not match either
		}
		if err := log.Put(key(seq), next); err != nil {
			return fmt.Errorf("record %d: %w", seq, err)
		}
	}
	return nil
}

// note notes the kind of a record, and what an import brought.
func (u *upgrade4) note(seq uint64, body []byte) {
	if bytes.HasPrefix(body, []byte(`{"event":`)) {
		u.events[seq] = true
		return
	}
	u.files[seq] = true
	var r Record
	if json.Unmarshal(body, &r) == nil && r.File != nil && r.File.Device == importer {
		u.imports[r.File.Name] = r.File.Revision
	}
}

// texts puts before each text the byte that tells its form.
func (u *upgrade4) texts() error {
	b := u.tx.Bucket(bucketTexts)
	for _, k := range keysOf(b) {
		if err := b.Put(k, append([]byte{wholeText}, b.Get(k)...)); err != nil {
			return err
		}
	}
	return nil
}

// ids keeps the ids of events and files apart. Of a damaged record the kind is not
// known: its id stays taken in both.
func (u *upgrade4) ids() error {
	b := u.tx.Bucket(bucketByID)
	for _, k := range keysOf(b) {
		v := bytes.Clone(b.Get(k))
		if err := b.Delete(k); err != nil {
			return err
		}
		seq := unkey(v)
		for _, kind := range []string{eventID, offerID} {
			if u.events[seq] && kind != eventID || u.files[seq] && kind != offerID {
				continue
			}
			if err := b.Put(append([]byte(kind), k...), v); err != nil { // seals follows
				return err
			}
		}
	}
	return nil
}

// seals seals the entries of the indexes, the devices and the meta bucket.
func (u *upgrade4) seals() error {
	for _, name := range append([][]byte{bucketMeta}, sealedBuckets...) {
		b := u.tx.Bucket(name)
		for _, k := range keysOf(b) {
			if bytes.Equal(name, bucketMeta) && bytes.Equal(k, keyFormat) {
				continue
			}
			if err := b.Put(k, seal(name, k, bytes.Clone(b.Get(k)))); err != nil {
				return err
			}
		}
	}
	return nil
}

// noteImports fills the index of what imports brought.
func (u *upgrade4) noteImports() error {
	for name, revision := range u.imports {
		if err := (&Tx{tx: u.tx}).SetImported(name, revision); err != nil {
			return err
		}
	}
	return nil
}

// keysOf returns copies of all keys of a bucket, which may then be changed.
func keysOf(b *bolt.Bucket) [][]byte {
	var keys [][]byte
	b.ForEach(func(k, _ []byte) error {
		keys = append(keys, slices.Clone(k))
		return nil
	})
	return keys
}
