package main

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/site"
	"hobside/static"
)

// newLive returns a real server with dev in front of it, whose files on disk are
// those given.
func newLive(t *testing.T, disk fstest.MapFS) (*liveSite, string) {
	t.Helper()
	server, err := site.Open(site.Config{Listen: "127.0.0.1:0", Data: filepath.Join(t.TempDir(), "hobside.db"), Static: static.Files, Now: time.Now})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- server.Run(ctx) }()
	front := newLiveSite(disk)
	to, err := url.Parse(server.Web.URL())
	require.NoError(t, err)
	front.to.Store(to)
	listener := httptest.NewServer(front)
	t.Cleanup(func() {
		listener.CloseClientConnections()
		listener.Close()
		cancel()
		assert.NoError(t, <-done)
	})
	return front, listener.URL
}

func get(t *testing.T, address string) (*http.Response, string) {
	t.Helper()
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address, nil)
	require.NoError(t, err)
	req.Header.Set("Accept-Encoding", "br")
	res, err := http.DefaultClient.Do(req)
	require.NoError(t, err)
	defer res.Body.Close()
	body, err := io.ReadAll(res.Body)
	require.NoError(t, err)
	return res, string(body)
}

func TestFilesComeFromDiskUnderTheServersHeaders(t *testing.T) {
	disk := fstest.MapFS{
		"index.html":       {Data: []byte("<html><head></head></html>")},
		"style/layers.css": {Data: []byte("@layer base;\n")},
		"style/base.css":   {Data: []byte("body { color: red }")},
		"app/new.js":       {Data: []byte("export const news = 1;")},
		"static.go":        {Data: []byte("package static")},
	}
	_, address := newLive(t, disk)
	for _, tt := range []struct{ path, kind, body string }{
		{"/", "text/html; charset=utf-8", `<html><head><script type="module" src="/dev/reload.js"></script></head></html>`},
		{"/app.css", "text/css; charset=utf-8", "@layer base;\nbody { color: red }"},
		{"/app/new.js", "text/javascript; charset=utf-8", "export const news = 1;"},
		{"/dev/reload.js", "text/javascript; charset=utf-8", string(reloadScript)},
		{"/sw.js", "text/javascript; charset=utf-8", string(liveWorker)},
	} {
		res, body := get(t, address+tt.path)
		assert.Equal(t, 200, res.StatusCode, tt.path)
		assert.Equal(t, tt.body, body, tt.path)
		assert.Equal(t, tt.kind, res.Header.Get("Content-Type"), tt.path)
		assert.Equal(t, "no-store", res.Header.Get("Cache-Control"), tt.path)
		assert.Empty(t, res.Header.Get("Content-Encoding"), tt.path)
		assert.Contains(t, res.Header.Get("Content-Security-Policy"), "script-src 'self' 'wasm-unsafe-eval';", tt.path)
	}
	disk["style/base.css"] = &fstest.MapFile{Data: []byte("body { color: blue }")}
	_, body := get(t, address+"/app.css")
	assert.Equal(t, "@layer base;\nbody { color: blue }", body, "the next request has what was saved")
}

func TestOtherRequestsReachTheServer(t *testing.T) {
	_, address := newLive(t, fstest.MapFS{"static.go": {Data: []byte("package static")}})
	res, _ := get(t, address+"/healthz")
	assert.Equal(t, 200, res.StatusCode)
	res, body := get(t, address+"/app/alarm.js")
	assert.Equal(t, 200, res.StatusCode, "a file that is not on disk comes from the server")
	assert.NotEmpty(t, body)
	for _, path := range []string{"/static.go", "/nothing.js", "/api/nothing", "/../go.mod"} {
		res, _ := get(t, address+path)
		assert.Equal(t, 404, res.StatusCode, path)
	}
	req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, address+"/healthz", nil)
	require.NoError(t, err)
	req.Host = "somewhere.example"
	res, err = http.DefaultClient.Do(req)
	require.NoError(t, err)
	res.Body.Close()
	assert.Equal(t, http.StatusMisdirectedRequest, res.StatusCode, "the server still checks the host")
}

