package control

import (
	"context"
	"crypto/rand"
	"encoding/base64"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// An Endpoint answers the command line while a server runs.
type Endpoint struct {
	http *http.Server
	note string // file name
	done chan struct{}
}

// Listen opens the control endpoint of a data file on a free loopback port and
// writes its note. It returns an error when the machine gives no port or the note
// can't be written.
func Listen(s *store.Store, h *hub.Hub, g *web.Gate) (*Endpoint, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("cannot listen for the command line: %w", err)
	}
	var secret [32]byte
	rand.Read(secret[:]) // never fails, says crypto/rand
	n := Note{Address: l.Addr().String(), Token: base64.RawURLEncoding.EncodeToString(secret[:])}
	e := &Endpoint{note: NoteFile(s.Path()), done: make(chan struct{})}
	if err := writeNote(e.note, n); err != nil {
		return nil, errors.Join(err, l.Close())
	}
	e.http = web.Control(s, h, g, n.Token)
	go func() {
		e.http.Serve(l) // returns when the endpoint is closed
		close(e.done)
	}()
	return e, nil
}

// Close removes the note and stops answering. A request under way, such as a
// backup to a slow disk, has three seconds to end.
func (e *Endpoint) Close() {
	os.Remove(e.note)
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	if e.http.Shutdown(ctx) != nil {
		e.http.Close()
	}
	<-e.done
}
