package hub

import (
	"errors"
	"fmt"
	"sync"
	"time"

	"hobside/internal/store"
)

// Upper bounds for what one device may write. A dinner of eight hours has about two
// thousand events, and its cards have less than a megabyte.
const (
	minuteRecords = 10_000
	minuteBytes   = 24 << 20
	maxVolume     = 256 << 20 // bytes since the device was paired
)

// whyVolume is what a phone is told that has written all it may.
var whyVolume = fmt.Sprintf("this phone has written %d MB, which is all that one phone may: it keeps what it has; the cook can pair it again under Settings", maxVolume>>20)

// whyMinute is what a phone is told that has written all it may for now.
const whyMinute = "this phone writes more than the server takes in a minute: it keeps what it has and sends it later"

// A quota counts what each device has written in the last minute. What was written
// leaves the count evenly, all of it within a minute. The zero value is ready; it is
// safe for use by many goroutines.
type quota struct {
	mu    sync.Mutex
	spent map[string]*spending // by device
}

// A spending is what is left in the count of one device.
type spending struct {
	records, bytes float64
	at             time.Time
}

// over reports whether a device has to wait.
func (q *quota) over(device string, now time.Time) bool {
	q.mu.Lock()
	defer q.mu.Unlock()
	s := q.spent[device]
	if s == nil {
		return false
	}
	s.pass(now)
	return s.records >= minuteRecords || s.bytes >= minuteBytes
}

// add counts what a device has written, and forgets devices that have written nothing
// for a minute.
func (q *quota) add(device string, records, bytes int, now time.Time) {
	q.mu.Lock()
	defer q.mu.Unlock()
	for id, s := range q.spent {
		if now.Sub(s.at) > time.Minute {
			delete(q.spent, id)
		}
	}
	if q.spent == nil {
		q.spent = map[string]*spending{}
	}
	s := q.spent[device]
	if s == nil {
		s = &spending{at: now}
		q.spent[device] = s
	}
	s.pass(now)
	s.records += float64(records)
	s.bytes += float64(bytes)
}

// pass takes out of the count what the time since the last call lets go. A clock that
// was set back lets nothing go.
func (s *spending) pass(now time.Time) {
	if minutes := now.Sub(s.at).Minutes(); minutes > 0 {
		s.records = max(0, s.records-minutes*minuteRecords)
		s.bytes = max(0, s.bytes-minutes*minuteBytes)
	}
	s.at = now
}

// stop returns why a device may write nothing now, "" when it may. The server's own
// machine, whose device has no id, always may.
func (in *intake) stop(tx *store.Tx) (why string, err error) {
	if in.by.ID == "" {
		return "", nil
	}
	if in.quota.over(in.by.ID, time.UnixMilli(in.now)) {
		return whyMinute, nil
	}
	volume, err := tx.Volume(in.by.ID)
	if errors.Is(err, store.ErrDamaged) {
		return "", nil // the count begins again
	}
	if volume >= maxVolume {
		why = whyVolume
	}
	return why, err
}
