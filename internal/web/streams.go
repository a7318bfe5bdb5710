package web

import "sync"

// deviceStreams are the open streams of each paired device, so that their number
// is limited and that they end when the device is revoked. Its zero value is ready
// for use, by many goroutines.
type deviceStreams struct {
	mu   sync.Mutex
	open map[string]map[*openStream]bool // by the device's id
	bars map[string]int                  // how many revocations of a device are under way
}

// An openStream is one stream of a device.
type openStream struct {
	once    sync.Once
	revoked chan struct{} // closed when the device is revoked
}

// add counts a stream of a device. ok is false when the device has max streams
// already, and while it is being revoked.
func (d *deviceStreams) add(id string, max int) (o *openStream, ok bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.open[id]) >= max || d.bars[id] > 0 {
		return nil, false
	}
	if d.open == nil {
		d.open = map[string]map[*openStream]bool{}
	}
	if d.open[id] == nil {
		d.open[id] = map[*openStream]bool{}
	}
	o = &openStream{revoked: make(chan struct{})}
	d.open[id][o] = true
	return o, true
}

// remove forgets a stream that has ended.
func (d *deviceStreams) remove(id string, o *openStream) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.open[id], o)
	if len(d.open[id]) == 0 {
		delete(d.open, id)
	}
}

// end makes all streams of a device end.
func (d *deviceStreams) end(id string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for o := range d.open[id] {
		o.once.Do(func() { close(o.revoked) })
	}
}

// bar lets a device open no stream until the returned function is called.
func (d *deviceStreams) bar(id string) (lift func()) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.bars == nil {
		d.bars = map[string]int{}
	}
	d.bars[id]++
	return func() {
		d.mu.Lock()
		defer d.mu.Unlock()
		if d.bars[id]--; d.bars[id] == 0 {
			delete(d.bars, id)
		}
	}
}
