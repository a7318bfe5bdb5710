package web_test

import (
	"bufio"
	"crypto/tls"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store/storetest"
	"hobside/internal/web"
)

// promise is a request of a stranger that promises a body and never sends it.
const promise = "POST /api/pair HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{"

// stranger opens a connection to the network's listener from an address of this machine
// and writes to it. It returns an error when the connection was refused or closed.
func (g *gated) stranger(from, write string) (net.Conn, error) {
	d := tls.Dialer{NetDialer: &net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}}, Config: &tls.Config{InsecureSkipVerify: true}}
	c, err := d.Dial("tcp", strings.TrimPrefix(g.lan, "https://"))
	if err != nil {
		return nil, err
	}
	_, err = io.WriteString(c, write)
	return c, err
}

func TestKnownPhoneGetsInWhileStrangersHoldAllPlaces(t *testing.T) {
	g := newGated(t, func(c *web.Config) {
		c.BodyWait = time.Hour
		c.Limits = web.Limits{All: 12, Each: 4, Strangers: 12, Stay: time.Nanosecond}
	})
	phone := g.pair("cook")
	phone.client.CloseIdleConnections()
	for n := range 12 {
		c, err := g.stranger(fmt.Sprintf("127.0.0.%d", 2+n/4), promise)
		require.NoError(t, err)
		defer c.Close()
	}
	for range 3 {
		assert.Equal(t, 200, phone.do("GET", "/api/me", "").StatusCode)
		phone.client.CloseIdleConnections()
	}
	c, err := g.stranger("127.0.0.1", promise) // from the phone's own address, as behind one router
	require.NoError(t, err)
	defer c.Close()
	assert.Equal(t, 200, phone.do("GET", "/api/me", "").StatusCode)
}

// A stranger who is refused gets the answer and loses the place, although the body that
// was promised has not come and may come for an hour.
func TestRefusedRequestLosesItsPlaceAtOnce(t *testing.T) {
	g := newGated(t, func(c *web.Config) { c.BodyWait = time.Hour })
	head := func(method, path, more string) string {
		return method + " " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 100\r\n" + more + "\r\n"
	}
	for name, tt := range map[string]struct{ write, want string }{
		"no cookie":           {head("POST", "/api/sync", ""), " 401 "},
		"another host":        {strings.Replace(head("POST", "/api/pair", ""), "127.0.0.1", "evil.test", 1), " 421 "},
		"another site's page": {head("POST", "/api/pair", "Origin: https://evil.test\r\n"), " 403 "},
		"a file with a body":  {head("GET", "/", ""), " 400 "},
		"a wrong code": {"POST /api/pair HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 12\r\n\r\n" +
			`{"code":"1"}`, " 403 "},
	} {
		t.Run(name, func(t *testing.T) {
			c, err := g.stranger("127.0.0.2", tt.write)
			require.NoError(t, err)
			defer c.Close()
			require.NoError(t, c.SetReadDeadline(time.Now().Add(time.Minute)))
			b, err := io.ReadAll(c)
			require.NoError(t, err, "the server must close the connection before the test gives up")
			line, _, _ := strings.Cut(string(b), "\r\n")
			assert.Contains(t, line, tt.want)
		})
	}
}

// TestEveryBodyHasADeadline promises bodies to every listener, on paths that read them
// and on paths that do not.
func TestEveryBodyHasADeadline(t *testing.T) {
	wait := 200 * time.Millisecond
	g := newGated(t, func(c *web.Config) { c.BodyWait = wait })
	s := storetest.New(t)
	h, err := hub.New(s, time.Now, slog.New(slog.DiscardHandler))
	require.NoError(t, err)
	control := web.Control(s, h, web.NewGate(s, time.Now, nil), "right")
	assert.Equal(t, 20*time.Second, control.ReadTimeout)
	control.ReadTimeout = wait
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ended := make(chan error, 1)
	go func() { ended <- control.Serve(l) }()
	defer func() { control.Close(); <-ended }()
	phone := g.pair("cook")
	held := map[string]bool{}
	for _, path := range []string{"/api/sync", "/api/pair", "/api/devices", "/api/backup", "/none", "/"} {
		for name, open := range map[string]func(write string) (net.Conn, error){
			"loopback": func(write string) (net.Conn, error) { return dial(t, g.site, write), nil },
			"network":  func(write string) (net.Conn, error) { return g.stranger("127.0.0.2", write) },
			"control": func(write string) (net.Conn, error) {
				c, err := net.Dial("tcp", l.Addr().String())
				require.NoError(t, err)
				_, err = io.WriteString(c, write)
				return c, err
			},
		} {
			c, err := open("POST " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: __Host-hobside=" + phone.cookie +
				"\r\nAuthorization: Bearer right\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{")
			if err != nil {
				continue // on a busy machine a handshake takes longer than the deadline
			}
			held[name] = true
			defer c.Close()
			require.NoError(t, c.SetReadDeadline(time.Now().Add(time.Minute)))
			_, err = io.ReadAll(c)
			assert.NotErrorIs(t, err, os.ErrDeadlineExceeded, "%s %s: the server must close the connection before the test gives up", name, path)
		}
	}
	assert.Len(t, held, 3, "a request without its body must have been held at each listener")
}

