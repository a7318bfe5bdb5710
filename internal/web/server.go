package web

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net"
	"net/http"
	"sync/atomic"
	"syscall"
	"time"

	"hobside/internal/hub"
)

const (
	headerWait = 5 * time.Second  // for a request's headers
	replyWait  = 30 * time.Second // for a whole reply, except the stream
	fileWait   = 5 * time.Minute  // for one of the app's files; the engine is large
	idleWait   = 2 * time.Minute  // for the next request on a connection
	stopWait   = 3 * time.Second  // for requests in progress when the server stops
	maxHeader  = 16 << 10         // bytes
)

// Config are the parts and settings of a [Server].
type Config struct {
	Hub    *hub.Hub
	Static fs.FS        // the app's files
	Log    *slog.Logger // nil: nothing is logged
	Gate   *Gate        // decides which devices may come from the network; nil: none
	// Authority is the certificate that phones must trust, in DER; nil when they
	// trust the server's own certificate already.
	Authority []byte

	KeepAlive  time.Duration // between two signs of life of a quiet stream; 0 means 15 seconds
	Gap        time.Duration // between two messages of a stream at least; 0 means 10 ms and 50 µs more for each open stream
	MaxStreams int           // open streams in all; 0 means 4,000
	BodyWait   time.Duration // for the whole of a request to arrive; 0 means 20 seconds
	Limits     Limits        // connections from the network
	PerDevice  int           // open streams of one device; 0 means 6: two tabs, and those that broke and are not closed yet
}

// A Server serves the app and the sync. It is safe for use by many goroutines.
type Server struct {
	cfg      Config
	files    *files
	http     *http.Server  // for this machine
	listener net.Listener  // of http
	stopping chan struct{} // closed when streams must end
	streams  atomic.Int64  // number of open streams
	turns    turns         // one sync of each device at a time
	reading  turns         // one file of recipes at a time

	lanServer   *http.Server // for the network; nil when there is none
	lanListener net.Listener
	hosts       func() []string // names and addresses on the network
}

// New returns a server that does not listen yet. It fails when the app's files can't
// be read or have no index.html.
func New(cfg Config) (*Server, error) {
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.KeepAlive == 0 {
		cfg.KeepAlive = 15 * time.Second // proxies and phones close a silent stream after 30 seconds or more
	}
	if cfg.MaxStreams == 0 {
		cfg.MaxStreams = 4000
	}
	if cfg.PerDevice == 0 {
		cfg.PerDevice = 6
	}
	files, err := load(cfg.Static)
	if err != nil {
		return nil, fmt.Errorf("the app's files: %w", err)
	}
	s := &Server{cfg: cfg, files: files, stopping: make(chan struct{})}
	s.http = s.server(s.Local())
	s.http.RegisterOnShutdown(func() { close(s.stopping) })
	return s, nil
}

// Local returns the handler of this machine's listener.
func (s *Server) Local() http.Handler {
	return s.handler(access{host: isLoopback, refusal: "this server answers only to localhost, 127.0.0.1 and [::1]"})
}

// server returns the HTTP server of one listener.
func (s *Server) server(h http.Handler) *http.Server {
	srv := newHTTPServer(h, s.cfg.BodyWait, s.cfg.Log)
	srv.WriteTimeout = replyWait
	return srv
}

// CheckAddr returns the error with which [Server.Listen] would refuse an address,
// without listening. Only addresses of this machine are valid, because Listen
// checks no devices.
func CheckAddr(addr string) error {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return fmt.Errorf("cannot listen on %q: write it as 127.0.0.1:8420", addr)
	}
	if !isLoopback(host) {
		return fmt.Errorf("cannot listen on %s: other machines can reach it, and no device is checked there; use 127.0.0.1, ::1 or localhost", addr)
	}
	return nil
}

// Listen listens on an address of this machine, "127.0.0.1:8420" for instance; port
// 0 means any free port. It fails for other addresses and when the port is in use.
func (s *Server) Listen(addr string) error {
	if err := CheckAddr(addr); err != nil {
		return err
	}
	l, err := net.Listen("tcp", addr)
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return fmt.Errorf("cannot listen on %s: another program has that port; stop it, or choose another with --listen 127.0.0.1:8421", addr)
	case err != nil:
		return fmt.Errorf("cannot listen on %s: %w", addr, err)
	}
	// The hosts file may give localhost another address.
	if tcp, ok := l.Addr().(*net.TCPAddr); !ok || !tcp.IP.IsLoopback() {
		l.Close()
		return fmt.Errorf("cannot listen on %s: on this machine that is %s, which other machines can reach", addr, l.Addr())
	}
	s.listener = l
	return nil
}

// URL returns the address to open on this machine.
func (s *Server) URL() string { return "http://" + s.listener.Addr().String() + "/" }

// Version identifies the app's files: it changes exactly when they do.
func (s *Server) Version() string { return s.files.version }

// Built reports whether the phone's engine is among the app's files. Without it
// the server sends a page that tells how to build it.
func (s *Server) Built() bool { return s.files.built }

// Serve serves requests until ctx is done. Then it ends the streams, gives requests
// in progress three seconds, and returns nil.
func (s *Server) Serve(ctx context.Context) error {
	done := make(chan error, 2)
	servers := 1
	go func() { done <- s.http.Serve(s.listener) }()
	if s.lanServer != nil {
		servers++
		go func() { done <- s.lanServer.ServeTLS(s.lanListener, "", "") }()
	}
	select {
	case err := <-done:
		s.Close()
		if servers > 1 {
			<-done
		}
		if errors.Is(err, http.ErrServerClosed) {
			return nil // by Close
		}
		return fmt.Errorf("the server stopped: %w", err)
	case <-ctx.Done():
	}
	wait, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopWait)
	defer cancel()
	err := s.http.Shutdown(wait) // ends the streams of both servers
	if s.lanServer != nil {
		err = errors.Join(err, s.lanServer.Shutdown(wait))
	}
	if err != nil {
		s.cfg.Log.Warn("stopped during a request; the phone will send it again")
		s.Close()
	}
	for range servers {
		<-done
	}
	return nil
}

// Close stops at once and makes Serve return.
func (s *Server) Close() error {
	err := s.http.Close()
	if s.lanServer != nil {
		err = errors.Join(err, s.lanServer.Close())
	}
	for _, l := range []net.Listener{s.listener, s.lanListener} {
		if l != nil {
			l.Close() // it is still open when Serve was never called
		}
	}
	return err
}

// isLoopback reports whether a host name or address is this machine itself.
func isLoopback(host string) bool {
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
