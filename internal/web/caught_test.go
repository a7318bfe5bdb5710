package web_test

import (
	"bytes"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
	"hobside/internal/web"
)

// broken returns the servers of all three listeners on a data file whose hub and gate
// read a clock that panics as Go itself does.
func broken(t testing.TB) (handlers map[string]http.Handler, log *bytes.Buffer, s *store.Store) {
	t.Helper()
	s, log = storetest.New(t), &bytes.Buffer{}
	l := slog.New(slog.NewTextHandler(log, nil))
	var none []time.Time
	clock := func() time.Time { return none[len(none)] }
	h, err := hub.New(s, clock, l)
	require.NoError(t, err)
	g := web.NewGate(s, clock, l)
	srv, err := web.New(web.Config{Hub: h, Static: app(), Gate: g, Log: l})
	require.NoError(t, err)
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		return tx.AddDevice(store.Device{ID: "00", Name: "x", Role: "cook"}, strings.Repeat("A", 43))
	}))
	return map[string]http.Handler{
		"loopback": web.Caught(l, srv.Local()),
		"network":  web.Caught(l, srv.Network(func() []string { return []string{"127.0.0.1"} })),
		"control":  web.Control(s, h, g, "right").Handler,
	}, log, s
}

// ask sends a request with every right that there is.
func ask(h http.Handler, method, path, body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, "http://127.0.0.1"+path, strings.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Cookie", "__Host-hobside="+strings.Repeat("A", 43))
	r.Header.Set("Authorization", "Bearer right")
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestPanicIsAPlainWordAndInTheLog(t *testing.T) {
	handlers, log, _ := broken(t)
	for name, path := range map[string]string{"loopback": "/api/sync", "network": "/api/sync", "control": "/api/devices/code/cook"} {
		log.Reset()
		w := ask(handlers[name], "POST", path, push("phone-a", event(1)))
		assert.Equal(t, 500, w.Code, name)
		assert.Contains(t, w.Body.String(), "a mistake of its own", name)
		assert.NotContains(t, w.Body.String(), "runtime error", name)
		assert.Contains(t, log.String(), "index out of range", name)
		assert.Contains(t, log.String(), "caught_test.go", "%s: the stack", name)
	}
}

// A panic inside a transaction becomes an error there, which is told without Go's words. It
// is no damage of the data file.
func TestPanicInATransactionIsAPlainWord(t *testing.T) {
	_, log, s := broken(t)
	l := slog.New(slog.NewTextHandler(log, nil))
	var none []int
	err := s.View(func(*store.Tx) error { none[len(none)]++; return nil })
	require.Error(t, err)
	assert.NotContains(t, web.Told(l, err), "runtime error")
	assert.Contains(t, log.String(), "index out of range")
	assert.Contains(t, log.String(), "caught_test.go", "the stack")
	h, err := hub.New(s, time.Now, l)
	require.NoError(t, err)
	srv, err := web.New(web.Config{Hub: h, Static: app(), Log: l})
	require.NoError(t, err)
	assert.Equal(t, 200, ask(srv.Local(), "GET", "/healthz", "").Code)
}

// A reply that has begun is broken off: its reader must not take it for whole.
func TestPanicAfterReplyHasBegunBreaksItOff(t *testing.T) {
	log := slog.New(slog.DiscardHandler)
	srv := httptest.NewServer(web.Caught(log, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		io.WriteString(w, "half")
		http.NewResponseController(w).Flush()
		panic("broken")
	})))
	defer srv.Close()
	res, err := http.Get(srv.URL)
	require.NoError(t, err)
	defer res.Body.Close()
	_, err = io.ReadAll(res.Body)
	assert.Error(t, err)
}

// FuzzRoutes sends anything to each listener, to a server that works and to one that
// panics wherever it needs the time. No reply has words of Go's own, and every reply
// has a status that the page knows.
func FuzzRoutes(f *testing.F) {
	handlers, _, _ := broken(f)
	s := storetest.New(f)
	log := slog.New(slog.DiscardHandler)
	h, err := hub.New(s, time.Now, log)
	require.NoError(f, err)
	g := web.NewGate(s, time.Now, log)
	srv, err := web.New(web.Config{Hub: h, Static: app(), Gate: g, Log: log, Limits: web.Limits{}})
	require.NoError(f, err)
	handlers["loopback, working"] = web.Caught(log, srv.Local())
	handlers["control, working"] = web.Control(s, h, g, "right").Handler
	for _, path := range []string{"/api/sync", "/api/pair", "/api/me", "/api/devices", "/api/devices/00", "/api/devices/00/cook", "/api/devices/code/cook", "/api/verify", "/healthz", "/", "/app/main.js", "/authority.crt", "/%ff", "/\x00"} {
		for _, method := range []string{"GET", "POST", "DELETE"} {
			f.Add(method, path, `{"device":"phone-a","after":"0","role":"cook","code":"12345678","events":[{"id":"event-000001"}]}`)
		}
	}
	f.Fuzz(func(t *testing.T, method, path, body string) {
		if strings.Contains(path, "/api/stream") { // it ends only when its reader goes
			return
		}
		for name, h := range handlers {
			r := httptest.NewRequest("GET", "http://127.0.0.1/", strings.NewReader(body))
			r.Method, r.URL.Path, r.URL.RawPath = method, "/"+strings.TrimPrefix(path, "/"), ""
			r.Header.Set("Content-Type", "application/json")
			r.Header.Set("Cookie", "__Host-hobside="+strings.Repeat("A", 43))
			r.Header.Set("Authorization", "Bearer right")
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			if w.Code < 200 || w.Code > 503 {
				t.Fatalf("%s: status %d", name, w.Code)
			}
			for _, word := range []string{"runtime error", "goroutine ", "index out of range", "nil pointer"} {
				if strings.Contains(w.Body.String(), word) && !strings.Contains(path+body, word) {
					t.Fatalf("%s: %s %q: %s", name, method, path, w.Body)
				}
			}
		}
	})
}
