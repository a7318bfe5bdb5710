//go:build browser

package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"hobside/internal/browser"
)

// allEnginesWithin bounds a test of a whole engine. It is many times longer than the test takes, so
// that a busy machine fails nothing.
const allEnginesWithin = 20 * time.Minute

// A device is one browser of any engine, with the size of a phone. What only Chromium can be asked
// for is in phone.
type device struct {
	t    *testing.T // of the part of the test that runs
	page *browser.Page
	ctx  context.Context
	dir  string
}

// newDevice starts a browser.
func newDevice(t *testing.T, e browser.Engine) *device {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), allEnginesWithin)
	d := &device{t: t, ctx: ctx, dir: t.TempDir()}
	var err error
	d.page, err = browser.Start(ctx, e, browser.Options{Dir: d.dir, Width: 390, Height: 844})
	require.NoError(t, err)
	t.Cleanup(func() {
		err := d.page.Close()
		cancel()
		require.NoError(t, err)
	})
	return d
}

// must fails the test, with the words on the screen, when a step fails.
func (d *device) must(err error) {
	d.t.Helper()
	if err == nil {
		return
	}
	ctx, cancel := context.WithTimeout(d.ctx, 20*time.Second)
	defer cancel()
	screen := "(no answer)"
	_ = d.page.Eval(ctx, &screen, `location.href + "\n" + document.body.innerText`)
	d.t.Fatalf("%v\nthe screen says:\n%s\nthe console said:\n%s", err, screen, d.page.Console())
}

// step is a context for one step: longer than any takes, shorter than the whole test.
func (d *device) step() (context.Context, context.CancelFunc) {
	return context.WithTimeout(d.ctx, 5*time.Minute)
}

func (d *device) visit(url string) {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.Open(ctx, url))
}

func (d *device) reload() {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.Reload(ctx))
}

// reopen closes the browser and opens it again.
func (d *device) reopen() {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.Restart(ctx))
}

func (d *device) until(js string, args ...any) {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.WaitFor(ctx, js, args...))
}

func (d *device) see(selector string) {
	d.t.Helper()
	d.until(`document.querySelector(args[0])`, selector)
}

// reads waits until an element's words contain some.
func (d *device) reads(selector, words string) {
	d.t.Helper()
	d.until(`document.querySelector(args[0])?.innerText.includes(args[1])`, selector, words)
}

// eval returns an expression as text; a promise is waited for.
func (d *device) eval(js string, args ...any) string {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	var text string
	d.must(d.page.Eval(ctx, &text, "Promise.resolve("+js+").then(String)", args...))
	return text
}

func (d *device) tap(selector string) {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.Click(ctx, selector))
}

func (d *device) types(selector, text string) {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.Type(ctx, selector, text))
}

func (d *device) uploads(selector, path string) {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	d.must(d.page.Upload(ctx, selector, path))
}

// downloaded waits for a file that the page hands out and returns its text.
func (d *device) downloaded(pattern string) string {
	d.t.Helper()
	ctx, cancel := d.step()
	defer cancel()
	name, err := d.page.Downloaded(ctx, pattern)
	d.must(err)
	text, err := os.ReadFile(name)
	d.must(err)
	return string(text)
}

// turns goes to a screen of the app without loading the page again, as a link does.
func (d *device) turns(path string) { d.t.Helper(); d.eval(`(location.hash = args[0])`, "#/"+path) }

func (d *device) kept() { d.t.Helper(); d.eval(tapsAreKept) }

// synced waits until the server has acknowledged everything. The stove shows
// that only while something waits, so it is not read from the screen.
func (d *device) synced() { d.t.Helper(); d.network("on", 0) }

// network waits until the app knows whether it reaches the server, and until so many events wait to be sent.
func (d *device) network(state string, waiting int) {
	d.t.Helper()
	d.eval(`(async () => {
		const { waiting } = await import('/app/events.js'), { net } = await import('/app/server.js');
		while (net.value !== args[0] || waiting.value !== args[1]) await new Promise((again) => setTimeout(again, 20));
	})()`, state, waiting)
}

// fits fails when something sticks out at the side of the page.
func (d *device) fits(name string) {
	d.t.Helper()
	require.Equal(d.t, "390", d.eval(`Math.max(document.documentElement.scrollWidth, innerWidth)`), "%s: something sticks out", name)
}

// shot keeps a picture when HOBSIDE_SHOTS names a folder for them.
func (d *device) shot(name string) {
	d.t.Helper()
	dir := os.Getenv("HOBSIDE_SHOTS")
	if dir == "" {
		return
	}
	ctx, cancel := d.step()
	defer cancel()
	png, err := d.page.Screenshot(ctx)
	d.must(err)
	d.must(os.MkdirAll(dir, 0o755))
	d.must(os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s-%s.png", d.page.Engine, name)), png, 0o644))
}

// inEngines runs a test in every engine that is to be tested, side by side, and says which are not.
func inEngines(t *testing.T, test func(t *testing.T, e browser.Engine)) {
	t.Helper()
	chosen, absent, err := browser.Choose()
	require.NoError(t, err)
	for _, why := range absent {
		fmt.Println("NOT TESTED:", why) // t.Log is shown only when a test fails
	}
	for _, e := range chosen {
		t.Run(string(e), func(t *testing.T) {
			t.Parallel()
			test(t, e)
		})
	}
}

// part runs one part of a test on devices; the next parts need what it left, so they do not run when it fails.
func part(t *testing.T, name string, do func(t *testing.T), devices ...*device) {
	t.Helper()
	ok := t.Run(name, func(t *testing.T) {
		for _, d := range devices {
			d.t = t
		}
		do(t)
	})
	for _, d := range devices {
		d.t = t
	}
	if !ok {
		t.FailNow()
	}
}
