package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"os"
	"time"

	"hobside/content"
	"hobside/internal/site"
	"hobside/static"
)

// serve is `hobside serve`.
func serve(ctx context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	listen := flags.String("listen", "127.0.0.1:8420", "address of this machine")
	data := flags.String("data", "hobside.db", "data file")
	empty := flags.Bool("empty", false, "begin a new data file without the demo dinner")
	demoOn := flags.String("demo-on", "", "the day of the demo dinner in a new data file, \"2027-06-12\", instead of the coming Saturday")
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
		return usage("unexpected argument %q", flags.Arg(0))
	}
	if _, err := time.Parse(time.DateOnly, *demoOn); *demoOn != "" && err != nil {
		return usage("--demo-on: %q is not a date: write it like \"2027-06-12\"", *demoOn)
	}
	var demo fs.FS
	if !*empty {
		demo = content.Files
	}
	s, err := site.Open(site.Config{
		Listen: *listen, Data: *data, Demo: demo, DemoOn: *demoOn, LAN: *onLAN, LANAt: *lanAt, Cert: *cert, Key: *key,
		Static: static.Files, Now: time.Now, Log: slog.New(slog.NewTextHandler(os.Stderr, nil)),
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Hobside is at %s\n", s.Web.URL())
	switch {
	case !s.New:
		fmt.Fprintf(out, "its data is in %s\n", *data)
	case *empty:
		fmt.Fprintf(out, "its data is in %s, a new file, empty\n", *data)
	default:
		fmt.Fprintf(out, "its data is in %s, a new file with the demo dinner, %s\n", *data, site.DemoTitle)
	}
	if *onLAN {
		if err := invite(out, s); err != nil {
			return errors.Join(err, s.Close())
		}
	}
	if !s.Web.Built() {
		fmt.Fprintln(out, "the phone's engine is not built: run `go run ./cmd/dev build`, then start bin/hobside")
	}
	fmt.Fprintln(out, "stop it with Ctrl-C")
	return s.Run(ctx)
}

// invite prints what a new phone needs: the addresses, one of them as a QR code,
// the fingerprint to compare, and a first code.
func invite(out io.Writer, s *site.Site) error {
	addresses := s.Web.Addresses()
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
	if s.Authority != nil {
		if word := s.Authority.Word(); word != "" {
			fmt.Fprintln(out, word)
		}
		fmt.Fprintf(out, "a phone must first trust this machine's authority: trust.html at the same address says how\nits SHA-256 fingerprint is %s\n", s.Authority.Fingerprint())
	}
	all, err := s.Gate.Devices()
	if err != nil {
		return err
	}
	role := "helper"
	if len(all) == 0 {
		role = "cook" // the first is most likely the cook's own
	}
	code, err := s.Gate.NewCode(role)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "the code for one %s is %s, good for ten minutes and once; `hobside devices code cook|helper` makes the next\n%s\n\n", role, spaced(code.Code), plural(len(all), "device is let in so far", "devices are let in so far"))
	return nil
}
