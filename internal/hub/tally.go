package hub

import (
	"log/slog"
	"sync"
	"time"
)

// tallyEvery is the shortest time between two lines of a [Tally].
const tallyEvery = time.Minute

// A Tally counts what an unknown device can cause without limit, such as wrong
// codes and refused records, and logs the count at most once a minute. The zero
// value is ready, and safe for use by many goroutines.
type Tally struct {
	mu     sync.Mutex
	n      int // since the last line
	logged time.Time
}

// Add adds n at a moment. When the last line is a minute old, or the clock was set
// back, it logs a warning with the count since then and the other values.
func (t *Tally) Add(n int, now time.Time, log *slog.Logger, message string, args ...any) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.n += n
	if since := now.Sub(t.logged); since >= 0 && since < tallyEvery {
		return
	}
	log.Warn(message, append([]any{"count", t.n}, args...)...)
	t.n, t.logged = 0, now
}
