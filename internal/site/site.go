// Package site is the whole server as one value: the data file, the sync, the web
// listeners and the control endpoint of the command line. [Open] takes the
// addresses, [Site.Run] answers until it is stopped. Tests start the same server
// that `hobside serve` does.
package site

import (
	"context"
	"crypto/tls"
	"errors"
	"io/fs"
	"log/slog"
	"time"

	"hobside/internal/control"
	"hobside/internal/hub"
	"hobside/internal/lan"
	"hobside/internal/store"
	"hobside/internal/web"
)

// Config says what a server is made of.
type Config struct {
	Listen string // address and port on this machine
	Data   string // the data file; made when it is missing
	Demo   fs.FS  // the dinner that a new data file begins with; nil for none
	DemoOn string // the day of that dinner, "2006-01-02"; "" for the coming Saturday

	LAN   bool   // listen on the network too
	LANAt string // address and port for the network: ":8443"
	Cert  string // file of a certificate to use there; "" for one of our own authority
	Key   string // file of its key

	Static fs.FS            // the app's files
	Now    func() time.Time // the server's clock
	Log    *slog.Logger
}

// A Site is a running server.
type Site struct {
	Web       *web.Server
	Gate      *web.Gate
	Authority *lan.Authority // nil without LAN, and with a certificate from elsewhere
	New       bool           // the data file was made just now

	store    *store.Store
	endpoint *control.Endpoint
}

// Open opens the data file and takes the addresses; nothing is answered before
// [Site.Run]. On an error nothing stays open.
func Open(cfg Config) (*Site, error) {
	if err := web.CheckAddr(cfg.Listen); err != nil {
		return nil, err // before a data file is made for nothing
	}
	s := &Site{}
	var err error
	s.store, err = store.Open(cfg.Data, store.Options{New: func(tx *store.Tx) error {
		s.New = true
		if cfg.Demo == nil {
			return nil
		}
		return seedDemo(tx, cfg.Demo, cfg.DemoOn, cfg.Now())
	}})
	if err != nil {
		return nil, err
	}
	h, err := hub.New(s.store, cfg.Now, cfg.Log)
	if err == nil {
		err = s.listen(cfg, h)
	}
	if err == nil {
		s.endpoint, err = control.Listen(s.store, h, s.Gate)
	}
	if err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// listen takes the addresses.
func (s *Site) listen(cfg Config, h *hub.Hub) error {
	s.Gate = web.NewGate(s.store, cfg.Now, cfg.Log)
	wc := web.Config{Hub: h, Static: cfg.Static, Log: cfg.Log, Gate: s.Gate}
	var conf *tls.Config
	var hosts func() []string
	var err error
	switch {
	case cfg.LAN && cfg.Cert == "":
		if s.Authority, err = lan.OpenAuthority(cfg.Data, lan.Names, cfg.Now); err != nil {
			return err
		}
		conf, hosts, wc.Authority = s.Authority.Config(), s.Authority.Hosts, s.Authority.DER()
	case cfg.LAN:
		if conf, hosts, err = lan.FromFiles(cfg.Cert, cfg.Key, cfg.Now); err != nil {
			return err
		}
	}
	if s.Web, err = web.New(wc); err != nil {
		return err
	}
	if err := s.Web.Listen(cfg.Listen); err != nil {
		return err
	}
	if !cfg.LAN {
		return nil
	}
	return s.Web.ListenLAN(cfg.LANAt, conf, hosts)
}

// Run answers until ctx is done, then ends what is under way and closes the data
// file.
func (s *Site) Run(ctx context.Context) error {
	err := s.Web.Serve(ctx)
	s.endpoint.Close()
	return errors.Join(err, s.store.Close())
}

// Close closes a site that was opened and not run.
func (s *Site) Close() error {
	var errs []error
	if s.endpoint != nil {
		s.endpoint.Close()
	}
	if s.Web != nil {
		errs = append(errs, s.Web.Close())
	}
	return errors.Join(append(errs, s.store.Close())...)
}