// A stream has no body to wait for: the deadline of bodies must not end it.
func TestDeadlineOfBodiesDoesNotEndStreams(t *testing.T) {
	g := newGated(t, func(c *web.Config) {
		c.BodyWait = 500 * time.Millisecond
		c.KeepAlive = 300 * time.Millisecond
	})
	phone := g.pair("cook")
	for name, body := range map[string]io.Reader{"loopback": g.do("GET", "/api/stream", "").Body, "network": phone.do("GET", "/api/stream", "").Body} {
		signs := 0
		for buf := make([]byte, 256); signs < 5; { // five signs of life take three times the deadline
			n, err := body.Read(buf)
			require.NoError(t, err, name)
			signs += strings.Count(string(buf[:n]), ":\n\n")
		}
	}
}

const (
	strangersEnv      = "HOBSIDE_WEB_STRANGERS"
	addresses, ofEach = 25, 200
)

// TestMain runs this binary as the strangers of the benchmark when that started it so: in
// a process of their own, so that their work is not the server's.
func TestMain(m *testing.M) {
	if to := os.Getenv(strangersEnv); to != "" {
		strangers(to)
	}
	os.Exit(m.Run())
}

// strangers hold on to all places that they get until the standard input ends. Each comes
// again five seconds after its connection was closed. Every tenth of a second they print
// how many hold a place, and how often they came.
func strangers(to string) {
	var holding, attempts atomic.Int64
	for n := range addresses * ofEach {
		go func() {
			d := tls.Dialer{NetDialer: &net.Dialer{LocalAddr: &net.TCPAddr{IP: net.IPv4(127, 0, 1, byte(1+n%addresses))}}, Config: &tls.Config{InsecureSkipVerify: true}}
			for {
				attempts.Add(1)
				if c, err := d.Dial("tcp", to); err == nil {
					holding.Add(1)
					io.WriteString(c, promise)
					io.Copy(io.Discard, c)
					c.Close()
					holding.Add(-1)
				}
				<-time.After(5 * time.Second)
			}
		}()
	}
	go func() {
		io.Copy(io.Discard, os.Stdin)
		os.Exit(0)
	}()
	for range time.Tick(100 * time.Millisecond) {
		fmt.Println(holding.Load(), attempts.Load())
	}
}

// BenchmarkKnownPhoneWhileStrangersHold has 25 addresses with 200 connections each that
// promise bodies, and come again five seconds after the server closed one. It prints, for
// each second from the strangers' first, how a paired phone fares that opens a new
// connection for every request.
func BenchmarkKnownPhoneWhileStrangersHold(b *testing.B) {
	const seconds = 30
	g := newGated(b, nil)
	phone := g.pair("cook")
	self, err := os.Executable()
	require.NoError(b, err)
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), strangersEnv+"="+strings.TrimPrefix(g.lan, "https://"))
	in, err := cmd.StdinPipe()
	require.NoError(b, err)
	out, err := cmd.StdoutPipe()
	require.NoError(b, err)
	require.NoError(b, cmd.Start())
	defer func() { in.Close(); cmd.Wait() }()
	var latest atomic.Value
	latest.Store("0 0")
	go func() {
		for lines := bufio.NewScanner(out); lines.Scan(); {
			latest.Store(lines.Text())
		}
	}()
	for b.Loop() {
		var all []time.Duration
		var lines strings.Builder
		for second := range seconds {
			began := time.Now()
			var took []time.Duration
			failed := 0
			for time.Since(began) < time.Second {
				phone.client.CloseIdleConnections()
				asked := time.Now()
				if err := phone.tick(second*10_000 + len(took)); err != nil {
					failed++
					fmt.Fprintf(&lines, "second %d: %v\n", second+1, err)
				}
				took = append(took, time.Since(asked))
			}
			slices.Sort(took)
			all = append(all, took...)
			var holding, attempts int
			fmt.Sscan(latest.Load().(string), &holding, &attempts)
			fmt.Fprintf(&lines, "%2d: %4d hold a place, %5d attempts; phone: %3d requests, %d failed, median %d ms, longest %d ms\n", second+1,
				holding, attempts, len(took), failed, took[len(took)/2].Milliseconds(), took[len(took)-1].Milliseconds())
		}
		spread(b, all)
		fmt.Println(lines.String()) // the benchmark's own log is cut off after ten lines
	}
}

// tick sends an event and reports why it was not acknowledged.
func (b *browser) tick(n int) error {
	req, err := http.NewRequest("POST", b.g.lan+"/api/sync", strings.NewReader(push("phone-a", event(n))))
	if err != nil {
		return err
	}
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Cookie", "__Host-hobside="+b.cookie)
	res, err := b.client.Do(req)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	var reply hub.Reply
	if err := json.NewDecoder(res.Body).Decode(&reply); err != nil {
		return err
	}
	if len(reply.Acked) != 1 {
		return fmt.Errorf("status %d: not acknowledged", res.StatusCode)
	}
	return nil
}
