package web_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/tls"
	"crypto/x509"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/lan"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
	"hobside/internal/web"
)

// A gated is a real server with both listeners. The network's is on a port of this
// machine, over real TLS.
type gated struct {
	*site
	gate  *web.Gate
	store *store.Store
	hub   *hub.Hub
	lan   string // "https://127.0.0.1:1234"
	now   func() time.Time
	tick  func(time.Duration)
	roots *x509.CertPool
	log   *bytes.Buffer
	quiet *sync.Mutex
}

type lockedWriter struct {
	mu *sync.Mutex
	b  *bytes.Buffer
}

func (w lockedWriter) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.b.Write(p)
}

func newGated(t testing.TB, change func(*web.Config)) *gated {
	t.Helper()
	g := &gated{store: storetest.New(t), log: &bytes.Buffer{}, quiet: &sync.Mutex{}, roots: x509.NewCertPool()}
	var mu sync.Mutex
	at := time.Now() // package tls reads the real clock
	g.now = func() time.Time { mu.Lock(); defer mu.Unlock(); return at }
	g.tick = func(d time.Duration) { mu.Lock(); defer mu.Unlock(); at = at.Add(d) }
	log := slog.New(slog.NewTextHandler(lockedWriter{g.quiet, g.log}, &slog.HandlerOptions{Level: slog.LevelDebug}))
	g.gate = web.NewGate(g.store, g.now, log)
	var err error
	g.hub, err = hub.New(g.store, g.now, log)
	require.NoError(t, err)
	a, err := lan.OpenAuthority(filepath.Join(t.TempDir(), "hobside.db"), func() []string { return []string{"127.0.0.1", "kitchen.local"} }, g.now)
	require.NoError(t, err)
	cert, err := x509.ParseCertificate(a.DER())
	require.NoError(t, err)
	g.roots.AddCert(cert)
	cfg := web.Config{Hub: g.hub, Static: app(), Log: log, Gate: g.gate, Authority: a.DER()}
	if change != nil {
		change(&cfg)
	}
	srv, err := web.New(cfg)
	require.NoError(t, err)
	require.NoError(t, srv.Listen("127.0.0.1:0"))
	require.NoError(t, srv.ListenLAN("127.0.0.1:0", a.Config(), func() []string { return []string{"127.0.0.1", "kitchen.local"} }))
	ctx, stop := context.WithCancel(context.Background())
	g.site = &site{t: t, srv: srv, hub: g.hub, url: strings.TrimSuffix(srv.URL(), "/"), stop: stop, done: make(chan error, 1)}
	ended := make(chan struct{})
	go func() { g.site.done <- srv.Serve(ctx); close(ended) }()
	t.Cleanup(func() { stop(); srv.Close(); <-ended })
	for _, a := range srv.Addresses() { // by its name, because Addresses leaves out this machine's
		_, port, _ := net.SplitHostPort(strings.TrimSuffix(strings.TrimPrefix(a, "https://"), "/"))
		g.lan = "https://127.0.0.1:" + port
	}
	require.NotEmpty(t, g.lan)
	return g
}

// A browser is a browser on the network.
type browser struct {
	g      *gated
	client *http.Client
	cookie string
}

func (g *gated) browser() *browser {
	return &browser{g: g, client: &http.Client{
		Transport:     &http.Transport{TLSClientConfig: &tls.Config{RootCAs: g.roots}, DisableCompression: true},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}}
}

func (b *browser) do(method, path, body string, headers ...string) *http.Response {
	b.g.t.Helper()
	req, err := http.NewRequest(method, b.g.lan+path, strings.NewReader(body))
	require.NoError(b.g.t, err)
	if body != "" {
		req.Header.Set("Content-Type", "application/json")
	}
	if b.cookie != "" {
		req.Header.Set("Cookie", "__Host-hobside="+b.cookie)
	}
	for _, h := range headers {
		name, value, _ := strings.Cut(h, ": ")
		if name == "Host" {
			req.Host = value
		} else {
			req.Header.Set(name, value)
		}
	}
	res, err := b.client.Do(req)
	require.NoError(b.g.t, err)
	b.g.t.Cleanup(func() { res.Body.Close() })
	return res
}

