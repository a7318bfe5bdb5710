package browser

import (
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"time"
)

// webkit is a MiniBrowser, held by its WebKitWebDriver, on a display of its own.
type webkit struct {
	wire
	options         Options
	display, server *process
}

func startWebKit(ctx context.Context, paths []string, o Options) (*webkit, error) {
	k := &webkit{options: o}
	err := k.start(ctx, paths[0], paths[1], paths[2])
	if err != nil {
		return nil, errors.Join(err, k.close())
	}
	return k, nil
}

func (k *webkit) start(ctx context.Context, driver, xvfb, browser string) (err error) {
	if k.display, err = launch(nil, xvfb, "-displayfd", "1", "-screen", "0", "1600x1200x24", "-nolisten", "tcp"); err != nil {
		return err
	}
	screen, err := k.display.says(ctx, `(?m)^(\d+)$`)
	if err != nil {
		return err
	}
	address, err := free()
	if err != nil {
		return err
	}
	_, port, _ := net.SplitHostPort(address)
	// A home of its own: there the browser writes what a page hands out.
	home := []string{"DISPLAY=:" + screen, "HOME=" + k.downloads()}
	for _, name := range []string{"DATA", "CACHE", "CONFIG"} {
		home = append(home, "XDG_"+name+"_HOME="+filepath.Join(k.options.Dir, name))
	}
	if err = os.MkdirAll(k.downloads(), 0o755); err != nil {
		return err
	}
	if k.server, err = launch(home, driver, "--port="+port); err != nil {
		return err
	}
	k.wire.server = "http://" + address
	if err = k.answers(ctx); err != nil {
		return err
	}
	// Full screen has no tool bar, which would not let the window be as narrow as a phone.
	if err = k.wire.open(ctx, map[string]any{"acceptInsecureCerts": true, "webkitgtk:browserOptions": map[string]any{
		"binary": browser, "args": []string{"--automation", "--full-screen", "--enable-write-console-messages-to-stdout=true"}}}); err != nil {
		return err
	}
	const ms = 30 * 60_000 // the caller's context ends what lasts too long
	if err = k.do(ctx, "POST", "/timeouts", map[string]any{"script": ms, "pageLoad": ms}, nil); err != nil {
		return err
	}
	return k.do(ctx, "POST", "/window/rect", map[string]any{"width": k.options.Width, "height": k.options.Height}, nil)
}

// answers waits until the driver takes requests. It prints nothing when it does, so it is asked, with a pause between.
func (k *webkit) answers(ctx context.Context) error {
	for {
		err := k.call(ctx, "GET", "/status", nil, nil)
		if err == nil {
			return nil
		}
		select {
		case <-time.After(50 * time.Millisecond):
		case <-k.server.ended:
			return fmt.Errorf("the driver ended; it printed:\n%s", k.server.output())
		case <-ctx.Done():
			return errors.Join(ctx.Err(), err)
		}
	}
}

// free is an address of this machine that nobody listens at.
func free() (string, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", err
	}
	return l.Addr().String(), l.Close()
}

func (k *webkit) open(ctx context.Context, url string) error {
	return k.do(ctx, "POST", "/url", map[string]any{"url": url}, nil)
}

// run says so when there is no browser any more.
func (k *webkit) run(ctx context.Context, body string) (string, error) {
	text, err := k.wire.run(ctx, body)
	var wrong *wireError
	if errors.As(err, &wrong) && wrong.Code == "invalid session id" {
		err = errors.Join(errEnded, err)
	}
	select {
	case <-k.server.ended:
		return text, errors.Join(errEnded, err)
	default:
		return text, err
	}
}

func (k *webkit) reload(ctx context.Context) error { return k.do(ctx, "POST", "/refresh", nil, nil) }

func (k *webkit) picture(ctx context.Context) ([]byte, error) {
	var text string
	if err := k.do(ctx, "GET", "/screenshot", nil, &text); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(text)
}

func (k *webkit) upload(ctx context.Context, selector, path string) error {
	field, err := k.find(ctx, selector)
	if err != nil {
		return err
	}
	return k.do(ctx, "POST", "/element/"+field+"/value", map[string]any{"text": path}, nil)
}

// restart opens a new tab and closes the old one: the driver's browser keeps its profile in memory, and the end of the
// browser would be the end of the profile.
func (k *webkit) restart(ctx context.Context) error {
	var old string
	if err := k.do(ctx, "GET", "/window", nil, &old); err != nil {
		return err
	}
	var tab struct{ Handle string }
	if err := k.do(ctx, "POST", "/window/new", map[string]any{"type": "tab"}, &tab); err != nil {
		return err
	}
	if err := k.do(ctx, "DELETE", "/window", nil, nil); err != nil {
		return err
	}
	return k.do(ctx, "POST", "/window", map[string]any{"handle": tab.Handle}, nil)
}

func (k *webkit) downloads() string { return filepath.Join(k.options.Dir, "downloads") }

func (k *webkit) console() string { return k.server.output() }

func (k *webkit) close() error {
	var errs []error
	for _, p := range []*process{k.server, k.display} {
		if p != nil {
			errs = append(errs, p.kill())
		}
	}
	return errors.Join(errs...)
}
