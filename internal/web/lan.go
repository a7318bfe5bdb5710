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

// authorityURL is where a phone gets the authority it must trust.
const authorityURL = "/authority.crt"

const (
	// maxConns bounds what may be connected from the network; maxConnsEach what one
	// address may hold of it, so that one machine gone mad leaves room for phones.
	maxConns     = 5000
	maxConnsEach = 200
)

// ListenLAN takes an address that other machines can reach, ":8443" say. All that
// comes by it is over TLS and must have been let in by the gate. Hosts lists the
// names and addresses the server answers to, as they are now.
func (s *Server) ListenLAN(addr string, conf *tls.Config, hosts func() []string) error {
	if s.cfg.Gate == nil || conf == nil || len(conf.Certificates) == 0 && conf.GetCertificate == nil {
		return errors.New("cannot listen on the network without TLS and a gate") // no way to do it by accident
	}
	l, err := net.Listen("tcp", addr)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return fmt.Errorf("cannot listen on %s: another program has that port; stop it, or choose another with --lan-listen :8444", addr)
	case err != nil:
		return fmt.Errorf("cannot listen on %s: %w", addr, err)
	}
	s.lan = limited(l, maxConns, maxConnsEach)
	s.hosts = hosts
	s.gated = s.server(door{gated: true, says: "this server does not answer to that name; use one of those it printed when it started", host: func(name string) bool {
		for _, h := range hosts() {
			if strings.EqualFold(h, name) {
				return true
			}
		}
		return false
	}})
	conf = conf.Clone()
	conf.MinVersion = tls.VersionTLS12 // phones of 2014 and later; 1.3 where both can
	s.gated.TLSConfig = conf
	s.gated.HTTP2 = &http.HTTP2Config{MaxConcurrentStreams: 32, SendPingTimeout: 30 * time.Second, PingTimeout: 15 * time.Second, WriteByteTimeout: streamWait}
	return nil
}

// Addresses are those by which other machines reach this server, best first;
// none when it listens to this machine alone.
func (s *Server) Addresses() []string {
	out := []string{}
	if s.lan == nil {
		return out
	}
	port := s.lan.Addr().(*net.TCPAddr).Port
	for _, h := range s.hosts() {
		if isLoopback(h) {
			continue
		}
		out = append(out, "https://"+net.JoinHostPort(h, strconv.Itoa(port))+"/")
	}
	return out
}

// limited bounds how many connections a listener has open, all in all and from
// each address.
func limited(l net.Listener, all, each int) net.Listener {
	return &limiter{Listener: l, all: all, each: each, by: map[string]int{}}
}

type limiter struct {
	net.Listener
	all, each int

	mu   sync.Mutex
	open int
	by   map[string]int
}

// Accept takes the next connection that there is room for; others are closed at
// once, which costs them more than us.
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

type limitedConn struct {
	net.Conn
	done func()
}

func (c *limitedConn) Close() error {
	c.done()
	return c.Conn.Close()
}
