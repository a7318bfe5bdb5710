package browser

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
)

// chromium is a Chromium without a window, as a phone with a touch screen.
type chromium struct {
	program string
	options Options
	ctx     context.Context // holds the browser and its tab, as chromedp wants it
	stop    func() error

	said Console
}

func startChromium(ctx context.Context, program string, o Options) (*chromium, error) {
	c := &chromium{program: program, options: o}
	if err := os.MkdirAll(c.downloads(), 0o755); err != nil {
		return nil, err
	}
	return c, c.restart(ctx)
}

func (c *chromium) restart(context.Context) error {
	if err := c.close(); err != nil {
		return err
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(c.program), chromedp.UserDataDir(filepath.Join(c.options.Dir, "profile")),
		chromedp.NoSandbox, chromedp.Flag("disable-dev-shm-usage", true), chromedp.Flag("ignore-certificate-errors", true))
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	tab, stopTab := chromedp.NewContext(allocator, chromedp.WithListener(c.said.Hear))
	c.ctx = tab
	c.stop = func() error {
		err := chromedp.Cancel(tab) // waits until the profile is written
		stopTab()
		stopAllocator()
		return err
	}
	// The first call of a context starts the browser. A bound in time would end the browser when it ends.
	return chromedp.Do(tab,
		chromedp.EmulateViewport(int64(c.options.Width), int64(c.options.Height), chromedp.EmulateScale(2), chromedp.EmulateMobile, chromedp.EmulateTouch),
		chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
			_, err := cdp.Call(ctx, tab, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: c.downloads()})
			return err
		}))
}

func (c *chromium) console() string { return c.said.String() }

// do runs an action in the tab until the caller's context ends.
func do[T any](ctx context.Context, c *chromium, action chromedp.Action[T]) (T, error) {
	tab, cancel := context.WithCancelCause(c.ctx)
	defer cancel(nil)
	defer context.AfterFunc(ctx, func() { cancel(context.Cause(ctx)) })()
	return chromedp.Run(tab, action)
}

func (c *chromium) open(ctx context.Context, url string) error {
	_, err := do(ctx, c, chromedp.Navigate(url))
	return err
}

func (c *chromium) reload(ctx context.Context) error {
	_, err := do(ctx, c, chromedp.Reload())
	return err
}

func (c *chromium) run(ctx context.Context, body string) (string, error) {
	text, err := do(ctx, c, chromedp.Evaluate[string]("(async () => {"+body+"})()", chromedp.EvalAwaitPromise))
	var thrown *chromedp.ExceptionError
	switch {
	case errors.As(err, &thrown):
		return "", &ScriptError{Message: thrown.Error()}
	case c.ctx.Err() != nil:
		return "", errors.Join(errEnded, err)
	}
	return text, err
}

func (c *chromium) press(ctx context.Context, x, y int) error {
	_, err := do(ctx, c, chromedp.MouseClickXY(float64(x), float64(y)))
	return err
}

func (c *chromium) keys(ctx context.Context, text string) error {
	_, err := do(ctx, c, chromedp.KeyEvent(text))
	return err
}

func (c *chromium) upload(ctx context.Context, selector, path string) error {
	_, err := do(ctx, c, chromedp.SetUploadFiles(chromedp.CSS(selector), []string{path}, chromedp.NodeReady))
	return err
}

func (c *chromium) picture(ctx context.Context) ([]byte, error) {
	return do(ctx, c, chromedp.CaptureScreenshot())
}

func (c *chromium) downloads() string { return filepath.Join(c.options.Dir, "downloads") }

func (c *chromium) close() error {
	if c.stop == nil {
		return nil
	}
	stop := c.stop
	c.stop = nil
	return stop()
}
