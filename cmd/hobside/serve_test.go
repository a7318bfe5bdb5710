package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/content"
	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/site"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
	"hobside/static"
)

// printed is what a command printed so far; ready is closed at a line's end
// that starts with a word.
type printed struct {
	mu    sync.Mutex
	buf   bytes.Buffer
	ready chan struct{}
}

func (p *printed) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if strings.HasPrefix(string(b), "stop it") {
		close(p.ready)
	}
	return p.buf.Write(b)
}

func (p *printed) String() string { p.mu.Lock(); defer p.mu.Unlock(); return p.buf.String() }

// running is a server started as from the command line.
type running struct {
	url  string
	out  *printed
	stop func() error // what serve returned
}

// start starts a server. The demo dinner is on one day, so that tests do not depend on
// the weekday on which they run.
func start(t testing.TB, args ...string) running {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out := &printed{ready: make(chan struct{})}
	done := make(chan error, 1)
	go func() {
		done <- serve(ctx, append([]string{"--listen", "127.0.0.1:0", "--demo-on", "2027-06-12"}, args...), out)
	}()
	select {
	case <-out.ready:
	case err := <-done:
		require.NoError(t, err)
	}
	stop := sync.OnceValue(func() error { cancel(); return <-done })
	t.Cleanup(func() { assert.NoError(t, stop()) })
	url := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(out.String())
	require.NotEmpty(t, url, out.String())
	return running{url: url, out: out, stop: stop}
}

func (r running) pull(t *testing.T) hub.Reply {
	t.Helper()
	res, err := http.Post(r.url+"api/sync", "application/json", strings.NewReader(`{"device":"phone-a","epoch":"","after":"0","events":[],"files":[]}`))
	require.NoError(t, err)
	defer res.Body.Close()
	require.Equal(t, 200, res.StatusCode)
	var reply hub.Reply
	require.NoError(t, json.NewDecoder(res.Body).Decode(&reply))
	return reply
}

func TestServeDemoDinner(t *testing.T) {
	data := filepath.Join(t.TempDir(), "hobside.db")
	r := start(t, "--data", data)
	assert.Contains(t, r.out.String(), "a new file with the demo dinner, The boathouse supper")
	reply := r.pull(t)

	want := map[string]string{}
	require.NoError(t, fs.WalkDir(content.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if strings.HasSuffix(p, ".md") && d.Name() != "README.md" {
			b, err := fs.ReadFile(content.Files, p)
			require.NoError(t, err)
			want[d.Name()] = string(b)
		}
		return err
	}))
	got := map[string]string{}
	for _, f := range reply.Files {
		got[f.Name] = f.Text
		assert.Equal(t, dinner.Revision(f.Text), f.Revision)
	}
	assert.Equal(t, want, got, "every card byte for byte, by its own name, and README.md not")

	require.Len(t, reply.Events, 1)
	ev := reply.Events[0]
	assert.Equal(t, dinner.KindOpen, ev.Kind)
	assert.Equal(t, "boathouse", ev.Dinner)
	assert.Equal(t, "The boathouse supper", ev.Text)
	require.NotNil(t, ev.Open)
	assert.Equal(t, "boathouse-supper.md", ev.Open.Menu)
	assert.Equal(t, "boathouse-kitchen.md", ev.Open.Kitchen)
	assert.Equal(t, 18, ev.Open.Covers)
	assert.Equal(t, "2027-06-12T19:30", ev.Open.Serve)
	assert.Greater(t, len(ev.Open.Files), 22)
	for name, rev := range ev.Open.Files {
		assert.Equal(t, dinner.Revision(want[name]), rev, name)
	}

	// Stopped and started again it is the same data file, and not filled again.
	require.NoError(t, r.stop())
	again := start(t, "--data", data)
	assert.NotContains(t, again.out.String(), "made new")
	after := again.pull(t)
	after.Now = reply.Now
	assert.Equal(t, reply, after)
	require.NoError(t, again.stop())
	storetest.Open(t, data, store.Options{}) // checked when the test ends
}

func TestServeEmpty(t *testing.T) {
	r := start(t, "--empty", "--data", filepath.Join(t.TempDir(), "hobside.db"))
	reply := r.pull(t)
	assert.Empty(t, reply.Events)
	assert.Empty(t, reply.Files)
	assert.Contains(t, r.out.String(), "a new file, empty")
}

func TestServeErrors(t *testing.T) {
	dir := t.TempDir()
	r := start(t, "--empty", "--data", filepath.Join(dir, "used.db"))
	taken := strings.TrimSuffix(strings.TrimPrefix(r.url, "http://"), "/")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "card.db"), []byte("# Stock\n"), 0o600))
	for _, tt := range []struct {
		name  string
		args  []string
		says  string
		usage bool
	}{
		{"all the network", []string{"--listen", ":8420"}, "other machines can reach it", false},
		{"port in use", []string{"--empty", "--listen", taken, "--data", filepath.Join(dir, "other.db")}, "--listen", false},
		{"data in use", []string{"--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "used.db")}, "choose another file with --data", false},
		{"data of something else", []string{"--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "card.db")}, "put the newest backup in its place", false},
		{"no such folder", []string{"--listen", "127.0.0.1:0", "--data", filepath.Join(dir, "none", "x.db")}, "there is no folder", false},
		{"no such flag", []string{"--port", "80"}, "-port", true},
		{"a demo dinner on no day", []string{"--demo-on", "Saturday"}, `--demo-on: "Saturday" is not a date: write it like "2027-06-12"`, true},
		{"a word too many", []string{"boathouse"}, `unexpected argument "boathouse"`, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			err := serve(context.Background(), tt.args, &printed{})
			assert.ErrorContains(t, err, tt.says)
			assert.Equal(t, tt.usage, errors.Is(err, errUsage))
		})
	}
	assert.NoFileExists(t, "hobside.db", "a wrong address makes no data file")
}

// BenchmarkStart measures the time from the start of the process until its
// address answers, with an existing data file.
func BenchmarkStart(b *testing.B) {
	cfg := site.Config{Listen: "127.0.0.1:0", Data: filepath.Join(b.TempDir(), "hobside.db"), Demo: content.Files, Static: static.Files, Now: time.Now, Log: slog.New(slog.DiscardHandler)}
	for b.Loop() {
		s, err := site.Open(cfg)
		require.NoError(b, err)
		ctx, cancel := context.WithCancel(context.Background())
		done := make(chan error, 1)
		go func() { done <- s.Run(ctx) }()
		res, err := http.Get(s.Web.URL() + "healthz")
		require.NoError(b, err)
		res.Body.Close()
		cancel()
		require.NoError(b, <-done)
	}
}