// pair returns a browser that is paired.
func (g *gated) pair(role string) *browser {
	g.t.Helper()
	c, err := g.gate.NewCode(role)
	require.NoError(g.t, err)
	b := g.browser()
	res := b.do("POST", "/api/pair", `{"code":"`+c.Code+`","name":"Nora's phone"}`)
	require.Equal(g.t, 200, res.StatusCode)
	require.Len(g.t, res.Cookies(), 1)
	b.cookie = res.Cookies()[0].Value
	return b
}

func TestUnpairedDeviceIsRefused(t *testing.T) {
	g := newGated(t, nil)
	for name, b := range map[string]*browser{"no cookie": g.browser(), "an invented cookie": {g, g.browser().client, strings.Repeat("A", 43)}, "a short cookie": {g, g.browser().client, "x"}} {
		for _, ask := range [][2]string{
			{"POST", "/api/sync"}, {"GET", "/api/sync"}, {"GET", "/api/stream"}, {"GET", "/api/me"}, {"DELETE", "/api/me"}, {"GET", "/api/devices"}, {"POST", "/api/devices"},
			{"DELETE", "/api/devices/00"}, {"POST", "/api/devices/00"}, {"GET", "/healthz"}, {"GET", "/api/"}, {"GET", "/none"}, {"GET", "/api/pair/x"}, {"POST", "/"}, {"GET", "/app/"},
		} {
			res := b.do(ask[0], ask[1], `{}`)
			assert.Equal(t, 401, res.StatusCode, "%s: %s %s", name, ask[0], ask[1])
			assert.NotContains(t, text(t, res), "boathouse")
		}
	}
	for _, path := range []string{"/", "/app/main.js", "/sw.js", "/authority.crt", "/app.css"} {
		assert.Equal(t, 200, g.browser().do("GET", path, "").StatusCode, path)
	}
	assert.Equal(t, 200, g.do("GET", "/healthz", "").StatusCode, "this machine needs no pairing")
}

func TestForwardedHeadersDoNotReplacePairing(t *testing.T) {
	g := newGated(t, nil) // its clients connect from 127.0.0.1
	for _, h := range []string{"X-Forwarded-For: 127.0.0.1", "Forwarded: for=127.0.0.1", "X-Real-IP: 127.0.0.1"} {
		assert.Equal(t, 401, g.browser().do("GET", "/api/me", "", h).StatusCode, h)
	}
}

func TestNetworkListenerRequiresTLSAndGate(t *testing.T) {
	g := newGated(t, nil)
	conn, err := net.Dial("tcp", strings.TrimPrefix(g.lan, "https://"))
	require.NoError(t, err)
	defer conn.Close()
	_, err = io.WriteString(conn, "GET / HTTP/1.1\r\nHost: kitchen.local\r\n\r\n")
	require.NoError(t, err)
	line, err := bufio.NewReader(conn).ReadString('\n')
	require.NoError(t, err)
	assert.Contains(t, line, "400", "a request without TLS is refused")
	for _, v := range []uint16{tls.VersionTLS10, tls.VersionTLS11} {
		_, err := tls.Dial("tcp", strings.TrimPrefix(g.lan, "https://"), &tls.Config{RootCAs: g.roots, MinVersion: tls.VersionTLS10, MaxVersion: v})
		assert.Error(t, err, "TLS %x", v)
	}
	_, err = tls.Dial("tcp", strings.TrimPrefix(g.lan, "https://"), &tls.Config{})
	assert.Error(t, err, "the authority must be trusted first")
	srv, err := web.New(web.Config{Static: app()})
	require.NoError(t, err)
	assert.Error(t, srv.ListenLAN("127.0.0.1:0", &tls.Config{Certificates: make([]tls.Certificate, 1)}, nil), "without a gate")
	srv, err = web.New(web.Config{Static: app(), Gate: g.gate})
	require.NoError(t, err)
	assert.Error(t, srv.ListenLAN("127.0.0.1:0", nil, nil), "without TLS")
	assert.Error(t, srv.ListenLAN("127.0.0.1:0", &tls.Config{}, nil), "without a certificate")
}

