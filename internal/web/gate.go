package web

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"log/slog"
	"math/big"
	"slices"
	"strings"
	"sync"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
)

const (
	codeLife  = 10 * time.Minute
	codeTries = 5
	// codeDigits is short enough to type from a screen across the room. Five tries
	// at one of a hundred million codes have a chance of one in twenty million.
	codeDigits  = 8
	secretBytes = 32
	seenEvery   = time.Hour // how exactly a device's latest request is stored
	maxDevices  = 500
	maxNameLen  = 60 // characters
)

// Reasons for which a device is not paired. errCode does not tell which fault the
// code has, so that a person who guesses learns nothing.
var (
	errCode     = errors.New("that code is not valid: it may be mistyped, used, tried too often or over ten minutes old; ask for a new one")
	errTooMany  = fmt.Errorf("%d devices are paired already: revoke those that are not in use", maxDevices)
	errNotARole = errors.New("a device is a cook's or a helper's")
)

// Reasons for which a device may not pair, change or revoke others.
var (
	errRevoked = errors.New(notPaired)
	errHelper  = errors.New("this phone is a helper's: only a cook may pair and revoke devices")
)

// A Gate decides which devices may use the server from the network. It makes
// codes, each of which pairs one device, and gives a device that sends a code a
// secret of its own. It is safe for use by many goroutines.
type Gate struct {
	store *store.Store
	now   func() time.Time
	log   *slog.Logger

	mu      sync.Mutex
	code    *code // the only one that is valid; nil when none is
	streams deviceStreams
	wrong   hub.Tally // codes that were refused
}

// A code pairs one device, once.
type code struct {
	sum   [sha256.Size]byte // of its digits
	role  hub.Role
	until time.Time
	tries int    // so far
	by    string // id of the device that asked for it, "" on this machine
}

// A Code is a pairing code, to be typed on a new phone.
type Code struct {
	Code  string `json:"code"` // eight digits
	Role  string `json:"role"`
	Until int64  `json:"until"` // Unix milliseconds
}

// NewGate returns the gate of a data file. Log may be nil.
func NewGate(s *store.Store, now func() time.Time, log *slog.Logger) *Gate {
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	return &Gate{store: s, now: now, log: log}
}

// A lookup returns the device that makes a request as the store has it in tx. It fails
// with [store.ErrNoDevice] when the device was revoked meanwhile. A nil lookup is this
// machine, which may do everything.
type lookup = func(tx *store.Tx) (store.Device, error)

// manager returns the device that asks for a change of devices, the zero Device on this
// machine. A request's body may be on its way for long, so the right is looked up in
// the transaction that uses it. It fails with errRevoked or errHelper when the device may
// not.
func manager(tx *store.Tx, from lookup) (store.Device, error) {
	if from == nil {
		return store.Device{}, nil
	}
	d, err := from(tx)
	switch {
	case errors.Is(err, store.ErrNoDevice):
		return store.Device{}, errRevoked
	case err != nil:
		return store.Device{}, err
	case d.Role != string(hub.Cook):
		return store.Device{}, errHelper
	}
	return d, nil
}

// NewCode makes a code that pairs one device with a role, for this machine. The code
// before it is no longer valid: there is one at a time. It fails when there is no such
// role.
func (g *Gate) NewCode(role string) (Code, error) { return g.newCode(nil, role) }

// newCode is NewCode for the device that from finds.
func (g *Gate) newCode(from lookup, role string) (Code, error) {
	if !hub.IsRole(role) {
		return Code{}, fmt.Errorf("%w: %q is neither", errNotARole, clip(role))
	}
	n, err := rand.Int(rand.Reader, big.NewInt(100_000_000))
	if err != nil {
		return Code{}, err
	}
	digits := fmt.Sprintf("%0*d", codeDigits, n)
	g.mu.Lock() // a device that is revoked from here on loses the code again, see lost
	defer g.mu.Unlock()
	var by store.Device
	if err := g.store.View(func(tx *store.Tx) error {
		by, err = manager(tx, from)
		return err
	}); err != nil {
		return Code{}, err
	}
	until := g.now().Add(codeLife)
	g.code = &code{sum: sha256.Sum256([]byte(digits)), role: hub.Role(role), until: until, by: by.ID}
	return Code{Code: digits, Role: role, Until: until.UnixMilli()}, nil
}

// lost makes the code of a device invalid that may not pair others any more.
func (g *Gate) lost(id string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.code != nil && g.code.by == id {
		g.code = nil
	}
}

// Pair pairs a device that sends a code and returns its secret, of which only the
// hash is stored. Before is the secret that the browser had until now, "" when it had
// none: its device is removed. Pair fails when the code is not valid, when the device that
// asked for the code is no cook's any more, when too many devices are paired, or when
// the store fails.
func (g *Gate) Pair(digits, name, before string) (secret string, d store.Device, err error) {
	c, err := g.redeem(digits)
	if err != nil {
		return "", d, err
	}
	var b [secretBytes + 10]byte
	rand.Read(b[:]) // never returns an error, says package crypto/rand
	secret = base64.RawURLEncoding.EncodeToString(b[:secretBytes])
	now := g.now().UnixMilli()
	d = store.Device{ID: fmt.Sprintf("%x", b[secretBytes:]), Name: deviceName(name), Role: string(c.role), Paired: now, Seen: now}
	replaced := ""
	err = g.store.Update(func(tx *store.Tx) error {
		replaced, err = add(tx, d, secret, before, c.by)
		return err
	})
	if err != nil {
		return "", store.Device{}, err
	}
	g.streams.end(replaced)
	g.lost(replaced)
	g.log.Info("device paired", "device", d.ID, "role", d.Role)
	return secret, d, nil
}

