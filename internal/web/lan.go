package web

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"
)

// authorityURL is where phones get the certificate that they must trust.
const authorityURL = "/authority.crt"

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
	s.lanListener = limited(l, s.cfg.Limits)
	s.hosts = hosts
	s.lanServer = s.server(s.Network(hosts))
	s.lanServer.ConnContext = withPlace
	conf = conf.Clone()
	conf.MinVersion = tls.VersionTLS12 // phones of 2014 and later; 1.3 where both can
	s.lanServer.TLSConfig = conf
	s.lanServer.HTTP2 = &http.HTTP2Config{MaxConcurrentStreams: 32, SendPingTimeout: 30 * time.Second, PingTimeout: 15 * time.Second, WriteByteTimeout: streamWait}
	return nil
}

// Network returns the handler of the network's listener: it answers to hosts, and to
// devices that the gate has paired.
func (s *Server) Network(hosts func() []string) http.Handler {
	return s.handler(access{paired: true, refusal: "this server does not answer to that name; use one of those it printed when it started", host: func(name string) bool {
		return slices.ContainsFunc(hosts(), func(h string) bool { return strings.EqualFold(h, name) })
	}})
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