func TestCookieIsSecretAndSecure(t *testing.T) {
	g := newGated(t, nil)
	c, err := g.gate.NewCode("cook")
	require.NoError(t, err)
	b := g.browser()
	res := b.do("POST", "/api/pair", `{"code":"`+c.Code[:4]+" "+c.Code[4:]+`","name":"x"}`)
	require.Equal(t, 200, res.StatusCode)
	line := res.Header.Get("Set-Cookie")
	for _, word := range []string{"__Host-hobside=", "; Path=/;", "; Secure", "; HttpOnly", "; SameSite=Strict", "Max-Age=34560000"} {
		assert.Contains(t, line, word)
	}
	assert.NotContains(t, line, "Domain")
	b.cookie = res.Cookies()[0].Value
	assert.Len(t, b.cookie, 43, "256 random bits")
	assert.NotContains(t, text(t, res), b.cookie, "no script may see it")
	other := g.pair("cook")
	assert.NotEqual(t, b.cookie, other.cookie)
	file, err := os.ReadFile(g.store.Path())
	require.NoError(t, err)
	assert.NotContains(t, string(file), b.cookie, "only its hash is stored")
	assert.Equal(t, 401, b.do("GET", "/api/me", "", "Cookie: __Host-hobside="+b.cookie+"; __Host-hobside=planted").StatusCode, "of two cookies with one name neither is accepted")
	assert.Equal(t, 200, b.do("GET", "/api/me", "").StatusCode)
	assert.Equal(t, "max-age=31536000", b.do("GET", "/api/me", "").Header.Get("Strict-Transport-Security"))
}

// After five tries even the right code is refused.
func TestCodeIsInvalidAfterFiveTries(t *testing.T) {
	g := newGated(t, nil)
	c, err := g.gate.NewCode("cook")
	require.NoError(t, err)
	for n := range 10_000 {
		guess := fmt.Sprintf("%08d", n)
		if guess == c.Code {
			continue
		}
		_, _, err := g.gate.Pair(guess, "x", "")
		require.Error(t, err)
	}
	res := g.browser().do("POST", "/api/pair", `{"code":"`+c.Code+`"}`)
	assert.Equal(t, 403, res.StatusCode)
	assert.Contains(t, text(t, res), "ask for a new one")
	all, err := g.gate.Devices()
	require.NoError(t, err)
	assert.Empty(t, all)
}

func TestWrongCodesAreCountedInTheLog(t *testing.T) {
	g := newGated(t, nil)
	lines := func() string { g.quiet.Lock(); defer g.quiet.Unlock(); return g.log.String() }
	for range 50 {
		_, _, err := g.gate.Pair("1234 5678", "a stranger", "")
		require.Error(t, err)
	}
	assert.Equal(t, 1, strings.Count(lines(), "pairing codes refused"))
	g.tick(2 * time.Minute)
	_, _, err := g.gate.Pair("1234 5678", "a stranger", "")
	require.Error(t, err)
	assert.Equal(t, 2, strings.Count(lines(), "pairing codes refused"))
	assert.Contains(t, lines(), "count=50")
}

func TestUsedReplacedOrExpiredCodeIsRefused(t *testing.T) {
	g := newGated(t, nil)
	refused := func(code, why string) {
		t.Helper()
		_, _, err := g.gate.Pair(code, "x", "")
		assert.Error(t, err, why)
	}
	c, err := g.gate.NewCode("helper")
	require.NoError(t, err)
	for range 4 {
		refused("00000000x", "wrong")
	}
	_, d, err := g.gate.Pair(c.Code, "  a\tphone\u202e \n", "")
	require.NoError(t, err, "the fifth try is still valid")
	assert.Equal(t, "a phone", d.Name)
	assert.Equal(t, "helper", d.Role)
	refused(c.Code, "used")
	old, err := g.gate.NewCode("helper")
	require.NoError(t, err)
	c, err = g.gate.NewCode("helper")
	require.NoError(t, err)
	if old.Code != c.Code {
		refused(old.Code, "another code was made since")
	}
	g.tick(10*time.Minute + time.Second)
	refused(c.Code, "over ten minutes old")
	for _, bad := range []string{"", "0", strings.Repeat("9", 5000), "é", "\x00"} {
		refused(bad, "not a code")
	}
	for _, role := range []string{"", "owner", "Cook"} {
		_, err = g.gate.NewCode(role)
		assert.Error(t, err, role)
	}
}

