package main

import (
	"context"
	"crypto/tls"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"time"

	"hobside/internal/hub"
	"hobside/internal/lan"
	"hobside/internal/store"
	"hobside/internal/web"
	"hobside/static"
)

// siteConfig is what a running server is made of.
type siteConfig struct {
	listen string // an address of this machine
	data   string // the data file; made when it is not there
	empty  bool   // make it without the demo dinner
	lan    bool   // listen on the network, too
	lanAt  string // where: ":8443"
	cert   string // a certificate from elsewhere, and its key
	key    string
	now    func() time.Time // the server's clock
	log    *slog.Logger
}

// A site is the whole server: data file, sync and web. Tests start the same.
type site struct {
	store  *store.Store
	web    *web.Server
	fresh  bool   // the data file was made just now
	seeded string // what is in it, in words

	gate      *web.Gate
	authority *lan.Authority // nil without --lan, and with a certificate from elsewhere
	control   *control
}

// openSite opens the data file and takes the address; nothing is answered
// before [site.run].
func openSite(cfg siteConfig) (*site, error) {
	if err := web.CheckAddr(cfg.listen); err != nil {
		return nil, err // before a data file is made for nothing
	}
	s := &site{seeded: "empty"}
	st, err := store.Open(cfg.data, store.Options{New: func(tx *store.Tx) error {
		s.fresh = true
		if cfg.empty {
			return nil
		}
		s.seeded = "with " + demoName + " in it"
		return seedDemo(tx, cfg.now())
	}})
	if err != nil {
		return nil, err
	}
	s.store = st
	h, err := hub.New(st, cfg.now, cfg.log)
	if err == nil {
		err = s.listen(cfg, h)
	}
	if err == nil {
		s.control, err = listenControl(s, h, s.gate)
	}
	if err != nil {
		if s.web != nil {
			s.web.Close()
		}
		return nil, errors.Join(err, st.Close())
	}
	return s, nil
}

// listen takes the addresses.
func (s *site) listen(cfg siteConfig, h *hub.Hub) error {
	s.gate = web.NewGate(s.store, cfg.now, cfg.log)
	wc := web.Config{Hub: h, Static: static.Files, Log: cfg.log, Gate: s.gate}
	var conf *tls.Config
	var hosts func() []string
	var err error
	switch {
	case cfg.lan && cfg.cert == "":
		if s.authority, err = lan.OpenAuthority(cfg.data, lan.Names, cfg.now); err != nil {
			return err
		}
		conf, hosts, wc.Authority = s.authority.Config(), s.authority.Hosts, s.authority.DER()
	case cfg.lan:
		if conf, hosts, err = lan.FromFiles(cfg.cert, cfg.key, cfg.now); err != nil {
			return err
		}
	}
	if s.web, err = web.New(wc); err != nil {
		return err
	}
	if err := s.web.Listen(cfg.listen); err != nil {
		return err
	}
	if !cfg.lan {
		return nil
	}
	return s.web.ListenLAN(cfg.lanAt, conf, hosts)
}

// run answers until ctx is done, then stops in good order.
func (s *site) run(ctx context.Context) error {
	err := s.web.Serve(ctx)
	s.control.close()
	return errors.Join(err, s.store.Close())
}

// serve is `hobside serve`.
func serve(ctx context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	listen := flags.String("listen", "127.0.0.1:8420", "address of this machine")
	data := flags.String("data", "hobside.db", "data file")
	empty := flags.Bool("empty", false, "begin a new data file without the demo dinner")
	onLAN := flags.Bool("lan", false, "serve phones on the network, too")
	lanAt := flags.String("lan-listen", ":8443", "where to listen for them")
	cert := flags.String("cert", "", "certificate from elsewhere")
	key := flags.String("key", "", "its key")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	switch {
	case !*onLAN && (*cert != "" || *key != ""):
		return usage("--cert and --key are for --lan: this machine needs no certificate")
	case (*cert == "") != (*key == ""):
		return usage("a certificate needs its key: give both --cert and --key")
	}
	if flags.NArg() > 0 {
		return usage("%q is none of its flags", flags.Arg(0))
	}
	s, err := openSite(siteConfig{
		listen: *listen, data: *data, empty: *empty, now: time.Now, lan: *onLAN, lanAt: *lanAt, cert: *cert, key: *key,
		log: slog.New(slog.NewTextHandler(os.Stderr, nil)),
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Hobside is at %s\n", s.web.URL())
	if s.fresh {
		fmt.Fprintf(out, "its data is in %s, made new, %s\n", *data, s.seeded)
	} else {
		fmt.Fprintf(out, "its data is in %s\n", *data)
	}
	if *onLAN {
		if err := s.invite(out); err != nil {
			s.control.close()
			return errors.Join(err, s.web.Close(), s.store.Close())
		}
	}
	if !s.web.Built() {
		fmt.Fprintln(out, "the phone's engine is not built: run `go run ./cmd/dev build`, then start bin/hobside")
	}
	fmt.Fprintln(out, "stop it with Ctrl-C")
	return s.run(ctx)
}

// invite prints how phones get in: the addresses, one of them as a QR code, what
// to compare, and a first code.
func (s *site) invite(out io.Writer) error {
	addresses := s.web.Addresses()
	if len(addresses) == 0 {
		return errors.New("this machine has no address on a private network that phones could use: connect it to one, or give --cert and --key for its own name")
	}
	fmt.Fprintln(out, "\nphones on the network open one of")
	for _, a := range addresses {
		fmt.Fprintln(out, "  "+a+"pair.html")
	}
	if err := printQR(out, addresses[0]+"pair.html"); err != nil {
		return err
	}
	if s.authority != nil {
		fmt.Fprintf(out, "a phone must first trust this machine's authority: trust.html at the same address says how\nits SHA-256 fingerprint is %s\n", s.authority.Fingerprint())
	}
	all, err := s.gate.Devices()
	if err != nil {
		return err
	}
	role := "helper"
	if len(all) == 0 {
		role = "cook" // the first is most likely the cook's own
	}
	code, err := s.gate.NewCode(role)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "the code for one %s is %s, good for ten minutes and once; `hobside devices code cook|helper` makes the next\n%s\n\n", role, spaced(code.Code), plural(len(all), "device is let in so far", "devices are let in so far"))
	return nil
}
