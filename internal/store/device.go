package store

import (
	"cmp"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
)

// A Device is a phone that was paired. Its secret is not stored, only the
// secret's SHA-256: a person who reads the file can't pass for the phone. A
// plain hash is enough for a random secret of 256 bits; only passwords that
// people choose need a slow one.
type Device struct {
	ID     string `json:"id"`   // used in lists and to revoke it
	Name   string `json:"name"` // for people to read
	Role   string `json:"role"` // what it may do; package hub defines the roles
	Paired int64  `json:"paired"`
	Seen   int64  `json:"seen"` // its latest request, within an hour; both in Unix milliseconds
}

// ErrNoDevice means that no device has the id or the secret.
var ErrNoDevice = errors.New("there is no such device")

// secretKey returns the key under which the device with a secret is stored.
func secretKey(secret string) []byte {
	sum := sha256.Sum256([]byte(secret))
	return sum[:]
}

// AddDevice stores a device that has a secret.
func (tx *Tx) AddDevice(d Device, secret string) error {
	return tx.putDevice(secretKey(secret), d)
}

func (tx *Tx) putDevice(key []byte, d Device) error {
	val, err := json.Marshal(d)
	if err != nil {
		return err
	}
	return tx.put(bucketDevices, key, val)
}

// DeviceBy returns the device that has a secret. It fails with [ErrNoDevice]
// when no device has it. The lookup is by the secret's hash, so the time it takes
// reveals nothing about other secrets.
func (tx *Tx) DeviceBy(secret string) (Device, error) {
	key := secretKey(secret)
	val, err := tx.get(bucketDevices, key)
	if err != nil {
		return Device{}, err
	}
	if val == nil {
		return Device{}, ErrNoDevice
	}
	return readDevice(val)
}

func readDevice(val []byte) (d Device, err error) {
	if err := json.Unmarshal(val, &d); err != nil {
		return d, fmt.Errorf("%w: a device: %v", ErrDamaged, err)
	}
	return d, nil
}

// Devices returns all devices in the order in which they were paired. A device that
// the disk has changed is not let in and not among them; [Store.Damage] tells.
func (tx *Tx) Devices() ([]Device, error) {
	out := []Device{}
	tx.eachDevice(func(_ []byte, d Device) { out = append(out, d) })
	slices.SortFunc(out, func(a, b Device) int {
		return cmp.Or(cmp.Compare(a.Paired, b.Paired), cmp.Compare(a.ID, b.ID))
	})
	return out, nil
}

// eachDevice calls fn with every device that can be read and its key, in no useful
// order.
func (tx *Tx) eachDevice(fn func(key []byte, d Device)) {
	tx.tx.Bucket(bucketDevices).ForEach(func(k, v []byte) error {
		val, ok := unseal(bucketDevices, k, v)
		if !ok {
			tx.store.note(entryError(bucketDevices, k))
			return nil
		}
		d, err := readDevice(val)
		if tx.store.note(err) == nil {
			fn(k, d)
		}
		return nil
	})
}

// ChangeDevice lets fn change what is stored of a device; fn must not change its
// ID. It fails with [ErrNoDevice] when there is no such device.
func (tx *Tx) ChangeDevice(id string, fn func(*Device)) error {
	key, d, err := tx.device(id)
	if err != nil {
		return err
	}
	fn(&d)
	return tx.putDevice(key, d)
}

// RemoveDevice deletes a device, whose secret is then no longer valid. It fails
// with [ErrNoDevice] when there is no such device.
func (tx *Tx) RemoveDevice(id string) error {
	key, _, err := tx.device(id)
	if err != nil {
		return err
	}
	tx.dirty = true
	return errors.Join(tx.tx.Bucket(bucketDevices).Delete(key), tx.tx.Bucket(bucketVolumes).Delete([]byte(id)))
}

// device returns a device and its key by its id.
func (tx *Tx) device(id string) (key []byte, found Device, err error) {
	tx.eachDevice(func(k []byte, d Device) {
		if d.ID == id {
			key, found = slices.Clone(k), d
		}
	})
	if key == nil {
		err = ErrNoDevice
	}
	return key, found, err
}

// Volume returns how many bytes of records a device has written since it was paired.
func (tx *Tx) Volume(id string) (uint64, error) {
	b, err := tx.get(bucketVolumes, []byte(id))
	return unkey(b), err
}

// AddVolume adds to the number of bytes that a device has written.
func (tx *Tx) AddVolume(id string, bytes uint64) error {
	was, err := tx.Volume(id)
	if err != nil && !errors.Is(err, ErrDamaged) { // a damaged count begins again
		return err
	}
	return tx.put(bucketVolumes, []byte(id), key(was+bytes))
}
