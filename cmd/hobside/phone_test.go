//go:build browser

package main

import (
	"context"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"hobside/internal/browser"
)

// A phone is one browser with a profile of its own, which outlives the
// browser's closing as a phone's memory does.
type phone struct {
	t       testing.TB
	profile string
	size    [2]int64
	slow    float64 // the processor, so many times slower; 0 for as it is
	dark    bool
	// trusting is for a phone whose owner has trusted the server's authority.
	// Phones ask for that by hand, which a test can't do.
	trusting bool
	// unused is for a phone that never opened the app; others have its files from a
	// visit before, and nothing else.
	unused bool
	door   *door
	said   browser.Console
	ctx    context.Context
	close  func()
}

// patience is how long a browser may take before a test gives up on it: much
// longer than it ever does, so that a busy machine fails nothing.
const patience = 110 * time.Second

func newPhone(t testing.TB) *phone { return started(&phone{t: t, size: [2]int64{390, 844}}) }

// newUnusedPhone is a phone that never opened the app.
func newUnusedPhone(t testing.TB) *phone {
	return started(&phone{t: t, size: [2]int64{390, 844}, unused: true})
}

// started starts a phone with a profile of its own, until the test ends.
func started(p *phone) *phone {
	p.t.Helper()
	p.profile = p.t.TempDir()
	if !p.unused {
		require.NoError(p.t, os.CopyFS(p.profile, os.DirFS(visitedBefore(p.t))))
	}
	p.door = newDoor(p.t)
	p.open()
	p.t.Cleanup(func() { p.close() })
	return p
}

// open starts the browser with what the profile remembers.
func (p *phone) open() {
	p.t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.Flag("host-resolver-rules", p.door.rule()),
		chromedp.UserDataDir(p.profile), chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.WindowSize(int(p.size[0]), int(p.size[1])))
	if p.trusting {
		options = append(options, chromedp.Flag("ignore-certificate-errors", true))
	}
	for _, name := range []string{"/usr/bin/chromium", "/usr/bin/chromium-browser"} {
		if _, err := os.Stat(name); err == nil {
			options = append(options, chromedp.ExecPath(name))
			break
		}
	}
	alloc, stopAlloc := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(alloc, chromedp.WithListener(p.said.Hear))
	p.ctx = ctx
	p.close = sync.OnceFunc(func() {
		_ = chromedp.Cancel(ctx) // waits until the profile is written
		stop()
		stopAlloc()
	})
	look := []chromedp.EmulateViewportOption{chromedp.EmulateScale(2)}
	if p.size[0] < 800 {
		look = append(look, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	// The first run of a context starts the browser, and must not be bounded in
	// time: the bound's end would end the browser.
	require.NoError(p.t, chromedp.Do(p.ctx, chromedp.EmulateViewport(p.size[0], p.size[1], look...), chromedp.Func(p.emulate)))
}

// emulate sets the speed of the processor and the colour scheme that were asked
// for.
func (p *phone) emulate(ctx context.Context, tab *chromedp.Target) error {
	if p.slow > 0 {
		if _, err := cdp.Call(ctx, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: p.slow}); err != nil {
			return err
		}
	}
	if !p.dark {
		return nil
	}
	_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}})
	return err
}

// do runs actions and fails the test, with the words on the screen, when they
// do not come to an end.
func (p *phone) do(actions ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	_ = run1(p, chromedp.Steps(actions...))
}

// run1 runs one action that gives a value.
func run1[T any](p *phone, action chromedp.Action[T]) T {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, action)
	if err != nil {
		p.t.Fatalf("%v\nthe screen says:\n%s", err, p.screen())
	}
	return v
}

// screen returns the words of the page, for a test that fails.
func (p *phone) screen() string {
	ctx, cancel := context.WithTimeout(p.ctx, patience/5)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`location.href + "\n" + document.body.innerText`))
	if err != nil {
		text = "(no answer: " + err.Error() + ")"
	}
	return text + "\nthe console said:\n" + p.said.String()
}

