package store

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"strconv"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/dinner"
)

// format is the version of the layout of buckets and records. A release opens
// files of its own format, upgrades older ones and refuses newer ones.
const format = 4

// upgrades change a file from one format to the next; the first is from 1 to 2.
// Each runs in one transaction together with the change of the format number, so
// that a power cut leaves the file in one format or the other.
var upgrades = []func(*bolt.Tx) error{
	func(tx *bolt.Tx) error { // 1 -> 2: devices
		_, err := tx.CreateBucketIfNotExists(bucketDevices)
		return err
	},
	nameDinners, // 2 -> 3: the name of the field "dinner"
	sealAll,     // 3 -> 4: the chain, and a checksum for every entry of an index
}

// nameDinners renames the field of every event that names its dinner, from
// "sitting" to "dinner". A damaged record stays as it is: [Store.Check] reports it.
func nameDinners(tx *bolt.Tx) error {
	log := tx.Bucket(bucketLog)
	if log == nil {
		return fmt.Errorf("%w: its bucket %q is missing", ErrDamaged, bucketLog)
	}
	renamed := map[uint64][]byte{}
	err := log.ForEach(func(k, v []byte) error {
		body, ok := formerBody(v)
		if !ok {
			return nil
		}
		var r struct {
			Event json.RawMessage `json:"event"`
		}
		if json.Unmarshal(body, &r) != nil || r.Event == nil {
			return nil
		}
		ev, err := dinner.ReadEvent(r.Event)
		if err != nil {
			return fmt.Errorf("record %d: %w", unkey(k), err)
		}
		body, _, err = encode(Record{Event: &ev})
		renamed[unkey(k)] = append(binary.BigEndian.AppendUint32(nil, crc32.Checksum(body, castagnoli)), body...)
		return err
	})
	if err != nil {
		return err
	}
	for seq, v := range renamed {
		if err := log.Put(key(seq), v); err != nil {
			return fmt.Errorf("record %d: %w", seq, err)
		}
	}
	return nil
}

// formerBody returns the JSON of a record as formats 1 to 3 stored it: four bytes of
// CRC-32C over the JSON, then the JSON. ok is false when the checksum does not match.
func formerBody(b []byte) (body []byte, ok bool) {
	if len(b) < 4 || crc32.Checksum(b[4:], castagnoli) != binary.BigEndian.Uint32(b) {
		return nil, false
	}
	return b[4:], true
}

// upgrade changes a file to the format of this release. It fails with [ErrFormat],
// and changes nothing, when the format is newer or unknown. Nothing else may use
// the file before, except the check of its pages.
func (s *Store) upgrade() error {
	have, err := s.formatOf()
	if err != nil {
		return err
	}
	switch {
	case have > format:
		return fmt.Errorf("open %s: %w: its format is %d and this release reads up to %d: use the newer release; nothing was changed in it", s.path, ErrFormat, have, format)
	case have < 1:
		return fmt.Errorf("open %s: %w: its format is %d, which no release has written: nothing was changed in it", s.path, ErrFormat, have)
	}
	for ; have < format; have++ {
		err := guard(func() error {
			return s.db.Update(func(tx *bolt.Tx) error {
				return errors.Join(upgrades[have-1](tx), tx.Bucket(bucketMeta).Put(keyFormat, []byte(strconv.Itoa(have+1))))
			})
		})
		if err != nil {
			return fmt.Errorf("upgrade %s from format %d to %d: %w", s.path, have, have+1, err)
		}
	}
	return nil
}

// formatOf returns the format number that is in the file.
func (s *Store) formatOf() (have int, err error) {
	err = s.View(func(tx *Tx) error {
		meta := tx.tx.Bucket(bucketMeta)
		if meta == nil {
			return fmt.Errorf("%w: it is a bbolt file, but not one of Hobside", ErrDamaged)
		}
		have, err = strconv.Atoi(string(meta.Get(keyFormat)))
		if err != nil {
			return fmt.Errorf("%w: its format number is missing", ErrDamaged)
		}
		return nil
	})
	return have, err
}
