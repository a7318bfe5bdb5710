package web_test

import (
	"context"
	"log/slog"
	"net/http"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store/storetest"
	"hobside/internal/web"
)

var start = time.Date(2027, 6, 12, 19, 30, 0, 0, time.UTC)

// app returns a small app with a file of each kind.
func app() fstest.MapFS {
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	return fstest.MapFS{
		"index.html":             file("<!doctype html><title>Hobside</title>"),
		"style/layers.css":       file(strings.Repeat("body { color: black }\n", 200)),
		"app/main.js":            file(strings.Repeat("export const salt = 12;\n", 200)),
		"sw.js":                  file("const { version } = self.BUILD;\n"),
		"manifest.webmanifest":   file("{}"),
		"icons/icon.svg":         file("<svg/>"),
		"fonts/a.woff2":          file(strings.Repeat("\x00\x01", 2000)),
		"engine.wasm":            file(strings.Repeat("\x00asm", 2000)),
		"engine.wasm.br":         file("brotli of the build"),
		"engine.wasm.gz":         file("gzip of the build"),
		"wasm_exec.js":           file("globalThis.Go = class {};"),
		"vendor/licences/a.txt":  file("may be used by all"),
		"vendor/README.md":       file("not sent"),
		"app/engine.d.ts":        file("not sent"),
		"tsconfig.json":          file("{}"),
		"static.go":              file("package static"),
		"vendor/htm.js":          file("export default 1;"),
		"app/with a space & .js": file("export {};"),
		"app/large.js":           file(strings.Repeat("export {}; // more than is kept in memory\n", 10_000)),
	}
}

// A site is a real server on a free port.
type site struct {
	t   testing.TB
	srv *web.Server
	hub *hub.Hub
	url string
	// stop ends Serve, and done has what it returned.
	stop context.CancelFunc
	done chan error
}

func newSite(t testing.TB, change func(*web.Config)) *site {
	t.Helper()
	s := storetest.New(t)
	h, err := hub.New(s, func() time.Time { return start }, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	cfg := web.Config{Hub: h, Static: app()}
	if change != nil {
		change(&cfg)
	}
	srv, err := web.New(cfg)
	require.NoError(t, err)
	require.NoError(t, srv.Listen("127.0.0.1:0"))
	ctx, stop := context.WithCancel(context.Background())
	site := &site{t: t, srv: srv, hub: h, url: strings.TrimSuffix(srv.URL(), "/"), stop: stop, done: make(chan error, 1)}
	ended := make(chan struct{})
	go func() {
		site.done <- srv.Serve(ctx)
		close(ended)
	}()
	t.Cleanup(func() {
		stop()
		srv.Close()
		<-ended
	})
	return site
}

// plain neither decodes nor follows redirects.
var plain = &http.Client{
	Transport:     &http.Transport{DisableCompression: true},
	CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
}

// do sends a request with headers of the form "Name: value".
func (s *site) do(method, path, body string, headers ...string) *http.Response {
	s.t.Helper()
	req, err := http.NewRequest(method, s.url+path, strings.NewReader(body))
	require.NoError(s.t, err)
	for _, h := range headers {
		name, value, _ := strings.Cut(h, ": ")
		if name == "Host" {
			req.Host = value
		} else {
			req.Header.Set(name, value)
		}
	}
	res, err := plain.Do(req)
	require.NoError(s.t, err)
	s.t.Cleanup(func() { res.Body.Close() })
	return res
}

func TestListenRefusesAddressesOfTheNetwork(t *testing.T) {
	srv, err := web.New(web.Config{Static: app()})
	require.NoError(t, err)
	for addr, says := range map[string]string{
		":8420":             "other machines can reach it",
		"0.0.0.0:8420":      "other machines can reach it",
		"[::]:8420":         "other machines can reach it",
		"192.168.1.7:8420":  "other machines can reach it",
		"kitchen.test:8420": "other machines can reach it",
		"8420":              "write it as 127.0.0.1:8420",
		"127.0.0.1":         "write it as 127.0.0.1:8420",
		"127.0.0.1:many":    "cannot listen",
		"127.0.0.1:99999":   "cannot listen",
	} {
		assert.ErrorContains(t, srv.Listen(addr), says, addr)
	}
	require.NoError(t, srv.Listen("127.0.0.1:0"))
	defer srv.Close()
	other, err := web.New(web.Config{Static: app()})
	require.NoError(t, err)
	taken := strings.TrimSuffix(strings.TrimPrefix(srv.URL(), "http://"), "/")
	err = other.Listen(taken)
	assert.ErrorContains(t, err, "another program has that port")
	assert.ErrorContains(t, err, "--listen")
}

func TestAppWithoutIndexIsRefused(t *testing.T) {
	_, err := web.New(web.Config{Static: fstest.MapFS{}})
	assert.ErrorContains(t, err, "index.html is missing")
}

func TestHealthzSaysOK(t *testing.T) {
	s := newSite(t, nil)
	res := s.do("GET", "/healthz", "")
	assert.Equal(t, 200, res.StatusCode)
	assert.Equal(t, "ok "+s.srv.Version()+"\n", text(t, res))
	assert.Equal(t, "no-store", res.Header.Get("Cache-Control"))
}

func TestHealthzOfClosedDataFileIs503(t *testing.T) {
	st := storetest.New(t)
	h, err := hub.New(st, time.Now, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	s := newSite(t, func(c *web.Config) { c.Hub = h })
	require.NoError(t, st.Close())
	res := s.do("GET", "/healthz", "")
	assert.Equal(t, 503, res.StatusCode)
	assert.Contains(t, text(t, res), "closed")
	res = s.do("POST", "/api/sync", `{"device":"a","after":"0"}`, "Content-Type: application/json")
	assert.Equal(t, 503, res.StatusCode)
	assert.JSONEq(t, `{"error":"the server is stopping; this phone keeps everything and tries again"}`, text(t, res))
}

func TestStopEndsStreams(t *testing.T) {
	s := newSite(t, nil)
	stream := s.do("GET", "/api/stream", "")
	s.stop()
	require.NoError(t, <-s.done)
	text(t, stream) // fails where the stream was broken off after a wait, not ended
	_, err := plain.Get(s.url + "/healthz")
	assert.Error(t, err, "the server must not listen any more")
}

// A request that is never completed does not delay the stop for ever.
func TestStopClosesIncompleteRequests(t *testing.T) {
	s := newSite(t, nil)
	conn := dial(t, s, "POST /api/sync HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{")
	require.Eventually(t, func() bool { return s.do("GET", "/healthz", "").StatusCode == 200 }, time.Minute, time.Millisecond)
	s.stop()
	require.NoError(t, <-s.done)
	_, err := conn.Read(make([]byte, 1))
	assert.Error(t, err, "its connection is closed")
}

func TestCloseEndsServe(t *testing.T) {
	s := newSite(t, nil)
	require.Equal(t, 200, s.do("GET", "/healthz", "").StatusCode)
	require.NoError(t, s.srv.Close())
	assert.NoError(t, <-s.done)
}