// visit opens an address.
func (p *phone) visit(url string) { p.t.Helper(); p.do(chromedp.Navigate(p.door.leadsTo(url))) }

// reload loads the page again, and waits until it is there.
func (p *phone) reload() { p.t.Helper(); p.do(chromedp.Reload()) }

// until waits for a condition of the page.
func (p *phone) until(js string) {
	p.t.Helper()
	p.found(js, "("+js+") ? '' : null")
}

// see waits for an element and returns its text.
func (p *phone) see(selector string) string {
	p.t.Helper()
	return p.found(selector, fmt.Sprintf("((at) => at && (at.innerText ?? ''))(document.querySelector(%q))", selector))
}

// found waits until an expression is not null and returns it; what names it where it
// stays null. The page itself looks, a second at a time: a page that was reloaded
// meanwhile is asked again.
func (p *phone) found(what, js string) string {
	p.t.Helper()
	ask := chromedp.Evaluate[*string](`new Promise((tell) => {
		const end = performance.now() + 1000;
		const look = () => {
			let found = null;
			try { found = `+js+`; } catch (err) { if (!(err instanceof TypeError)) throw err; }
			if (found !== null || performance.now() > end) tell(found); else setTimeout(look, 20);
		};
		look();
	})`, chromedp.EvalAwaitPromise)
	var last error
	for end := time.Now().Add(patience); time.Now().Before(end); {
		ctx, cancel := context.WithTimeout(p.ctx, patience/5)
		found, err := chromedp.Run(ctx, ask)
		cancel()
		if found != nil && err == nil {
			return *found
		}
		last = err
	}
	p.t.Fatalf("waited in vain for %s: %v\nthe screen says:\n%s", what, last, p.screen())
	return ""
}

// reads waits until an element's words contain some.
func (p *phone) reads(selector, words string) {
	p.t.Helper()
	p.until(fmt.Sprintf("(document.querySelector(%q)?.innerText ?? '').includes(%q)", selector, words))
}

// eval returns an expression as text; a promise is waited for.
func (p *phone) eval(js string) string {
	p.t.Helper()
	return run1(p, chromedp.Evaluate[string]("(async () => String(await ("+js+")))()", chromedp.EvalAwaitPromise))
}

// tap touches the middle of an element, as a thumb does.
func (p *phone) tap(selector string) {
	p.t.Helper()
	p.until(fmt.Sprintf("!document.querySelector('#app').inert && document.querySelector(%q)?.getClientRects().length", selector))
	p.do(chromedp.ScrollIntoView(chromedp.CSS(selector)), chromedp.Click(chromedp.CSS(selector)))
}

// shot keeps a picture when HOBSIDE_SHOTS names a folder for them.
func (p *phone) shot(name string) {
	p.t.Helper()
	dir := os.Getenv("HOBSIDE_SHOTS")
	if dir == "" {
		return
	}
	png := run1(p, chromedp.CaptureScreenshot())
	require.NoError(p.t, os.MkdirAll(dir, 0o755))
	require.NoError(p.t, os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644))
}

// ready waits until the app would work with no network: the service worker has
// every file, the engine has started and the dinner is on the phone.
func (p *phone) ready() {
	p.t.Helper()
	p.until(`navigator.serviceWorker && document.querySelector('main')`)
	p.eval(`navigator.serviceWorker.ready`)
}

// address is a free address of this machine for a server that is to come back
// at the same one.
func address(t testing.TB) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer l.Close()
	return l.Addr().String()
}

// serveAt starts the server at an address; --listen given later wins.
func serveAt(t testing.TB, addr, data string) running {
	t.Helper()
	return start(t, "--listen", addr, "--data", data)
}

// hash is an address within the app.
func hash(r running, path string) string { return strings.TrimSuffix(r.url, "/") + "/#/" + path }

// kill ends the browser as a flat battery does.
func (p *phone) kill() {
	p.t.Helper()
	process := chromedp.FromContext(p.ctx).Browser.Process()
	require.NotNil(p.t, process)
	require.NoError(p.t, process.Kill())
	p.close()
}
