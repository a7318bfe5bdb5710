package store

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
)

// A Device is a phone that was let in. Its secret is nowhere here, only what
// SHA-256 makes of it: who reads the file can't pass for a phone. (A plain hash
// is enough for a secret of 256 bits by chance; it is words of people that need
// a slow one.)
type Device struct {
	ID     string `json:"id"`   // what a list and a revocation name it by
	Name   string `json:"name"` // as the one who let it in, or the phone, calls it
	Role   string `json:"role"` // what it may do; the words are hub's
	Paired int64  `json:"paired"`
	Seen   int64  `json:"seen"` // about when it last asked for something; Unix milliseconds both
}

// ErrNoDevice says that no device has that id, or that secret.
var ErrNoDevice = errors.New("there is no such device")

func secretKey(secret string) []byte {
	sum := sha256.Sum256([]byte(secret))
	return sum[:]
}

// AddDevice lets a device in by a secret.
func (tx *Tx) AddDevice(d Device, secret string) error {
	tx.dirty = true
	return tx.putDevice(secretKey(secret), d)
}

func (tx *Tx) putDevice(key []byte, d Device) error {
	val, err := json.Marshal(d)
	if err != nil {
		return err
	}
	return tx.tx.Bucket(bucketDevices).Put(key, val)
}

// DeviceBy is the device that has a secret. It is looked up by the secret's
// hash: how long that takes tells nothing of any other.
func (tx *Tx) DeviceBy(secret string) (Device, error) {
	return readDevice(tx.tx.Bucket(bucketDevices).Get(secretKey(secret)))
}

func readDevice(val []byte) (Device, error) {
	var d Device
	if val == nil {
		return d, ErrNoDevice
	}
	if err := json.Unmarshal(val, &d); err != nil {
		return d, fmt.Errorf("%w: a device: %v", ErrDamaged, err)
	}
	return d, nil
}

// Devices lists who is let in, the newest last.
func (tx *Tx) Devices() ([]Device, error) {
	out := []Device{}
	err := tx.eachDevice(func(_ []byte, d Device) error {
		out = append(out, d)
		return nil
	})
	slices.SortFunc(out, func(a, b Device) int {
		if a.Paired != b.Paired {
			return int(max(-1, min(1, a.Paired-b.Paired)))
		}
		return slices.Compare([]byte(a.ID), []byte(b.ID))
	})
	return out, err
}

func (tx *Tx) eachDevice(fn func(key []byte, d Device) error) error {
	return tx.tx.Bucket(bucketDevices).ForEach(func(k, v []byte) error {
		d, err := readDevice(v)
		if err != nil {
			return err
		}
		return fn(k, d)
	})
}

// ChangeDevice changes what is known of a device; fn must leave its ID alone.
func (tx *Tx) ChangeDevice(id string, fn func(*Device)) error {
	key, d, err := tx.device(id)
	if err != nil {
		return err
	}
	fn(&d)
	tx.dirty = true
	return tx.putDevice(key, d)
}

// RemoveDevice lets a device in no more.
func (tx *Tx) RemoveDevice(id string) error {
	key, _, err := tx.device(id)
	if err != nil {
		return err
	}
	tx.dirty = true
	return tx.tx.Bucket(bucketDevices).Delete(key)
}

func (tx *Tx) device(id string) (key []byte, found Device, err error) {
	err = tx.eachDevice(func(k []byte, d Device) error {
		if d.ID == id {
			key, found = slices.Clone(k), d
		}
		return nil
	})
	if err == nil && key == nil {
		err = ErrNoDevice
	}
	return key, found, err
}
