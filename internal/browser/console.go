package browser

import (
	"strings"
	"sync"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
)

// A Console keeps what a page of Chromium reports on its console: log entries and
// uncaught exceptions, a line each.
type Console struct {
	mu   sync.Mutex
	said []string
}

// Hear keeps an event of the browser when it belongs on the console. The browser's
// reading goroutine calls it.
func (c *Console) Hear(event any) {
	line := ""
	switch ev := event.(type) {
	case *log.EventEntryAdded:
		line = string(ev.Entry.Level) + ": " + ev.Entry.Text + " " + ev.Entry.URL
	case *runtime.EventExceptionThrown:
		line = ev.ExceptionDetails.Text + " " + ev.ExceptionDetails.URL
		if ev.ExceptionDetails.Exception != nil {
			line += " " + ev.ExceptionDetails.Exception.Description
		}
	default:
		return
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.said = append(c.said, line)
}

// String returns all lines so far.
func (c *Console) String() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return strings.Join(c.said, "\n")
}
