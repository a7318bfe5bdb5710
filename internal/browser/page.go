package browser

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// Options say how a browser is started.
type Options struct {
	// Dir is a folder for the profile and the downloads. A browser started later with the same folder remembers what the
	// earlier one kept, if the engine keeps profiles.
	Dir           string
	Width, Height int // of the page, CSS pixels
}

// Page is the one page of a browser of its own. Its methods return an error that names the engine, what was wanted and why
// it failed; a context without an end would wait for ever for what never comes.
type Page struct {
	Engine  Engine
	options Options
	driver  driver
}

// driver is what an engine must do; the rest of Page is made of it and therefore the same everywhere.
type driver interface {
	open(ctx context.Context, url string) error
	reload(ctx context.Context) error
	// run runs the body of an async function in the page and returns the text that it returns.
	run(ctx context.Context, body string) (string, error)
	// press puts the pointer down and up again at a place of the viewport.
	press(ctx context.Context, x, y int) error
	// keys types into what has the focus.
	keys(ctx context.Context, text string) error
	// upload chooses a file in a file field.
	upload(ctx context.Context, selector, path string) error
	// picture returns what the viewport shows as PNG.
	picture(ctx context.Context) ([]byte, error)
	// restart closes the browser and starts it again with the same profile; with none to keep, it opens a new page and
	// closes the old one.
	restart(ctx context.Context) error
	// downloads is the folder where files that a page hands out arrive.
	downloads() string
	// console returns what the page and the browser complained of.
	console() string
	close() error
}

// Start starts a browser with one empty page. It fails when the engine is not on this machine.
func Start(ctx context.Context, e Engine, o Options) (*Page, error) {
	paths, err := e.find()
	if err != nil {
		return nil, err
	}
	p := &Page{Engine: e, options: o}
	switch e {
	case Chromium:
		p.driver, err = startChromium(ctx, paths[0], o)
	case WebKit:
		p.driver, err = startWebKit(ctx, paths, o)
	case Firefox:
		p.driver, err = startFirefox(ctx, paths[0], o)
	}
	if err != nil {
		return nil, p.fail(err, "start")
	}
	return p, nil
}

// fail says what failed where.
func (p *Page) fail(err error, format string, args ...any) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %s: %w", p.Engine, fmt.Sprintf(format, args...), err)
}

// Open goes to an address and returns when its document is loaded.
func (p *Page) Open(ctx context.Context, url string) error {
	return p.fail(p.driver.open(ctx, url), "open %s", url)
}

// Reload loads the document again and returns when that is done.
func (p *Page) Reload(ctx context.Context) error { return p.fail(p.driver.reload(ctx), "reload") }

// Restart closes the browser and starts it again with the same profile and an empty page. Where the engine keeps no profile
// (see Engine.KeepsProfile) the browser stays, and a new page takes the place of the old one.
func (p *Page) Restart(ctx context.Context) error { return p.fail(p.driver.restart(ctx), "restart") }

// Eval runs a JavaScript expression, waits for a promise that it gives, and puts its value into out by way of JSON; out may be nil.
// The expression finds args, by way of JSON too, as args[0], args[1], ….
func (p *Page) Eval(ctx context.Context, out any, js string, args ...any) error {
	body, err := withArgs("return JSON.stringify((await ("+js+")) ?? null);", args)
	if err != nil {
		return p.fail(err, "%s", js)
	}
	text, err := p.driver.run(ctx, body)
	if err == nil && out != nil {
		err = json.Unmarshal([]byte(text), out)
	}
	return p.fail(err, "%s", js)
}

func withArgs(body string, args []any) (string, error) {
	if args == nil {
		args = []any{}
	}
	list, err := json.Marshal(args)
	return "const args = " + string(list) + ";\n" + body, err
}

// turn is how long the page looks for a condition before it answers "not yet". A page that is reloaded meanwhile never
// answers, so it is asked anew after answerWithin.
const (
	turn         = time.Second
	answerWithin = 20 * time.Second
)

// WaitFor waits until a JavaScript expression is true. The page looks by itself, every 20 ms; what is missing on the way to
// the value (a TypeError) counts as not yet.
func (p *Page) WaitFor(ctx context.Context, js string, args ...any) error {
	return p.poll(ctx, nil, js, args...)
}

// poll waits until an expression is true and puts its value into out. The expression may keep something from one look to the
// next in memo, an object.
func (p *Page) poll(ctx context.Context, out any, js string, args ...any) error {
	body, err := withArgs(fmt.Sprintf(`const memo = {}, end = Date.now() + %d;
		return new Promise((tell, fail) => {
			const look = () => {
				try {
					const met = (%s);
					if (met || Date.now() > end) tell(JSON.stringify(met || null)); else setTimeout(look, 20);
				} catch (err) {
					if (!(err instanceof TypeError)) fail(err);
					else if (Date.now() > end) tell('null');
					else setTimeout(look, 20);
				}
			};
			look();
		});`, turn.Milliseconds(), js), args)
	if err != nil {
		return p.fail(err, "%s", js)
	}
	for {
		text, err := p.look(ctx, body)
		if err == nil && text != "null" {
			if out != nil {
				err = json.Unmarshal([]byte(text), out)
			}
			return p.fail(err, "%s", js)
		}
		var wrong *ScriptError
		if errors.As(err, &wrong) || errors.Is(err, errEnded) {
			return p.fail(err, "%s", js)
		}
		if ctx.Err() != nil {
			return p.fail(errors.Join(ctx.Err(), err), "waited in vain for %s", js)
		}
	}
}

