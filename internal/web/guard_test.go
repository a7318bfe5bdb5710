package web_test

import (
	"bufio"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryReplyHasSecurityHeaders(t *testing.T) {
	s := newSite(t, nil)
	for _, res := range []*http.Response{
		s.do("GET", "/", ""), s.do("GET", "/app/main.js", ""), s.do("GET", "/none", ""), s.do("POST", "/api/sync", "{"), s.do("GET", "/healthz", ""),
		s.do("DELETE", "/", ""), s.do("GET", "/", "", "Host: evil.test"), s.do("GET", "/api/stream", ""),
	} {
		h := res.Header
		assert.Equal(t, "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'", h.Get("Content-Security-Policy"))
		assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"))
		assert.Equal(t, "no-referrer", h.Get("Referrer-Policy"))
		assert.Equal(t, "same-origin", h.Get("Cross-Origin-Opener-Policy"))
		assert.Equal(t, "same-origin", h.Get("Cross-Origin-Resource-Policy"))
		assert.Empty(t, h.Get("Access-Control-Allow-Origin"))
	}
}

func TestOtherHostNamesAreRefused(t *testing.T) {
	s := newSite(t, nil)
	for host, want := range map[string]int{
		"localhost": 200, "localhost:8420": 200, "127.0.0.1": 200, "127.0.0.1:8420": 200, "[::1]": 200, "[::1]:8420": 200, "127.0.0.2": 200,
		"evil.test": 421, "evil.test:8420": 421, "localhost.evil.test": 421, "127.0.0.1.evil.test": 421, "192.168.1.7": 421, "0.0.0.0": 421, "[::]": 421, "LOCALHOST.": 421,
	} {
		assert.Equal(t, want, s.do("GET", "/", "", "Host: "+host).StatusCode, host)
	}
	// HTTP/1.0 allows a request without Host.
	line, err := bufio.NewReader(dial(t, s, "GET / HTTP/1.0\r\n\r\n")).ReadString('\n')
	require.NoError(t, err)
	assert.Contains(t, line, "421")
}

func TestPagesOfOtherSitesAreRefused(t *testing.T) {
	s := newSite(t, nil)
	const body = `{"device":"phone-a","after":"0"}`
	json := "Content-Type: application/json"
	for _, tt := range []struct {
		name    string
		headers []string
		want    int
	}{
		{"our own page", []string{"Sec-Fetch-Site: same-origin"}, 200},
		{"our own page in an older browser", []string{"Origin: " + s.url}, 200},
		{"a program that is not a browser", nil, 200},
		{"another site", []string{"Sec-Fetch-Site: cross-site"}, 403},
		{"another port of this machine", []string{"Sec-Fetch-Site: same-site"}, 403},
		{"another site in an older browser", []string{"Origin: http://evil.test"}, 403},
		{"a page without an origin", []string{"Origin: null"}, 403},
	} {
		res := s.do("POST", "/api/sync", body, append(tt.headers, json)...)
		assert.Equal(t, tt.want, res.StatusCode, tt.name)
	}
	assert.Equal(t, 403, s.do("GET", "/api/stream", "", "Sec-Fetch-Site: cross-site").StatusCode)
	assert.Equal(t, 200, s.do("GET", "/", "", "Sec-Fetch-Site: cross-site").StatusCode, "a link to the app is allowed")
}

func TestPathsOutsideTheAppAreNotFound(t *testing.T) {
	s := newSite(t, nil)
	for _, path := range []string{
		"/../go.mod", "/app/../../go.mod", "/app/%2e%2e/%2e%2e/go.mod", "/..%2fgo.mod", `/..\go.mod`, "//etc/passwd", "/app/", "/app", "/app//main.js", "/./app.css",
		"/index.html", "/static.go", "/tsconfig.json", "/vendor/README.md", "/app/engine.d.ts", "/engine.wasm.br", "/APP.CSS", "/app.css/", "/app.css%00.png", "/.git/config",
	} {
		res := s.do("GET", path, "")
		assert.Equal(t, 404, res.StatusCode, path)
		assert.Empty(t, res.Header.Get("Location"), path)
	}
}

func TestUnknownMethodsAndCallsAreRefused(t *testing.T) {
	s := newSite(t, nil)
	for _, tt := range []struct {
		method, path string
		want         int
	}{
		{"GET", "/api/sync", 405}, {"PUT", "/api/sync", 405}, {"OPTIONS", "/api/sync", 405}, {"POST", "/api/stream", 405}, {"POST", "/", 405}, {"TRACE", "/", 405},
		{"GET", "/api/", 404}, {"GET", "/api/devices", 404}, {"POST", "/api/sync/", 404}, {"HEAD", "/", 200}, {"HEAD", "/healthz", 200},
	} {
		res := s.do(tt.method, tt.path, "")
		assert.Equal(t, tt.want, res.StatusCode, "%s %s", tt.method, tt.path)
		if strings.HasPrefix(tt.path, "/api/") {
			assert.Contains(t, text(t, res), `{"error":"`)
		}
	}
}

func TestHugeHeadersAreRefused(t *testing.T) {
	s := newSite(t, nil)
	conn := dial(t, s, "GET / HTTP/1.1\r\nHost: localhost\r\nX-Long: "+strings.Repeat("x", 64<<10)+"\r\n\r\n")
	line, err := bufio.NewReader(conn).ReadString('\n')
	require.NoError(t, err)
	assert.Contains(t, line, "431")
}
