package control

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// A Service is what a command needs of the data: a running server or the data
// file itself.
type Service interface {
	Backup(io.Writer) error
	Verify(context.Context) (store.Counts, error)
	Sync(hub.Request) (hub.Reply, error)
	Devices() ([]store.Device, error)
	NewCode(role string) (web.Code, error)
	Revoke(id string) error
	SetRole(id, role string) error
	Close() error
}

// Open returns the running server of a data file, or opens the file itself. A
// file that is missing is made when create is true, else it is an error.
func Open(data string, create bool) (Service, error) {
	if _, err := os.Stat(data); err != nil && !create {
		return nil, fmt.Errorf("there is no data file %s: name another with --data", data)
	}
	if r, err := Find(data); err != nil || r != nil {
		return r, err
	}
	s, err := store.Open(data, store.Options{})
	if err != nil {
		return nil, err
	}
	h, err := hub.New(s, time.Now, slog.New(slog.DiscardHandler))
	if err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return &file{Store: s, Hub: h, Gate: web.NewGate(s, time.Now, nil)}, nil
}

// Find returns the running server of a data file, nil when there is none. It
// returns an error when the server's note is damaged.
func Find(data string) (Service, error) {
	n, ok, err := readNote(data)
	if err != nil || !ok {
		return nil, err
	}
	// On this machine a port with no program behind it refuses at once; only a busy
	// machine takes longer, and then there is a server.
	conn, err := net.DialTimeout("tcp", n.Address, 30*time.Second)
	if err != nil {
		return nil, nil // the server was killed and left its note
	}
	conn.Close()
	s := &server{note: n}
	if _, err := s.Devices(); errors.Is(err, errNotOurs) {
		return nil, nil // another program uses the port by now
	}
	return s, nil
}