func TestRevokedDeviceIsRefusedAtOnce(t *testing.T) {
	g := newGated(t, nil)
	cook, lost := g.pair("cook"), g.pair("cook")
	res := lost.do("GET", "/api/stream", "")
	require.Equal(t, 200, res.StatusCode)
	var list struct{ Devices []store.Device }
	require.NoError(t, json.Unmarshal([]byte(text(t, cook.do("GET", "/api/devices", ""))), &list))
	require.Len(t, list.Devices, 2)
	var self struct{ ID string }
	require.NoError(t, json.Unmarshal([]byte(text(t, lost.do("GET", "/api/me", ""))), &self))
	assert.Equal(t, 200, cook.do("DELETE", "/api/devices/"+self.ID, "").StatusCode)
	_, err := io.Copy(io.Discard, res.Body) // its stream ends
	assert.NoError(t, err)
	assert.Equal(t, 401, lost.do("POST", "/api/sync", push("phone-a")).StatusCode)
	assert.Equal(t, 404, cook.do("DELETE", "/api/devices/"+self.ID, "").StatusCode)
	assert.Equal(t, 200, cook.do("DELETE", "/api/me", "").StatusCode, "it revokes itself")
	assert.Equal(t, 401, cook.do("GET", "/api/me", "").StatusCode)
}

// A lateBody is a request's body that calls during before its first byte.
type lateBody struct {
	*strings.Reader
	during func()
}

func (b *lateBody) Read(p []byte) (int, error) {
	if b.during != nil {
		b.during()
		b.during = nil
	}
	return b.Reader.Read(p)
}

// late syncs with a body that is sent when the server asks for it, after it let the
// request in. In between it calls during. It returns the reply's status and text.
func (b *browser) late(body string, during func()) (status int, reply string) {
	b.g.t.Helper()
	return b.lateTo("/api/sync", body, during)
}

// lateTo is late for any path.
func (b *browser) lateTo(path, body string, during func()) (status int, reply string) {
	b.g.t.Helper()
	req, err := http.NewRequest("POST", b.g.lan+path, &lateBody{strings.NewReader(body), during})
	require.NoError(b.g.t, err)
	req.ContentLength = int64(len(body))
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Cookie", "__Host-hobside="+b.cookie)
	req.Header.Set("Expect", "100-continue")
	b.client.Transport.(*http.Transport).ExpectContinueTimeout = time.Minute
	res, err := b.client.Do(req)
	require.NoError(b.g.t, err)
	return res.StatusCode, text(b.g.t, res)
}

// id returns the browser's id as the server names it.
func (b *browser) id() string {
	var self struct{ ID string }
	require.NoError(b.g.t, json.Unmarshal([]byte(text(b.g.t, b.do("GET", "/api/me", ""))), &self))
	return self.ID
}

func TestRevocationDuringRequestRefusesIt(t *testing.T) {
	g := newGated(t, nil)
	g.sync(push("phone-a", event(1)))
	for name, body := range map[string]string{"with an event": push("phone-b", event(2)), "reading only": push("phone-b")} {
		t.Run(name, func(t *testing.T) {
			lost := g.pair("cook")
			id := lost.id()
			status, reply := lost.late(body, func() { assert.NoError(t, g.gate.Revoke(id)) })
			assert.Equal(t, 401, status)
			assert.NotContains(t, reply, "boathouse", "nothing of the log")
		})
	}
	assert.Len(t, g.sync(push("phone-a")).Events, 1, "nothing was taken")
}

func TestNewRoleCountsForRequestInProgress(t *testing.T) {
	g := newGated(t, nil)
	phone := g.pair("cook")
	id := phone.id()
	covers := `{"id":"covers-0001","dinner":"boathouse","device":"phone-b","stamp":{"wall":1,"count":0},"kind":"covers","number":3}`
	status, body := phone.late(push("phone-b", covers), func() { assert.NoError(t, g.gate.SetRole(id, "helper")) })
	require.Equal(t, 200, status, body)
	var reply hub.Reply
	require.NoError(t, json.Unmarshal([]byte(body), &reply))
	assert.Empty(t, reply.Acked)
	require.Len(t, reply.Refused, 1)
	assert.Contains(t, reply.Refused[0].Why, "helper")
	assert.Equal(t, hub.Helper, reply.Role)
	assert.Empty(t, g.sync(push("phone-a")).Events)
}

