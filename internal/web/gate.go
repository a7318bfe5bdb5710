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
	"strings"
	"sync"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
)

const (
	codeLife  = 10 * time.Minute
	codeTries = 5
	// codeDigits is short enough to be typed from a screen across the room. Five
	// tries at one of a hundred million are a chance of one in twenty million.
	codeDigits  = 8
	secretBytes = 32
	seenEvery   = time.Hour // how exactly it is kept when a device was last here
	maxDevices  = 500
	maxNameLen  = 60
)

// Why a phone is not let in. Which of a code's faults it has is nobody's
// business: whoever guesses learns nothing from the answer.
var (
	errCode    = errors.New("that code is not good: it may be mistyped, used, tried too often or over ten minutes old; ask for a new one")
	errCrowded = fmt.Errorf("%d devices are let in already: revoke those that are not in use", maxDevices)
)

// A Gate knows who may come in from the network. It makes codes, each good for
// one device, and gives the device that brings one a secret of its own.
type Gate struct {
	store *store.Store
	now   func() time.Time
	log   *slog.Logger

	mu      sync.Mutex
	code    *code
	streams map[string]map[*leave]bool // by device; open ones
}

// A code lets one device in, once.
type code struct {
	sum   [sha256.Size]byte
	role  hub.Role
	until time.Time
	tries int
}

// A leave ends a stream when its device is revoked or given another role.
type leave struct {
	once sync.Once
	gone chan struct{}
}

// A Code is what one tells the owner of a new phone.
type Code struct {
	Code  string `json:"code"` // eight digits
	Role  string `json:"role"`
	Until int64  `json:"until"` // Unix milliseconds
}

// NewGate makes the gate of a data file.
func NewGate(s *store.Store, now func() time.Time, log *slog.Logger) *Gate {
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	return &Gate{store: s, now: now, log: log, streams: map[string]map[*leave]bool{}}
}

// NewCode makes a code for one device of a role. A code from before is no longer
// good: there is one at a time.
func (g *Gate) NewCode(role string) (Code, error) {
	if !hub.IsRole(role) {
		return Code{}, fmt.Errorf("a device is a cook's or a helper's: %q is neither", clip(role))
	}
	n, err := rand.Int(rand.Reader, big.NewInt(100_000_000))
	if err != nil {
		return Code{}, err
	}
	word := fmt.Sprintf("%0*d", codeDigits, n)
	g.mu.Lock()
	defer g.mu.Unlock()
	until := g.now().Add(codeLife)
	g.code = &code{sum: sha256.Sum256([]byte(word)), role: hub.Role(role), until: until}
	return Code{Code: word, Role: role, Until: until.UnixMilli()}, nil
}

// Pair lets a device in by a code and returns its secret, which is not kept
// anywhere here.
func (g *Gate) Pair(word, name string) (secret string, d store.Device, err error) {
	role, err := g.take(word)
	if err != nil {
		return "", d, err
	}
	var b [secretBytes + 10]byte
	rand.Read(b[:]) // never fails, says crypto/rand
	secret = base64.RawURLEncoding.EncodeToString(b[:secretBytes])
	now := g.now().UnixMilli()
	d = store.Device{ID: fmt.Sprintf("%x", b[secretBytes:]), Name: deviceName(name), Role: string(role), Paired: now, Seen: now}
	err = g.store.Update(func(tx *store.Tx) error {
		all, err := tx.Devices()
		if err != nil {
			return err
		}
		if len(all) >= maxDevices {
			return errCrowded
		}
		return tx.AddDevice(d, secret)
	})
	if err != nil {
		return "", store.Device{}, err
	}
	g.log.Info("let in", "device", d.ID, "role", d.Role)
	return secret, d, nil
}

// take uses the code up, or one of its tries.
func (g *Gate) take(word string) (hub.Role, error) {
	sum := sha256.Sum256([]byte(onlyDigits(word)))
	g.mu.Lock()
	defer g.mu.Unlock()
	c := g.code
	if c == nil || g.now().After(c.until) || c.tries >= codeTries {
		g.log.Warn("a pairing code was refused")
		return "", errCode
	}
	c.tries++
	if subtle.ConstantTimeCompare(sum[:], c.sum[:]) != 1 {
		g.log.Warn("a pairing code was refused", "tries", c.tries)
		return "", errCode
	}
	g.code = nil
	return c.role, nil
}

// Who is the device that has a secret; [store.ErrNoDevice] when none has.
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
		// Nice to know and not worth a refusal: the disk may be full.
		if err := g.store.Update(func(tx *store.Tx) error { return tx.ChangeDevice(d.ID, func(d *store.Device) { d.Seen = now }) }); err != nil {
			g.log.Warn("when a device was last here is not kept", "device", d.ID, "error", err)
		}
	}
	return d, err
}

// Devices lists who is let in, the newest last.
func (g *Gate) Devices() (all []store.Device, err error) {
	err = g.store.View(func(tx *store.Tx) error {
		all, err = tx.Devices()
		return err
	})
	return all, err
}

// Revoke shows a device the door: its secret is good for nothing from now on and
// its streams end.
func (g *Gate) Revoke(id string) error {
	if err := g.store.Update(func(tx *store.Tx) error { return tx.RemoveDevice(id) }); err != nil {
		return err
	}
	g.log.Info("revoked", "device", id)
	g.end(id)
	return nil
}

// SetRole makes a cook of a helper or a helper of a cook.
func (g *Gate) SetRole(id, role string) error {
	if !hub.IsRole(role) {
		return fmt.Errorf("a device is a cook's or a helper's: %q is neither", clip(role))
	}
	if err := g.store.Update(func(tx *store.Tx) error {
		return tx.ChangeDevice(id, func(d *store.Device) { d.Role = role })
	}); err != nil {
		return err
	}
	g.log.Info("role", "device", id, "role", role)
	return nil
}

// enter counts a device's stream in; ok is false when it has too many. Gone is
// closed when the device is revoked.
func (g *Gate) enter(id string, most int) (l *leave, ok bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if len(g.streams[id]) >= most {
		return nil, false
	}
	if g.streams[id] == nil {
		g.streams[id] = map[*leave]bool{}
	}
	l = &leave{gone: make(chan struct{})}
	g.streams[id][l] = true
	return l, true
}

func (g *Gate) exit(id string, l *leave) {
	g.mu.Lock()
	defer g.mu.Unlock()
	delete(g.streams[id], l)
	if len(g.streams[id]) == 0 {
		delete(g.streams, id)
	}
}

func (g *Gate) end(id string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	for l := range g.streams[id] {
		l.once.Do(func() { close(l.gone) })
	}
}

// onlyDigits lets people write a code as they like: "4821 0937".
func onlyDigits(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, clip(s))
}

// deviceName makes a name fit for a list: one line, not too long, never empty.
func deviceName(s string) string {
	s = strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r >= 0x2028 && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return ' ' // control characters, and those that turn a line's direction
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

// clip shortens what a stranger sent before it goes anywhere.
func clip(s string) string {
	if len(s) > 80 {
		return strings.ToValidUTF8(s[:80], "")
	}
	return s
}
