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

// DeviceBy returns the device that has a secret. It fails with [ErrNoDevice]
// when no device has it. The lookup is by the secret's hash, so the time it takes
// reveals nothing about other secrets.
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

// Devices returns all devices in the order in which they were paired.
func (tx *Tx) Devices() ([]Device, error) {
	out := []Device{}
	err := tx.eachDevice(func(_ []byte, d Device) error {
		out = append(out, d)
		return nil
	})
	slices.SortFunc(out, func(a, b Device) int {
		return cmp.Or(cmp.Compare(a.Paired, b.Paired), cmp.Compare(a.ID, b.ID))
	})
	return out, err
}

// eachDevice calls fn with every device and its key, in no useful order.
func (tx *Tx) eachDevice(fn func(key []byte, d Device) error) error {
	return tx.tx.Bucket(bucketDevices).ForEach(func(k, v []byte) error {
		d, err := readDevice(v)
		if err != nil {
			return err
		}
		return fn(k, d)
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
	tx.dirty = true
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
	return tx.tx.Bucket(bucketDevices).Delete(key)
}

// device returns a device and its key by its id.
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