// add adds a device in place of the one that had the secret before. It returns that
// one's id, "" when there was none. By is the device that asked for the code: it must
// still be a cook's.
func add(tx *store.Tx, d store.Device, secret, before, by string) (replaced string, err error) {
	all, err := tx.Devices()
	if err != nil {
		return "", err
	}
	if by != "" && !slices.ContainsFunc(all, func(d store.Device) bool { return d.ID == by && d.Role == string(hub.Cook) }) {
		return "", errCode
	}
	old, err := tx.DeviceBy(before)
	switch {
	case err == nil:
		replaced = old.ID
		if err := tx.RemoveDevice(old.ID); err != nil {
			return "", err
		}
	case !errors.Is(err, store.ErrNoDevice):
		return "", err
	case len(all) >= maxDevices:
		return "", errTooMany
	}
	return replaced, tx.AddDevice(d, secret)
}

// redeem uses up the code when the digits are right, else one of its tries. It
// returns the code.
func (g *Gate) redeem(digits string) (*code, error) {
	sum := sha256.Sum256([]byte(onlyDigits(digits)))
	g.mu.Lock()
	defer g.mu.Unlock()
	c := g.code
	if c == nil || g.now().After(c.until) || c.tries >= codeTries {
		g.wrong.Add(1, g.now(), g.log, "pairing codes refused")
		return nil, errCode
	}
	c.tries++
	if subtle.ConstantTimeCompare(sum[:], c.sum[:]) != 1 {
		g.wrong.Add(1, g.now(), g.log, "pairing codes refused", "tries", c.tries)
		return nil, errCode
	}
	g.code = nil
	return c, nil
}

// Who returns the device that has a secret. It fails with [store.ErrNoDevice] when
// none has, and when this release does not know its role: it may do nothing then.
func (g *Gate) Who(secret string) (d store.Device, err error) {
	if len(secret) != base64.RawURLEncoding.EncodedLen(secretBytes) {
		return d, store.ErrNoDevice
	}
	err = g.store.View(func(tx *store.Tx) error {
		d, err = tx.DeviceBy(secret)
		return err
	})
	if err == nil {
		err = hub.CheckRole(hub.Role(d.Role))
	}
	now := g.now().UnixMilli()
	if err == nil && now-d.Seen > seenEvery.Milliseconds() {
		// A full disk must not keep the device out: the time is not important enough.
		if err := g.store.Update(func(tx *store.Tx) error { return tx.ChangeDevice(d.ID, func(d *store.Device) { d.Seen = now }) }); err != nil {
			g.log.Warn("time of a device's latest request not stored", "device", d.ID, "error", err)
		}
	}
	return d, err
}

// Devices returns the paired devices, the newest last.
func (g *Gate) Devices() (all []store.Device, err error) {
	err = g.store.View(func(tx *store.Tx) error {
		all, err = tx.Devices()
		return err
	})
	return all, err
}

// Revoke revokes a device, for this machine: its secret is no longer valid, its streams
// end, and the code that it asked for pairs nobody. It fails with [store.ErrNoDevice]
// when there is no such device.
func (g *Gate) Revoke(id string) error { return g.revoke(nil, id) }

// revoke is Revoke for the device that from finds. Streams end before the change is on
// disk, so that none sends what was written together with it.
func (g *Gate) revoke(from lookup, id string) error {
	defer g.streams.bar(id)()
	if err := g.store.Update(func(tx *store.Tx) error {
		if _, err := manager(tx, from); err != nil {
			return err
		}
		if err := tx.RemoveDevice(id); err != nil {
			return err
		}
		g.streams.end(id) // where the disk fails after this, the phone opens another
		return nil
	}); err != nil {
		return err
	}
	g.lost(id)
	g.log.Info("device revoked", "device", id)
	return nil
}

// SetRole gives a device another role, for this machine. It fails when there is no such
// role or device.
func (g *Gate) SetRole(id, role string) error { return g.setRole(nil, id, role) }

// setRole is SetRole for the device that from finds.
func (g *Gate) setRole(from lookup, id, role string) error {
	if !hub.IsRole(role) {
		return fmt.Errorf("%w: %q is neither", errNotARole, clip(role))
	}
	if err := g.store.Update(func(tx *store.Tx) error {
		if _, err := manager(tx, from); err != nil {
			return err
		}
		return tx.ChangeDevice(id, func(d *store.Device) { d.Role = role })
	}); err != nil {
		return err
	}
	if role != string(hub.Cook) {
		g.lost(id)
	}
	g.log.Info("role changed", "device", id, "role", role)
	return nil
}

// onlyDigits returns the digits of a code, so that people may type "4821 0937".
func onlyDigits(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, clip(s))
}

// deviceName returns a name that fits in a list: one line, not too long and never
// empty.
func deviceName(s string) string {
	s = strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x2028 && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return ' ' // control characters, and those that change a line's direction
		}
		return r
	}, strings.ToValidUTF8(s, ""))), " ")
	if r := []rune(s); len(r) > maxNameLen {
		s = string(r[:maxNameLen])
	}
	if s == "" {
		return "a phone"
	}
	return s
}

// clip returns at most 80 bytes of what an unknown device sent.
func clip(s string) string {
	if len(s) > 80 {
		return strings.ToValidUTF8(s[:80], "")
	}
	return s
}
