package sim

import (
	"bytes"
	"context"
	"crypto/tls"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing/fstest"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// app is the smallest app that the server serves.
var app = fstest.MapFS{"index.html": {Data: []byte("<!doctype html><title>Hobside</title>")}}

// quiet is a log that nobody reads.
var quiet = slog.New(slog.DiscardHandler)

// A server is the real server without its listeners.
type server struct {
	w    *world
	path string
	skew time.Duration // its clock is wrong by this
	size int           // the data file may have so many bytes; 0: any number

	store                   *store.Store
	local, network, control http.Handler

	roles   map[string]string // role of each paired device, by id
	ledger  []entry           // the log as an observer reads it after each request
	known   map[string]entry  // the ledger by id
	epoch   string            // the observer's cursor
	after   string
	chain   string
	acked   map[string]bool // ids of records that it acknowledged, in replies that arrived
	backup  string          // the newest backup, "" when there is none
	old     string          // a plain copy of the data file
	flipped bool            // a bit of the data file was changed
	rolled  bool            // an older data file came back: what no phone has may be lost
}

// An entry is a record of the log.
type entry struct {
	id, revision string // revision "" for an event
	name         string // of a file
	beside       bool   // the revision is not the newest
	event        dinner.Event
	json         string // of the event
}

// open starts the server on its data file.
func (s *server) open() error {
	st, err := store.Open(s.path, store.Options{Timeout: 20 * time.Millisecond, MaxSize: s.size})
	if err != nil {
		return err
	}
	now := func() time.Time { return s.w.now.Add(s.skew) }
	h, err := hub.New(st, now, quiet)
	if err != nil {
		st.Close()
		return err
	}
	gate := web.NewGate(st, now, quiet)
	srv, err := web.New(web.Config{Hub: h, Static: app, Gate: gate, Log: quiet, Gap: time.Nanosecond})
	if err != nil {
		st.Close()
		return err
	}
	s.store, s.local = st, srv.Local()
	s.network = srv.Network(func() []string { return []string{"kitchen.local"} })
	s.control = web.Control(st, h, gate, "token").Handler
	return nil
}

// stop closes the data file as a server does that is stopped.
func (s *server) stop() {
	if s.store != nil {
		s.w.must(s.store.Close(), "close the data file")
		s.store = nil
	}
}

// start starts the server again. A data file with a changed bit may keep it from
// starting, which reports the damage: it is repaired then.
func (s *server) start() {
	err := s.open()
	if err != nil && s.flipped {
		s.w.note("the server does not start: %v", err)
		s.w.repair(s)
		return
	}
	s.w.must(err, "start the server again")
}

// restart stops the server and starts it again.
func (s *server) restart() {
	s.stop()
	s.start()
}

// A request is one request to a handler.
type request struct {
	method, path, cookie, body string
	during                     func() // called before the first byte of the body arrives
}

// lateBody calls during before its first byte.
type lateBody struct {
	io.Reader
	during func()
}

func (b *lateBody) Read(p []byte) (int, error) {
	if b.during != nil {
		b.during()
		b.during = nil
	}
	return b.Reader.Read(p)
}

// fromNetwork sends a request as a phone does.
func (s *server) fromNetwork(q request) *httptest.ResponseRecorder {
	return s.serve(s.network, "https://kitchen.local", q, func(r *http.Request) {
		r.TLS = &tls.ConnectionState{}
		if q.cookie != "" {
			r.Header.Set("Cookie", "__Host-hobside="+q.cookie)
		}
	})
}

// fromHere sends a request as a browser on the server's machine does.
func (s *server) fromHere(method, path, body string) *httptest.ResponseRecorder {
	return s.serve(s.local, "http://127.0.0.1", request{method: method, path: path, body: body}, nil)
}

// command sends a request as the command line does.
func (s *server) command(method, path, body string) *httptest.ResponseRecorder {
	return s.serve(s.control, "http://127.0.0.1", request{method: method, path: path, body: body}, func(r *http.Request) {
		r.Header.Set("Authorization", "Bearer token")
	})
}

func (s *server) serve(h http.Handler, host string, q request, change func(*http.Request)) *httptest.ResponseRecorder {
	r := httptest.NewRequest(q.method, host+q.path, &lateBody{strings.NewReader(q.body), q.during})
	r.ContentLength = int64(len(q.body))
	if q.body == "" {
		r.Body = http.NoBody
	}
	r.Header.Set("Content-Type", "application/json")
	if change != nil {
		change(r)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	s.w.plainWords(q, w)
	return w
}

// A streamed reply ends when the first message of the stream has come.
type streamed struct {
	httptest.ResponseRecorder
	end context.CancelFunc
}

func (w *streamed) Write(b []byte) (int, error) {
	if bytes.Contains(b, []byte("event: changed")) {
		defer w.end()
	}
	return w.ResponseRecorder.Write(b)
}

// message returns the first message of a stream that a phone opens at a cursor.
func (s *server) message(cookie, epoch, after, chain string) (status int, message []byte) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	r := httptest.NewRequestWithContext(ctx, "GET", fmt.Sprintf("https://kitchen.local/api/stream?epoch=%s&after=%s&chain=%s", epoch, after, chain), nil)
	r.TLS = &tls.ConnectionState{}
	r.Header.Set("Cookie", "__Host-hobside="+cookie)
	w := &streamed{ResponseRecorder: *httptest.NewRecorder(), end: cancel}
	s.network.ServeHTTP(w, r)
	_, data, _ := strings.Cut(w.Body.String(), "data: ")
	data, _, _ = strings.Cut(data, "\n")
	return w.Code, []byte(data)
}

// A reply is what the server answers to a sync.
type reply struct {
	Epoch   string          `json:"epoch"`
	Reset   bool            `json:"reset"`
	Next    string          `json:"next"`
	Chain   string          `json:"chain"`
	End     *hub.Position   `json:"end"`
	More    bool            `json:"more"`
	Now     int64           `json:"now"`
	Device  string          `json:"device"`
	Role    string          `json:"role"`
	Kinds   []dinner.Kind   `json:"kinds"`
	Acked   []string        `json:"acked"`
	Refused []hub.Refusal   `json:"refused"`
	Damaged json.RawMessage `json:"damaged"`
	Events  []dinner.Event  `json:"events"`
	Files   []file          `json:"files"`
}

// A file is a revision of a file.
type file struct {
	Name     string   `json:"name"`
	Revision string   `json:"revision"`
	Base     string   `json:"base"`
	Text     string   `json:"text"`
	At       int64    `json:"at"`
	Beside   string   `json:"beside"`
	Settles  []string `json:"settles"`
}

// observe reads what is new in the log as an observer on the server's machine, and
// returns it.
func (s *server) observe() (fresh []entry) {
	for {
		w := s.fromHere("POST", "/api/sync", fmt.Sprintf(`{"device":"observer","epoch":%q,"after":%q,"chain":%q}`, s.epoch, s.after, s.chain))
		if w.Code != 200 && s.flipped {
			return fresh // reported
		}
		s.w.equal(200, w.Code, "observe: %s", w.Body)
		var r reply
		s.w.must(json.Unmarshal(w.Body.Bytes(), &r), "read a reply")
		if r.Reset {
			s.ledger, s.known = nil, map[string]entry{}
		}
		for _, ev := range r.Events {
			b, err := json.Marshal(ev)
			s.w.must(err, "write an event")
			fresh = append(fresh, entry{id: ev.ID, event: ev, json: string(b)})
		}
		for _, f := range r.Files {
			fresh = append(fresh, entry{id: "file " + f.Name + " " + f.Revision, revision: f.Revision, name: f.Name, beside: f.Beside != "", json: f.Text})
		}
		s.epoch, s.after, s.chain = r.Epoch, r.Next, r.Chain
		if !r.More {
			break
		}
	}
	for _, e := range fresh {
		s.ledger = append(s.ledger, e)
		s.known[e.id] = e
	}
	return fresh
}

// forget makes the observer begin again, as after another data file came.
func (s *server) forget() {
	s.ledger, s.known, s.epoch, s.after, s.chain = nil, map[string]entry{}, "", "0", ""
}
