package web

import (
	"container/list"
	"context"
	"crypto/tls"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"time"
)

// Limits are how many connections the network's listener has at most. A connection is a
// stranger's until a paired device has sent a request on it. Strangers can only take
// places from one another: where they hold all that they may, the next connection takes
// the place of one of them, so that a paired device always gets in.
type Limits struct {
	All       int // 0 means 5,000
	Each      int // from one address; 0 means 200
	Strangers int // 0 means 1,000
	// Stay is how long a stranger keeps a place at least, so that a handshake and a
	// first request can be finished; 0 means a second. A newcomer from an address that
	// has its share of places waits for five times as long, because every handshake
	// costs the server work.
	Stay time.Duration
}

// A newcomer's address has its share when it has more than one in shareOf of the places
// that the fullest address has.
const (
	shareOf   = 2
	shareStay = 5
)

// withDefaults returns the limits with a number for each 0.
func (l Limits) withDefaults() Limits {
	for at, usual := range map[*int]int{&l.All: 5000, &l.Each: 200, &l.Strangers: 1000} {
		if *at == 0 {
			*at = usual
		}
	}
	if l.Stay == 0 {
		l.Stay = time.Second
	}
	return l
}

// limited returns a listener with at most so many open connections.
func limited(l net.Listener, limits Limits) net.Listener {
	return &places{Listener: l, limits: limits.withDefaults(), now: time.Now, by: map[netip.Prefix]*address{}}
}

// places are the open connections of a listener.
type places struct {
	net.Listener
	limits Limits
	now    func() time.Time

	mu        sync.Mutex
	open      int // connections
	strangers int // of them, those of strangers
	arrived   uint64
	by        map[netip.Prefix]*address
}

// An address is where connections come from: an IPv4 address, or an IPv6 network of 64
// bits, in which one machine may have as many addresses as it likes.
type address struct {
	from      netip.Prefix
	open      int
	strangers list.List // of *conn, the oldest first
}

// A conn is an open connection and its place.
type conn struct {
	net.Conn
	all     *places
	at      *address
	number  uint64        // in the order of arrival
	since   time.Time     // when it arrived
	unknown *list.Element // in at.strangers; nil when a paired device uses it
	left    bool
}

// Accept returns the next connection that has a place. It closes all others at once.
func (p *places) Accept() (net.Conn, error) {
	for {
		c, err := p.Listener.Accept()
		if err != nil {
			return nil, err
		}
		entered, evicted := p.enter(c)
		if evicted != nil {
			evicted.Conn.Close()
		}
		if entered == nil {
			c.Close()
			continue
		}
		return entered, nil
	}
}

// enter gives a connection a place. Where a limit is reached, it takes the place of a
// stranger, which is returned and must be closed. It returns nil when there is none.
func (p *places) enter(c net.Conn) (entered, evicted *conn) {
	from, ok := network(c.RemoteAddr())
	if !ok {
		return nil, nil
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	at, now := p.by[from], p.now()
	switch {
	case at != nil && at.open >= p.limits.Each:
		evicted, ok = p.yields(at, at, now)
	case p.open >= p.limits.All, p.strangers >= p.limits.Strangers:
		evicted, ok = p.yields(p.fullest(), at, now)
	}
	if !ok {
		return nil, nil
	}
	if evicted != nil {
		p.leave(evicted)
	}
	if at = p.by[from]; at == nil { // it may have left with the evicted place
		at = &address{from: from}
		p.by[from] = at
	}
	p.arrived++
	p.open++
	p.strangers++
	at.open++
	entered = &conn{Conn: c, all: p, at: at, number: p.arrived, since: now}
	entered.unknown = at.strangers.PushBack(entered)
	return entered, evicted
}

// yields returns the stranger of an address who gives his place to a newcomer; ok is
// false when none does. The newcomer's own address is nil when it has no place.
func (p *places) yields(of, newcomer *address, now time.Time) (evicted *conn, ok bool) {
	evicted = of.oldest()
	if evicted == nil {
		return nil, false
	}
	stay := p.limits.Stay
	if newcomer != nil && newcomer.strangers.Len()*shareOf > of.strangers.Len() {
		stay *= shareStay
	}
	return evicted, now.Sub(evicted.since) >= stay
}

// fullest returns the address with the most strangers, of equal ones that with the
// oldest; nil when there is no stranger.
func (p *places) fullest() (found *address) {
	for _, a := range p.by {
		if a.strangers.Len() == 0 {
			continue
		}
		if found == nil || a.strangers.Len() > found.strangers.Len() ||
			a.strangers.Len() == found.strangers.Len() && a.oldest().number < found.oldest().number {
			found = a
		}
	}
	return found
}

// oldest returns the oldest stranger from an address, nil when there is none.
func (a *address) oldest() *conn {
	if a == nil || a.strangers.Len() == 0 {
		return nil
	}
	return a.strangers.Front().Value.(*conn)
}

// leave frees a place, once. The caller holds p.mu.
func (p *places) leave(c *conn) {
	if c.left {
		return
	}
	c.left = true
	p.open--
	c.at.open--
	p.know(c)
	if c.at.open == 0 {
		delete(p.by, c.at.from)
	}
}

// know takes a place out of the strangers'. The caller holds p.mu.
func (p *places) know(c *conn) {
	if c.unknown != nil {
		c.at.strangers.Remove(c.unknown)
		c.unknown = nil
		p.strangers--
	}
}

// Close closes the connection and frees its place.
func (c *conn) Close() error {
	c.all.mu.Lock()
	c.all.leave(c)
	c.all.mu.Unlock()
	return c.Conn.Close()
}

// admit notes that a paired device uses the connection. A nil conn, of a listener
// without limits, stays as it is.
func (c *conn) admit() {
	if c == nil {
		return
	}
	c.all.mu.Lock()
	defer c.all.mu.Unlock()
	c.all.know(c)
}

// isKnown reports whether a paired device uses the connection; true for a nil conn.
func (c *conn) isKnown() bool {
	if c == nil {
		return true
	}
	c.all.mu.Lock()
	defer c.all.mu.Unlock()
	return c.unknown == nil
}

// network returns where a connection comes from; ok is false for a network that has no
// addresses.
func network(a net.Addr) (from netip.Prefix, ok bool) {
	tcp, ok := a.(*net.TCPAddr)
	if !ok {
		return from, false
	}
	ip := tcp.AddrPort().Addr().Unmap().WithZone("")
	bits := ip.BitLen()
	if ip.Is6() {
		bits = 64
	}
	from, err := ip.Prefix(bits)
	return from, err == nil
}

type placeKey struct{}

// withPlace is http.Server.ConnContext: requests know their connection's place.
func withPlace(ctx context.Context, c net.Conn) context.Context {
	if t, ok := c.(*tls.Conn); ok {
		c = t.NetConn()
	}
	if p, ok := c.(*conn); ok {
		return context.WithValue(ctx, placeKey{}, p)
	}
	return ctx
}

// placeOf returns the place of a request's connection, nil where there are no limits.
func placeOf(r *http.Request) *conn {
	p, _ := r.Context().Value(placeKey{}).(*conn)
	return p
}