func TestHelperCannotManageDevicesOrChangeDinner(t *testing.T) {
	g := newGated(t, nil)
	cook, helper := g.pair("cook"), g.pair("helper")
	var self struct{ ID string }
	require.NoError(t, json.Unmarshal([]byte(text(t, helper.do("GET", "/api/me", ""))), &self))
	for _, ask := range [][2]string{{"GET", "/api/devices"}, {"POST", "/api/devices"}, {"DELETE", "/api/devices/" + self.ID}, {"POST", "/api/devices/" + self.ID}} {
		body := ""
		if ask[0] == "POST" {
			body = `{"role":"cook"}`
		}
		assert.Equal(t, 403, helper.do(ask[0], ask[1], body).StatusCode, ask)
	}
	var reply hub.Reply
	covers := `{"id":"covers-0001","dinner":"boathouse","device":"phone-a","stamp":{"wall":1,"count":0},"kind":"covers","number":3}`
	require.NoError(t, json.Unmarshal([]byte(text(t, helper.do("POST", "/api/sync", push("phone-a", event(1), covers)))), &reply))
	assert.Equal(t, []string{"event-000001"}, reply.Acked)
	require.Len(t, reply.Refused, 1)
	assert.Contains(t, reply.Refused[0].Why, "helper")
	assert.Equal(t, hub.Helper, reply.Role)
	assert.Equal(t, 200, cook.do("POST", "/api/devices/"+self.ID, `{"role":"cook"}`).StatusCode)
	require.NoError(t, json.Unmarshal([]byte(text(t, helper.do("POST", "/api/sync", push("phone-a", covers)))), &reply))
	assert.Equal(t, []string{"covers-0001"}, reply.Acked, "it is a cook's now")
	assert.Equal(t, 400, cook.do("POST", "/api/devices/"+self.ID, `{"role":"owner"}`).StatusCode)
}

func TestNetworkListenerChecksHostAndOrigin(t *testing.T) {
	g := newGated(t, nil)
	b := g.pair("cook")
	for host, want := range map[string]int{"kitchen.local": 200, "KITCHEN.local:8443": 200, "127.0.0.1:8443": 200, "evil.test": 421, "192.168.1.99": 421, "kitchen.local.evil.test": 421} {
		assert.Equal(t, want, b.do("GET", "/api/me", "", "Host: "+host).StatusCode, host)
	}
	for _, h := range []string{"Sec-Fetch-Site: cross-site", "Sec-Fetch-Site: same-site", "Origin: https://evil.test"} {
		assert.Equal(t, 403, b.do("POST", "/api/sync", push("phone-a"), h).StatusCode, h)
	}
	assert.Equal(t, 403, g.browser().do("POST", "/api/pair", `{"code":"1"}`, "Sec-Fetch-Site: cross-site").StatusCode)
	assert.Equal(t, 415, g.browser().do("POST", "/api/pair", `{"code":"1"}`, "Content-Type: text/plain").StatusCode)
	assert.Equal(t, 413, g.browser().do("POST", "/api/pair", `{"code":"`+strings.Repeat("1", 5000)+`"}`).StatusCode)
}

func TestPairingWithoutTLSIsRefused(t *testing.T) {
	g := newGated(t, nil)
	c, err := g.gate.NewCode("cook")
	require.NoError(t, err)
	res := g.do("POST", "/api/pair", `{"code":"`+c.Code+`"}`, "Content-Type: application/json")
	assert.Equal(t, 404, res.StatusCode)
	assert.Empty(t, res.Header.Get("Set-Cookie"))
	_, _, err = g.gate.Pair(c.Code, "x", "")
	assert.NoError(t, err, "it must not use up the code")
}

// No secret is in the log, at its lowest level.
func TestSecretsAreNotLogged(t *testing.T) {
	g := newGated(t, nil)
	c, err := g.gate.NewCode("cook")
	require.NoError(t, err)
	b := g.browser()
	b.do("POST", "/api/pair", `{"code":"99999999"}`)
	res := b.do("POST", "/api/pair?code="+c.Code, `{"code":"`+c.Code+`","name":"Nora"}`)
	require.Equal(t, 200, res.StatusCode)
	b.cookie = res.Cookies()[0].Value
	note := `{"id":"note-00001","dinner":"boathouse","device":"phone-a","stamp":{"wall":1,"count":0},"kind":"note","text":"allergic to nuts"}`
	b.do("POST", "/api/sync", push("phone-a", note, `{"id":"note-00002","text":"allergic to nuts"}`))
	b.do("GET", "/api/me?x="+b.cookie, "")
	g.stop()
	<-g.done
	g.quiet.Lock()
	defer g.quiet.Unlock()
	log := g.log.String()
	assert.Contains(t, log, "/api/pair")
	for what, secret := range map[string]string{"a code": c.Code, "a secret": b.cookie, "a note": "nuts", "a guess": "99999999"} {
		assert.NotContains(t, log, secret, what)
	}
}

