package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"os"
	"time"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
	"hobside/static"
)

// siteConfig is what a running server is made of.
type siteConfig struct {
	listen string           // an address of this machine
	data   string           // the data file; made when it is not there
	empty  bool             // make it without the demo dinner
	now    func() time.Time // the server's clock
	log    *slog.Logger
}

// A site is the whole server: data file, sync and web. Tests start the same.
type site struct {
	store  *store.Store
	web    *web.Server
	fresh  bool   // the data file was made just now
	seeded string // what is in it, in words
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
		s.web, err = web.New(web.Config{Hub: h, Static: static.Files, Log: cfg.log})
	}
	if err == nil {
		err = s.web.Listen(cfg.listen)
	}
	if err != nil {
		return nil, errors.Join(err, st.Close())
	}
	return s, nil
}

// run answers until ctx is done, then stops in good order.
func (s *site) run(ctx context.Context) error {
	return errors.Join(s.web.Serve(ctx), s.store.Close())
}

// serve is `hobside serve`.
func serve(ctx context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	listen := flags.String("listen", "127.0.0.1:8420", "address of this machine")
	data := flags.String("data", "hobside.db", "data file")
	empty := flags.Bool("empty", false, "begin a new data file without the demo dinner")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	if flags.NArg() > 0 {
		return usage("%q is none of its flags", flags.Arg(0))
	}
	s, err := openSite(siteConfig{
		listen: *listen, data: *data, empty: *empty, now: time.Now,
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
	if !s.web.Built() {
		fmt.Fprintln(out, "the phone's engine is not built: run `go run ./cmd/dev build`, then start bin/hobside")
	}
	fmt.Fprintln(out, "stop it with Ctrl-C")
	return s.run(ctx)
}
