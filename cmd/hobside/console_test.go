//go:build browser

package main

import (
	"strings"
	"sync"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
)

// A console is what a page complained of, for a red test to tell.
type console struct {
	mu   sync.Mutex
	said []string
}

// hear takes what the browser reports; it is called on its reading goroutine.
func (c *console) hear(ev any) {
	line := ""
	switch ev := ev.(type) {
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

func (c *console) String() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return strings.Join(c.said, "\n")
}
