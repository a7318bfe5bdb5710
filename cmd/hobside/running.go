package main

import (
	"context"
	"crypto/rand"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// A server that runs holds its data file locked. So that `hobside backup` and
// the like work meanwhile, it listens at a second address of this machine and
// leaves that, with a token, in a file beside the data file that only its user
// can read. A command finds the file and asks the server; where there is none,
// or nobody answers, it opens the data file itself.

// runningFile is the file's name.
func runningFile(data string) string { return data + ".server" }

// note is what is in it.
type runningNote struct {
	Address string `json:"address"`
	Token   string `json:"token"`
}

// control is a running server's ear for the command line.
type control struct {
	http *http.Server
	file string
	done chan struct{}
}

// listenControl opens the ear of a site.
func listenControl(s *site, h *hub.Hub, g *web.Gate) (*control, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, fmt.Errorf("cannot listen for the command line: %w", err)
	}
	var b [32]byte
	rand.Read(b[:]) // never fails, says crypto/rand
	n := runningNote{Address: l.Addr().String(), Token: base64.RawURLEncoding.EncodeToString(b[:])}
	c := &control{file: runningFile(s.store.Path()), done: make(chan struct{})}
	if err := writeNote(c.file, n); err != nil {
		l.Close()
		return nil, err
	}
	c.http = &http.Server{Handler: web.Control(s.store, h, g, n.Token), ReadHeaderTimeout: 5 * time.Second, MaxHeaderBytes: 16 << 10}
	go func() {
		c.http.Serve(l) // until it is closed
		close(c.done)
	}()
	return c, nil
}

// writeNote replaces a note from before: who holds the data file's lock is the
// only server, so one that is there is of a server that was killed.
func writeNote(name string, n runningNote) error {
	b, err := json.Marshal(n)
	if err != nil {
		return err
	}
	os.Remove(name)
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("cannot leave word of the server for the command line: %w", err)
	}
	_, err = f.Write(b)
	return errors.Join(err, f.Close())
}

func (c *control) close() {
	os.Remove(c.file)
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	if c.http.Shutdown(ctx) != nil { // a backup to a slow disk may be under way
		c.http.Close()
	}
	<-c.done
}

// A house is what a command works on: a running server or the data file itself.
type house interface {
	Backup(io.Writer) error
	Verify(context.Context) (store.Counts, error)
	Sync(hub.Request) (hub.Reply, error)
	Devices() ([]store.Device, error)
	NewCode(role string) (web.Code, error)
	Revoke(id string) error
	SetRole(id, role string) error
	Close() error
}

// openHouse finds the running server of a data file, or opens it. With make it
// may be a new one.
func openHouse(data string, make bool) (house, error) {
	if _, err := os.Stat(data); err != nil && !make {
		return nil, fmt.Errorf("there is no data file %s: name another with --data", data)
	}
	if r, err := findRunning(data); err != nil || r != nil {
		return r, err
	}
	s, err := store.Open(data, store.Options{})
	if err != nil {
		return nil, err
	}
	h, err := hub.New(s, time.Now, quiet)
	if err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return &atRest{Store: s, Hub: h, Gate: web.NewGate(s, time.Now, nil)}, nil
}

// findRunning is the running server of a data file, nil when there is none.
func findRunning(data string) (house, error) {
	b, err := os.ReadFile(runningFile(data))
	if err != nil {
		return nil, nil // none, or another user's: opening the file will say that it is locked
	}
	var n runningNote
	if err := json.Unmarshal(b, &n); err != nil {
		return nil, fmt.Errorf("%s makes no sense: if no server runs, remove it", runningFile(data))
	}
	host, _, err := net.SplitHostPort(n.Address)
	if ip := net.ParseIP(host); err != nil || ip == nil || !ip.IsLoopback() {
		return nil, fmt.Errorf("%s does not name this machine: remove it", runningFile(data)) // the token goes nowhere else
	}
	conn, err := net.DialTimeout("tcp", n.Address, time.Second)
	if err != nil {
		return nil, nil // killed, and its note left behind
	}
	conn.Close()
	r := &remote{note: n}
	if _, err := r.Devices(); errors.Is(err, errStranger) {
		return nil, nil // another program has the port by now
	}
	return r, nil
}

// atRest is a data file that no server has.
type atRest struct {
	*store.Store
	*hub.Hub
	*web.Gate
}

func (a *atRest) Verify(ctx context.Context) (store.Counts, error) {
	if err := a.Check(ctx); err != nil {
		return store.Counts{}, err
	}
	return a.Counts()
}

func (a *atRest) NewCode(string) (web.Code, error) {
	return web.Code{}, errors.New("no server runs, so there is nothing to come in to: start it with `hobside serve --lan`")
}

// remote is a running server.
type remote struct{ note runningNote }

// errStranger is for an answer that is not our server's.
var errStranger = errors.New("what answers there is not the server")

func (r *remote) ask(ctx context.Context, method, path string, body io.Reader) (*http.Response, error) {
	req, err := http.NewRequestWithContext(ctx, method, "http://"+r.note.Address+path, body)
	if err != nil {
		return nil, err
	}
	req.Header.Set("Authorization", "Bearer "+r.note.Token)
	res, err := (&http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}).Do(req)
	if err != nil {
		return nil, fmt.Errorf("the running server does not answer: %w", err)
	}
	if res.StatusCode == http.StatusOK {
		return res, nil
	}
	defer res.Body.Close()
	var said struct{ Error string }
	err = json.NewDecoder(io.LimitReader(res.Body, 1<<20)).Decode(&said)
	if err != nil || said.Error == "" || res.StatusCode == http.StatusUnauthorized {
		return nil, errStranger
	}
	return nil, errors.New(said.Error)
}

func (r *remote) json(method, path string, body io.Reader, into any) error {
	res, err := r.ask(context.Background(), method, path, body)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	return json.NewDecoder(res.Body).Decode(into)
}

func (r *remote) Backup(w io.Writer) error {
	res, err := r.ask(context.Background(), http.MethodGet, "/api/backup", nil)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	if _, err := io.Copy(w, res.Body); err != nil {
		return fmt.Errorf("the backup broke off: %w", err)
	}
	if whole := res.Trailer.Get(web.BackupWhole); whole != "yes" {
		return fmt.Errorf("the backup broke off: %s", strings.TrimPrefix(whole, "no: "))
	}
	return nil
}

func (r *remote) Verify(ctx context.Context) (c store.Counts, err error) {
	res, err := r.ask(ctx, http.MethodGet, "/api/verify", nil)
	if err != nil {
		return c, err
	}
	defer res.Body.Close()
	return c, json.NewDecoder(res.Body).Decode(&c)
}

func (r *remote) Sync(req hub.Request) (reply hub.Reply, err error) {
	b, err := json.Marshal(req)
	if err != nil {
		return reply, err
	}
	return reply, r.json(http.MethodPost, "/api/sync", strings.NewReader(string(b)), &reply)
}

func (r *remote) Devices() (all []store.Device, err error) {
	return all, r.json(http.MethodGet, "/api/devices", nil, &all)
}

func (r *remote) NewCode(role string) (c web.Code, err error) {
	return c, r.json(http.MethodPost, "/api/devices/code/"+role, nil, &c)
}

func (r *remote) Revoke(id string) error {
	return r.json(http.MethodDelete, "/api/devices/"+id, nil, &struct{}{})
}

func (r *remote) SetRole(id, role string) error {
	return r.json(http.MethodPost, "/api/devices/"+id+"/"+role, nil, &struct{}{})
}

func (r *remote) Close() error { return nil }
