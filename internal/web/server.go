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
	headerWait = 5 * time.Second  // for a request's head
	bodyWait   = 20 * time.Second // for a sync's body; a page of ticks is small, a signal may be weak
	answerWait = 30 * time.Second // for all of an answer but the stream's
	fileWait   = 5 * time.Minute  // for one of the app's files, the engine above all
	idleWait   = 2 * time.Minute
	stopWait   = 3 * time.Second // for what is under way when we are asked to stop
	maxHeader  = 16 << 10
)

// Config is what a server is made of.
type Config struct {
	Hub    *hub.Hub
	Static fs.FS        // the app's files
	Log    *slog.Logger // nil: nothing is logged
	Gate   *Gate        // who is let in from the network; nil: nobody, and no screen about it
	// Authority is the certificate that phones must trust, in DER; nil when the
	// server's own is from an authority they trust anyway.
	Authority []byte

	Beat       time.Duration // between the stream's signs of life; 0 means 15 seconds
	Gap        time.Duration // between two words of a stream at least; 0 means 10 milliseconds and a tenth more for each open stream
	MaxStreams int           // streams at one time; 0 means 4,000
	PerDevice  int           // of them one device's; 0 means 6: two tabs, and those that broke unnoticed
}

// A Server serves the app and the sync.
type Server struct {
	cfg      Config
	files    *files
	http     *http.Server // the door of this machine
	listener net.Listener
	gated    *http.Server // the door of the network; nil when there is none
	lan      net.Listener
	hosts    func() []string
	stopping chan struct{} // closed when streams should end
	streams  atomic.Int64
}

// New makes a server; it does not listen yet.
func New(cfg Config) (*Server, error) {
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.Beat == 0 {
		cfg.Beat = 15 * time.Second // proxies and phones give up on a silent stream after 30 or more
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
	s.http = s.server(door{host: isLoopback, says: "this server answers only to localhost, 127.0.0.1 and [::1]"})
	s.http.RegisterOnShutdown(func() { close(s.stopping) })
	return s, nil
}

// server makes the server of one door.
func (s *Server) server(d door) *http.Server {
	return &http.Server{
		Handler:           s.handler(d),
		ReadHeaderTimeout: headerWait, // and for the TLS handshake
		WriteTimeout:      answerWait,
		IdleTimeout:       idleWait,
		MaxHeaderBytes:    maxHeader,
		ErrorLog:          slog.NewLogLogger(s.cfg.Log.Handler(), slog.LevelDebug),
	}
}

// CheckAddr says why [Server.Listen] would refuse an address, without taking it.
// Only this machine's own are good: nothing here protects what would come by
// another.
func CheckAddr(addr string) error {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return fmt.Errorf("cannot listen on %q: write it as 127.0.0.1:8420", addr)
	}
	if !isLoopback(host) {
		return fmt.Errorf("cannot listen on %s: it can be reached from other machines, and nothing would protect it; use 127.0.0.1, ::1 or localhost", addr)
	}
	return nil
}

// Listen takes an address of this machine, "127.0.0.1:8420"; port 0 is any free
// one.
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
	// "localhost" means what this machine's hosts file says.
	if tcp, ok := l.Addr().(*net.TCPAddr); !ok || !tcp.IP.IsLoopback() {
		l.Close()
		return fmt.Errorf("cannot listen on %s: here that is %s, which other machines can reach", addr, l.Addr())
	}
	s.listener = l
	return nil
}

// URL is the address to open.
func (s *Server) URL() string { return "http://" + s.listener.Addr().String() + "/" }

// Version names the app's files: it changes when a byte of them does.
func (s *Server) Version() string { return s.files.version }

// Built says whether the phone's engine is among the files. Without it the
// server tells a browser how to build it.
func (s *Server) Built() bool { return s.files.built }

// Serve answers until ctx is done, then ends the streams, lets what is under way
// finish for three seconds, and returns nil.
func (s *Server) Serve(ctx context.Context) error {
	done := make(chan error, 2)
	doors := 1
	go func() { done <- s.http.Serve(s.listener) }()
	if s.gated != nil {
		doors++
		go func() { done <- s.gated.ServeTLS(s.lan, "", "") }()
	}
	select {
	case err := <-done:
		s.Close()
		if doors > 1 {
			<-done
		}
		if errors.Is(err, http.ErrServerClosed) {
			return nil // closed, as asked
		}
		return fmt.Errorf("the server stopped: %w", err)
	case <-ctx.Done():
	}
	wait, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopWait)
	defer cancel()
	err := s.http.Shutdown(wait) // streams of both doors end by it
	if s.gated != nil {
		err = errors.Join(err, s.gated.Shutdown(wait))
	}
	if err != nil {
		s.cfg.Log.Warn("stopped in the middle of a request; the phone will send it again")
		s.Close()
	}
	for range doors {
		<-done
	}
	return nil
}

// Close stops at once. Serve, if it runs, returns.
func (s *Server) Close() error {
	err := s.http.Close()
	if s.gated != nil {
		err = errors.Join(err, s.gated.Close())
	}
	for _, l := range []net.Listener{s.listener, s.lan} {
		if l != nil {
			l.Close() // when Serve was never called
		}
	}
	return err
}

// isLoopback says whether a host, a name or an address, is this machine itself.
func isLoopback(host string) bool {
	if host == "localhost" {
		return true
	}
	ip := net.ParseIP(host)
	return ip != nil && ip.IsLoopback()
}