func TestNothingIsServedWhileTheServerIsDown(t *testing.T) {
	front, address := newLive(t, fstest.MapFS{})
	front.to.Store(nil)
	res, body := get(t, address+"/")
	assert.Equal(t, http.StatusServiceUnavailable, res.StatusCode)
	assert.Contains(t, body, "load this again")
}

func TestOpenPagesHearWhatWasSaved(t *testing.T) {
	front, address := newLive(t, fstest.MapFS{})
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, address+"/dev/saved", nil)
	require.NoError(t, err)
	res, err := http.DefaultClient.Do(req)
	require.NoError(t, err)
	defer res.Body.Close()
	lines := bufio.NewScanner(res.Body)
	require.True(t, lines.Scan())
	front.saved("style")
	front.saved("page")
	var heard []string
	for len(heard) < 2 && lines.Scan() {
		if lines.Text() != "" {
			heard = append(heard, lines.Text())
		}
	}
	assert.Equal(t, []string{"data: style", "data: page"}, heard)
}

func TestKindOfChange(t *testing.T) {
	for path, want := range map[string]change{
		"static/style/base.css":      {style: true},
		"static/app/stove.js":        {page: true},
		"static/index.html":          {page: true},
		"static/static.go":           {code: true},
		"static/engine.wasm":         {},
		"static/engine.wasm.br":      {},
		"static/wasm_exec.js":        {},
		"internal/card/card.go":      {code: true},
		"internal/card/card_test.go": {},
		"internal/larder/foods.txt":  {code: true},
		"content/cards/herb-oil.md":  {code: true},
		"cmd/engine/main.go":         {code: true},
		"go.mod":                     {code: true},
		"internal/card/.card.go.swp": {},
		"static/app/stove.js~":       {},
	} {
		assert.Equal(t, want, kindOf(path), path)
	}
}

func TestCompareFindsNewChangedAndRemovedFiles(t *testing.T) {
	now := time.Unix(1_790_000_000, 0)
	before := map[string]fileState{"static/style/base.css": {now, 10}, "static/app/stove.js": {now, 10}}
	for _, tt := range []struct {
		name string
		now  map[string]fileState
		want change
	}{
		{"the same", map[string]fileState{"static/style/base.css": {now, 10}, "static/app/stove.js": {now, 10}}, change{}},
		{"another time", map[string]fileState{"static/style/base.css": {now.Add(1), 10}, "static/app/stove.js": {now, 10}}, change{style: true}},
		{"another size", map[string]fileState{"static/style/base.css": {now, 11}, "static/app/stove.js": {now, 10}}, change{style: true}},
		{"removed", map[string]fileState{"static/style/base.css": {now, 10}}, change{page: true}},
		{"new", map[string]fileState{"static/style/base.css": {now, 10}, "static/app/stove.js": {now, 10}, "go.mod": {now, 1}}, change{code: true}},
	} {
		assert.Equal(t, tt.want, compare(before, tt.now), tt.name)
	}
}

func TestListenFlag(t *testing.T) {
	for _, tt := range []struct {
		flags   []string
		address string
		rest    []string
	}{
		{nil, "127.0.0.1:8420", nil},
		{[]string{"--listen", "127.0.0.1:9000", "--empty"}, "127.0.0.1:9000", []string{"--empty"}},
		{[]string{"--empty", "-listen=localhost:9000"}, "localhost:9000", []string{"--empty"}},
		{[]string{"--data", "listen"}, "127.0.0.1:8420", []string{"--data", "listen"}},
	} {
		address, rest := listenFlag(tt.flags)
		assert.Equal(t, tt.address, address, tt.flags)
		assert.Equal(t, tt.rest, rest, tt.flags)
	}
	assert.Error(t, serve(t.Context(), io.Discard, []string{"--listen", "0.0.0.0:9000"}), "the network would get in without a code")
}