func TestStreamsOfOneDeviceAreLimited(t *testing.T) {
	g := newGated(t, func(c *web.Config) { c.PerDevice = 2 })
	one, other := g.pair("cook"), g.pair("helper")
	for range 2 {
		assert.Equal(t, 200, one.do("GET", "/api/stream", "").StatusCode)
	}
	res := one.do("GET", "/api/stream", "")
	assert.Equal(t, 429, res.StatusCode)
	assert.Equal(t, "60", res.Header.Get("Retry-After"))
	assert.Equal(t, 200, other.do("GET", "/api/stream", "").StatusCode, "those of another device are counted apart")
}

// Connections with slow headers and without a handshake are closed, and other
// requests are served meanwhile.
func TestSlowConnectionsAreClosed(t *testing.T) {
	g := newGated(t, nil)
	head := dial(t, g.site, "GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: ")
	assert.Equal(t, 200, g.do("GET", "/", "").StatusCode)
	shake, err := net.Dial("tcp", strings.TrimPrefix(g.lan, "https://")) // sends nothing
	require.NoError(t, err)
	defer shake.Close()
	for name, c := range map[string]net.Conn{"head": head, "handshake": shake} {
		require.NoError(t, c.SetReadDeadline(time.Now().Add(15*time.Second)))
		_, err := io.Copy(io.Discard, c)
		assert.NoError(t, err, "%s: the server must close the connection before the test gives up", name)
	}
}

func TestConnectionsOfOneAddressAreLimited(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	limited := web.Limited(l, web.Limits{All: 3, Each: 2, Strangers: 3, Stay: time.Nanosecond})
	defer limited.Close()
	accepted := make(chan net.Conn, 10)
	go func() {
		for {
			c, err := limited.Accept()
			if err != nil {
				return
			}
			accepted <- c
		}
	}()
	dial := func(from string) net.Conn {
		d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}}
		c, err := d.Dial("tcp", l.Addr().String())
		require.NoError(t, err)
		t.Cleanup(func() { c.Close() })
		return c
	}
	first := dial("127.0.0.1")
	one := <-accepted
	second := dial("127.0.0.1")
	<-accepted
	dial("127.0.0.1")
	<-accepted
	_, err = first.Read(make([]byte, 1))
	assert.Error(t, err, "the third of one address takes the place of the first")
	one.Close() // must be counted once
	dial("127.0.0.2")
	<-accepted
	dial("127.0.0.3")
	(<-accepted).Close()
	_, err = second.Read(make([]byte, 1))
	assert.Error(t, err, "the fourth in all takes a place of the address that has most")
}

func TestAuthorityNeedsNoPairing(t *testing.T) {
	g := newGated(t, nil)
	res := g.browser().do("GET", "/authority.crt", "")
	assert.Equal(t, "application/x-x509-ca-cert", res.Header.Get("Content-Type"))
	cert, err := x509.ParseCertificate([]byte(text(t, res)))
	require.NoError(t, err)
	assert.True(t, cert.IsCA)
	assert.Empty(t, g.browser().do("GET", "/", "").Cookies(), "only pairing sets a cookie")
}

// FuzzPair sends bodies and cookies to the pairing. None may pair a device or cause
// an error of the server.
func FuzzPair(f *testing.F) {
	g := newGated(f, nil)
	f.Add([]byte(`{"code":"12345678","name":"x"}`), "a phone")
	f.Add([]byte(`{"code":12345678}`), "\u202ex")
	f.Add([]byte(`[`), "")
	client := g.browser().client
	f.Fuzz(func(t *testing.T, body []byte, cookie string) {
		req, err := http.NewRequest("POST", g.lan+"/api/pair", bytes.NewReader(body))
		require.NoError(t, err)
		req.Header.Set("Content-Type", "application/json")
		req.AddCookie(&http.Cookie{Name: "__Host-hobside", Value: cookie})
		res, err := client.Do(req)
		require.NoError(t, err)
		defer res.Body.Close()
		b, err := io.ReadAll(res.Body)
		require.NoError(t, err)
		if res.StatusCode < 400 || res.StatusCode >= 500 || !json.Valid(b) || len(res.Cookies()) > 0 {
			t.Fatalf("%d %s", res.StatusCode, b)
		}
	})
}
