package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"

	"hobside/internal/web"
)

// liveFolder is where `dev serve` builds to: static/ stays as the last build left it.
const liveFolder = "bin/live"

// serve serves the demo dinner from a data file of its own in bin/, with the
// page's files as they are on disk, and shows what is saved: a change of the
// page's files at once, a change of Go code when it is built. Flags given here go
// to hobside serve and win.
func serve(ctx context.Context, out io.Writer, flags []string) error {
	listen, flags := listenFlag(flags)
	if err := web.CheckAddr(listen); err != nil {
		return err
	}
	if slices.ContainsFunc(flags, func(f string) bool { return strings.TrimLeft(f, "-") == "lan" }) {
		fmt.Fprintln(out, "dev: phones on the network get the files as built now; what is saved later shows on this machine only")
		if err := build(ctx, out); err != nil {
			return err
		}
	}
	listener, err := net.Listen("tcp", listen)
	if err != nil {
		return fmt.Errorf("cannot listen on %s; stop the other program there, or give --listen 127.0.0.1:8421: %w", listen, err)
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	l := &live{out: out, flags: flags, site: newLiveSite(os.DirFS(liveFolder), os.DirFS("static"))}
	defer l.stop()
	if err := l.rebuild(ctx); err != nil {
		listener.Close()
		return err
	}
	server := &http.Server{Handler: l.site, ReadHeaderTimeout: 5 * time.Second}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	go func() { failed <- watch(ctx, func(c change) { l.saved(ctx, c) }) }()
	fmt.Fprintf(out, "Hobside is at http://%s/\ndev: what you save is shown there; stop with Ctrl-C\n", listener.Addr())
	select {
	case err = <-failed:
	case <-ctx.Done():
	}
	return errors.Join(err, server.Close())
}

// listenFlag takes --listen out of the flags and returns its address: that is
// where dev listens, and the server behind it at any free port.
func listenFlag(flags []string) (address string, rest []string) {
	address = "127.0.0.1:8420"
	for i := 0; i < len(flags); i++ {
		name, value, joined := strings.Cut(strings.TrimLeft(flags[i], "-"), "=")
		switch {
		case name != "listen" || !strings.HasPrefix(flags[i], "-"):
			rest = append(rest, flags[i])
		case joined:
			address = value
		case i+1 < len(flags):
			i++
			address = flags[i]
		}
	}
	return address, rest
}

// live is the server behind `dev serve`, and what it was built from.
type live struct {
	out   io.Writer
	flags []string
	site  *liveSite

	server *exec.Cmd
	ended  chan struct{} // closed when the server has ended
}

// saved shows a change.
func (l *live) saved(ctx context.Context, c change) {
	switch {
	case c.code:
		began := time.Now()
		if err := l.rebuild(ctx); err != nil {
			fmt.Fprintln(l.out, "dev:", err)
			return // what was built before goes on
		}
		fmt.Fprintf(l.out, "dev: built and started in %.1f s\n", time.Since(began).Seconds())
		l.site.saved("page")
	case c.page:
		l.site.saved("page")
	case c.style:
		l.site.saved("style")
	}
}

// rebuild builds the engine and the server, both at once, and starts the new
// server in the place of the old.
func (l *live) rebuild(ctx context.Context) error {
	if err := os.MkdirAll(liveFolder, 0o755); err != nil {
		return err
	}
	var both sync.WaitGroup
	var engine, server error
	both.Go(func() { engine = compileEngine(ctx, l.out, liveFolder, inlining()) })
	both.Go(func() { server = buildServer(ctx, l.out, filepath.Join(liveFolder, "hobside.new")) })
	both.Wait()
	if err := errors.Join(engine, server); err != nil {
		return err
	}
	l.stop()
	binary := filepath.Join(liveFolder, "hobside")
	if err := os.Rename(binary+".new", binary); err != nil {
		return err
	}
	return l.start(ctx, binary)
}

// start runs the server and returns when it has said its address.
func (l *live) start(ctx context.Context, binary string) error {
	args := append([]string{"serve", "--data", "bin/demo.db"}, l.flags...)
	c := command(ctx, l.out, binary, append(args, "--listen", "127.0.0.1:0")...)
	c.Stdout = nil
	printed, err := c.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.Start(); err != nil {
		return err
	}
	address := make(chan *url.URL, 1)
	ended := make(chan struct{})
	go func() {
		l.pass(printed, address)
		c.Wait() // its words say why it ended
		close(ended)
	}()
	l.server, l.ended = c, ended
	select {
	case at := <-address:
		l.site.to.Store(at)
		return nil
	case <-ended:
		return errors.New("the server ended before it said its address")
	}
}

// serverAddress is what the server prints when it can be reached.
var serverAddress = regexp.MustCompile(`^Hobside is at (http://\S+)`)

// pass prints what the server prints, except for its address, which it hands on:
// behind dev nobody is to open that one.
func (l *live) pass(printed io.Reader, address chan<- *url.URL) {
	for lines := bufio.NewScanner(printed); lines.Scan(); {
		if m := serverAddress.FindStringSubmatch(lines.Text()); m != nil {
			if at, err := url.Parse(m[1]); err == nil {
				address <- at
				continue
			}
		}
		fmt.Fprintln(l.out, lines.Text())
	}
}

// stop ends the server, if one runs, and waits until its data file is free.
func (l *live) stop() {
	if l.server == nil {
		return
	}
	l.site.to.Store(nil)
	l.server.Process.Signal(os.Interrupt) // fails only when it has ended already
	<-l.ended
	l.server = nil
}