// look asks the page once. An error may only mean that the page is leaving, so a pause follows it.
func (p *Page) look(ctx context.Context, body string) (string, error) {
	bounded, cancel := context.WithTimeout(ctx, answerWithin)
	defer cancel()
	text, err := p.driver.run(bounded, body)
	if err != nil {
		select {
		case <-time.After(20 * time.Millisecond):
		case <-ctx.Done():
		}
	}
	return text, err
}

// ScriptError is a mistake in a script, or in what it called.
type ScriptError struct{ Message string }

func (e *ScriptError) Error() string { return e.Message }

// errEnded says that there is no browser any more, so that nothing is worth asking again.
var errEnded = errors.New("the browser has ended")

// aim is the middle of an element on the screen, once it stays in its place and nothing lies over it.
const aim = `(() => {
	const el = document.querySelector(args[0]), b = el.getBoundingClientRect();
	const x = Math.round(b.x + b.width / 2), y = Math.round(b.y + b.height / 2);
	const hit = document.elementFromPoint(x, y);
	if (!el.contains(hit)) el.scrollIntoView({ block: 'center', behavior: 'instant' });
	const still = memo.x === x && memo.y === y;
	memo.x = x; memo.y = y;
	if (!still || b.width === 0 || !el.contains(hit)) return false;
	window[Symbol.for('pressed')] = false;
	el.addEventListener('click', () => { window[Symbol.for('pressed')] = true; }, { capture: true, once: true });
	return { x, y };
})()`

// Click waits until an element can be touched, scrolls it into view and presses the real pointer on
// its middle. An element that moved away before the pointer came is followed.
func (p *Page) Click(ctx context.Context, selector string) error {
	for {
		var at struct{ X, Y int }
		if err := p.poll(ctx, &at, aim, selector); err != nil {
			return p.fail(err, "click %s", selector)
		}
		if err := p.driver.press(ctx, at.X, at.Y); err != nil {
			return p.fail(err, "click %s", selector)
		}
		// The pointer's events have been handled when press returns. Another page knows nothing of them.
		missed, err := p.driver.run(ctx, `return String(window[Symbol.for('pressed')] === false)`)
		if err != nil || missed != "true" {
			return p.fail(err, "click %s", selector)
		}
	}
}

// Type puts the focus into a field, marks what is there and types over it.
func (p *Page) Type(ctx context.Context, selector, text string) error {
	err := p.poll(ctx, nil, `(() => { const el = document.querySelector(args[0]); el.focus(); el.select(); return document.activeElement === el; })()`, selector)
	if err == nil {
		err = p.driver.keys(ctx, text)
	}
	return p.fail(err, "type into %s", selector)
}

// Upload chooses a file in a file field.
func (p *Page) Upload(ctx context.Context, selector, path string) error {
	err := p.WaitFor(ctx, `document.querySelector(args[0])`, selector)
	if err == nil {
		err = p.driver.upload(ctx, selector, path)
	}
	return p.fail(err, "upload into %s", selector)
}

// Downloaded waits until a file that the page handed out has arrived whole, and returns its path. The
// pattern is that of its name, see filepath.Match.
func (p *Page) Downloaded(ctx context.Context, pattern string) (string, error) {
	for {
		found, err := filepath.Glob(filepath.Join(p.driver.downloads(), pattern))
		if err != nil {
			return "", p.fail(err, "download %s", pattern)
		}
		for _, name := range found {
			if !unfinished(name) {
				return name, nil
			}
		}
		select { // the file system tells nobody
		case <-time.After(50 * time.Millisecond):
		case <-ctx.Done():
			return "", p.fail(ctx.Err(), "download %s", pattern)
		}
	}
}

// unfinished reports whether a browser is still writing a file: it then is empty, or there is another
// file of its name with an ending for what is not whole.
func unfinished(name string) bool {
	info, err := os.Stat(name)
	parts, _ := filepath.Glob(name + ".*")
	return err != nil || info.Size() == 0 || len(parts) > 0
}

// Screenshot returns what the page shows as PNG.
func (p *Page) Screenshot(ctx context.Context) ([]byte, error) {
	png, err := p.driver.picture(ctx)
	return png, p.fail(err, "screenshot")
}

// Console returns what the page and the browser complained of so far.
func (p *Page) Console() string { return p.driver.console() }

// Close ends the browser. The profile is on disk when it returns.
func (p *Page) Close() error { return p.fail(p.driver.close(), "close") }
