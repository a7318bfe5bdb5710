package web

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"
)

// authorityURL is where phones get the certificate that they must trust.
const authorityURL = "/authority.crt"

const (
	// maxConns is how many connections the network's listener has at most, and
	// maxConnsEach how many of them one address has, so that one machine can't use
	// up all of them.
	maxConns     = 5000
	maxConnsEach = 200
)

// ListenLAN listens on an address that other machines can reach, ":8443" for
// instance, over TLS and for devices that the gate has paired. Hosts returns the
// names and addresses that the server answers to at this moment. It fails without
// a certificate or a gate, and when the port is in use.
func (s *Server) ListenLAN(addr string, conf *tls.Config, hosts func() []string) error {
	if s.cfg.Gate == nil || conf == nil || len(conf.Certificates) == 0 && conf.GetCertificate == nil {
		return errors.New("cannot listen on the network without TLS and a gate") // so that it can't be done by accident
	}
	l, err := net.Listen("tcp", addr)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return fmt.Errorf("cannot listen on %s: another program has that port; stop it, or choose another with --lan-listen :8444", addr)
	case err != nil:
		return fmt.Errorf("cannot listen on %s: %w", addr, err)
	}
	s.lanListener = limited(l, maxConns, maxConnsEach)
	s.hosts = hosts
	s.lanServer = s.server(access{paired: true, refusal: "this server does not answer to that name; use one of those it printed when it started", host: func(name string) bool {
		for _, h := range hosts() {
			if strings.EqualFold(h, name) {
				return true
			}
		}
		return false
	}})
	conf = conf.Clone()
	conf.MinVersion = tls.VersionTLS12 // phones of 2014 and later; 1.3 where both can
	s.lanServer.TLSConfig = conf
	s.lanServer.HTTP2 = &http.HTTP2Config{MaxConcurrentStreams: 32, SendPingTimeout: 30 * time.Second, PingTimeout: 15 * time.Second, WriteByteTimeout: streamWait}
	return nil
}

// Addresses returns the URLs by which other machines reach this server, the most
// likely first: none when it does not listen to the network.
func (s *Server) Addresses() []string {
	out := []string{}
	if s.lanListener == nil {
		return out
	}
	port := s.lanListener.Addr().(*net.TCPAddr).Port
	for _, h := range s.hosts() {
		if isLoopback(h) {
			continue
		}
		out = append(out, "https://"+net.JoinHostPort(h, strconv.Itoa(port))+"/")
	}
	return out
}

// limited returns a listener with at most all open connections, and at most each
// from one address.
func limited(l net.Listener, all, each int) net.Listener {
	return &limiter{Listener: l, all: all, each: each, by: map[string]int{}}
}

// A limiter is a listener that limits the number of open connections.
type limiter struct {
	net.Listener
	all, each int

	mu   sync.Mutex
	open int            // connections at this moment
	by   map[string]int // of them, by address
}

// Accept returns the next connection within the limits. It closes all others at
// once.
func (l *limiter) Accept() (net.Conn, error) {
	for {
		c, err := l.Listener.Accept()
		if err != nil {
			return nil, err
		}
		from, _, err := net.SplitHostPort(c.RemoteAddr().String())
		if err != nil || !l.enter(from) {
			c.Close()
			continue
		}
		return &limitedConn{Conn: c, done: sync.OnceFunc(func() { l.exit(from) })}, nil
	}
}

// enter counts a connection. It returns false when that would exceed a limit.
func (l *limiter) enter(from string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.open >= l.all || l.by[from] >= l.each {
		return false
	}
	l.open++
	l.by[from]++
	return true
}

func (l *limiter) exit(from string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.open--
	if l.by[from]--; l.by[from] == 0 {
		delete(l.by, from)
	}
}

// A limitedConn tells its limiter when it is closed.
type limitedConn struct {
	net.Conn
	done func()
}

func (c *limitedConn) Close() error {
	c.done()
	return c.Conn.Close()
}
