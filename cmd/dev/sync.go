package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// benchSync loads a real server, a process of its own, from this one: phones
// with live streams that tick, each tick timed from the tap on one phone to its
// arrival on every other. What a phone does here is what static/app/sync.js does.
func benchSync(ctx context.Context, out io.Writer) error {
	binary := "bin/hobside-bench"
	if err := command(ctx, out, "go", "build", "-o", binary, "./cmd/hobside").Run(); err != nil {
		return err
	}
	defer os.Remove(binary)
	for _, l := range []*load{
		{name: "200 phones, each ticks twice a second", phones: 200, every: time.Second / 2, lasts: 20 * time.Second},
		{name: "2,000 phones, idle", phones: 2000, lasts: 10 * time.Second},
		{name: "2,000 phones, 100 ticks a second among them", phones: 2000, every: 20 * time.Second, lasts: 15 * time.Second},
	} {
		if err := l.run(ctx, out, binary); err != nil {
			return fmt.Errorf("%s: %w", l.name, err)
		}
	}
	fmt.Fprintln(out, "writes beside raw bbolt's, same bytes, same run (aim: 0.7 or more):")
	return command(ctx, out, "go", "test", "-run", "^$", "-bench", "AgainstRaw", "./internal/store").Run()
}

// maxTicks is more than any run makes.
const maxTicks = 1 << 17

// load is one run.
type load struct {
	name   string
	phones int
	every  time.Duration // between two ticks of one phone; 0: none
	lasts  time.Duration

	url     string
	client  *http.Client
	began   time.Time
	tapped  [maxTicks]atomic.Int64 // by the event's number: nanoseconds since began
	numbers atomic.Int64
	got     []atomic.Int64
	took    []time.Duration
	saved   []time.Duration // from a tap until the server has acknowledged that it is on disk
	fetched atomic.Int64    // messages that told a phone to fetch
	words   atomic.Int64
	failed  atomic.Int64
}

func (l *load) run(ctx context.Context, to io.Writer, binary string) error {
	dir, err := os.MkdirTemp("", "hobside-bench-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	srv := exec.CommandContext(ctx, binary, "serve", "--empty", "--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "hobside.db"))
	srv.Cancel = func() error { return srv.Process.Signal(os.Interrupt) }
	out, err := srv.StdoutPipe()
	if err != nil {
		return err
	}
	if err := srv.Start(); err != nil {
		return err
	}
	defer func() { cancel(); srv.Wait() }()
	lines := bufio.NewScanner(out)
	for l.url == "" && lines.Scan() {
		l.url = regexp.MustCompile(`http://\S+`).FindString(lines.Text())
	}
	if l.url == "" {
		return errors.New("the server did not say where it is")
	}
	go io.Copy(io.Discard, out)
	l.client = &http.Client{Transport: &http.Transport{MaxIdleConns: 2 * l.phones, MaxIdleConnsPerHost: 2 * l.phones, DisableCompression: true}}
	l.got = make([]atomic.Int64, l.phones)
	l.began = time.Now()
	sent, err := l.drive(ctx)
	if err != nil {
		return err
	}
	fmt.Fprintf(to, "%s, for %v\n", l.name, l.lasts)
	if l.every > 0 {
		lost := 0
		for i := range l.got {
			lost += int(sent - l.got[i].Load())
		}
		fmt.Fprintf(to, "  %d ticks, %d times handed on, %d lost, %d requests failed\n", sent, len(l.took), lost, l.failed.Load())
		fmt.Fprintf(to, "  phone to phone: %s; %d words, %d of them told to fetch\n", spread(l.took), l.words.Load(), l.fetched.Load())
		fmt.Fprintf(to, "  of which until it is on the server's disk: %s\n", spread(l.saved))
		if lost != 0 {
			return fmt.Errorf("%d lost on the way", lost)
		}
	}
	fmt.Fprintf(to, "  the server: %s\n", usage(srv.Process.Pid, time.Since(l.began)))
	return nil
}

// spread returns the median, the 99th percentile and the longest of some times
// as text.
func spread(took []time.Duration) string {
	if len(took) == 0 {
		return "none"
	}
	slices.Sort(took)
	at := func(p float64) float64 {
		return float64(took[min(len(took)-1, int(p*float64(len(took))))].Microseconds()) / 1000
	}
	return fmt.Sprintf("p50 %.1f ms, p95 %.1f, p99 %.1f, longest %.1f", at(0.50), at(0.95), at(0.99), at(1))
}

// drive opens the streams, ticks, and waits until every phone has every tick.
func (l *load) drive(ctx context.Context) (sent int64, err error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	var ready, streams, ticking sync.WaitGroup
	var pushed atomic.Int64
	ready.Add(l.phones)
	phones := make([]*benchPhone, l.phones)
	for n := range l.phones {
		p := &benchPhone{load: l, n: n, own: map[int]bool{}, open: sync.OnceFunc(ready.Done)}
		phones[n] = p
		streams.Go(func() {
			for ctx.Err() == nil {
				if err := p.listen(ctx); err != nil && ctx.Err() == nil {
					l.failed.Add(1)
					pause(ctx, time.Second)
				}
			}
		})
	}
	ready.Wait()
	end := time.NewTimer(l.lasts)
	if l.every > 0 {
		for _, p := range phones {
			ticking.Go(func() {
				select { // so that the phones do not tick at the same moment
				case <-time.After(rand.N(l.every)):
				case <-ctx.Done():
				}
				clock := time.NewTicker(l.every)
				defer clock.Stop()
				for i := 0; time.Since(l.began) < l.lasts && ctx.Err() == nil; i++ {
					if p.tick(ctx, i) {
						pushed.Add(1)
					}
					select {
					case <-clock.C:
					case <-ctx.Done():
					}
				}
			})
		}
		ticking.Wait()
	} else {
		select {
		case <-end.C:
		case <-ctx.Done():
		}
	}
	for wait := 0; wait < 600; wait++ { // until the last message has arrived everywhere
		behind := false
		for i := range l.got {
			behind = behind || l.got[i].Load() < pushed.Load()
		}
		if !behind {
			break
		}
		pause(ctx, 100*time.Millisecond)
	}
	cancel()
	streams.Wait()
	for _, p := range phones {
		l.took = append(l.took, p.took...)
		l.saved = append(l.saved, p.saved...)
	}
	return pushed.Load(), nil
}

var fromWord = []byte(`"from":"`)
var chainWord = []byte(`"chain":"`)

// usage reads what a process takes, where the system says (Linux).
func usage(pid int, over time.Duration) string {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return "memory not known on this system"
	}
	var parts []string
	for line := range strings.Lines(string(status)) {
		for key, name := range map[string]string{"VmRSS:": "memory now", "VmHWM:": "at most"} {
			if kb, ok := strings.CutPrefix(line, key); ok {
				n, _ := strconv.Atoi(strings.TrimSuffix(strings.TrimSpace(kb), " kB"))
				parts = append(parts, fmt.Sprintf("%s %d MB", name, n/1000))
			}
		}
	}
	slices.Sort(parts)
	if stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid)); err == nil {
		_, rest, _ := strings.Cut(string(stat), ") ")
		if f := strings.Fields(rest); len(f) > 13 { // utime and stime, in hundredths (proc_pid_stat(5))
			u, _ := strconv.Atoi(f[11])
			s, _ := strconv.Atoi(f[12])
			parts = append(parts, fmt.Sprintf("%.0f %% of one core", float64(u+s)/over.Seconds()))
		}
	}
	return strings.Join(parts, ", ")
}
