package web

import (
	"fmt"
	"net"
	"net/netip"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A fakeConn comes from an address and does nothing else.
type fakeConn struct {
	net.Conn
	from string
}

func (c fakeConn) RemoteAddr() net.Addr {
	return net.TCPAddrFromAddrPort(netip.AddrPortFrom(netip.MustParseAddr(c.from), 40_000))
}
func (fakeConn) Close() error { return nil }

// patient returns places where all strangers have stayed long enough when the next
// connection comes.
func patient(limits Limits) *places {
	p := limited(nil, limits).(*places)
	at := time.Unix(0, 0)
	p.now = func() time.Time { at = at.Add(shareStay * time.Second); return at }
	return p
}

// A newcomer with a small share of the places waits until a stranger has had time for a
// handshake; one with a large share, five times as long.
func TestStrangersStayLongEnoughForAHandshake(t *testing.T) {
	p := limited(nil, Limits{Strangers: 6}).(*places)
	at := time.Unix(0, 0)
	p.now = func() time.Time { return at }
	entered := func(from string) bool { c, _ := p.enter(fakeConn{from: from}); return c != nil }
	for range 4 {
		require.True(t, entered("192.168.1.2"))
	}
	for range 2 {
		require.True(t, entered("192.168.1.3"))
	}
	assert.False(t, entered("192.168.1.1"), "all have just come")
	at = at.Add(time.Second)
	assert.True(t, entered("192.168.1.1"))
	assert.False(t, entered("192.168.1.2"), "it has its share")
	assert.False(t, entered("192.168.1.3"), "it has more than half as many as the fullest")
	at = at.Add(4 * time.Second)
	assert.True(t, entered("192.168.1.2"))
}

// TestPlacesOfPairedDevicesAreNeverTaken opens, admits and closes connections from a few
// addresses in any order. No limit is exceeded, a place is taken from strangers only, and
// a connection is turned away only where every place it could take is a paired device's.
func TestPlacesOfPairedDevicesAreNeverTaken(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limits := Limits{All: rapid.IntRange(2, 8).Draw(t, "all"), Each: rapid.IntRange(1, 4).Draw(t, "each"), Strangers: rapid.IntRange(1, 5).Draw(t, "strangers")}
		p := patient(limits)
		var open []*conn
		count := func(of func(*conn) bool) (n int) {
			for _, c := range open {
				if of(c) {
					n++
				}
			}
			return n
		}
		remove := func(gone *conn) {
			for i, c := range open {
				if c == gone {
					open = append(open[:i], open[i+1:]...)
					return
				}
			}
			t.Fatalf("a place was taken from a closed connection")
		}
		t.Repeat(map[string]func(*rapid.T){
			"connect": func(t *rapid.T) {
				from := fmt.Sprintf("192.168.1.%d", rapid.IntRange(1, 4).Draw(t, "address"))
				at, _ := network(fakeConn{from: from}.RemoteAddr())
				own := count(func(c *conn) bool { return c.at.from == at })
				ownStrangers := count(func(c *conn) bool { return c.at.from == at && !c.isKnown() })
				strangers := count(func(c *conn) bool { return !c.isKnown() })
				entered, evicted := p.enter(fakeConn{from: from})
				if evicted != nil {
					assert.Nil(t, evicted.unknown)
					remove(evicted)
				}
				switch {
				case own >= limits.Each:
					assert.Equal(t, ownStrangers > 0, entered != nil)
				case len(open) >= limits.All && evicted == nil:
					assert.Zero(t, strangers)
					assert.Nil(t, entered)
				default:
					assert.NotNil(t, entered)
				}
				if entered != nil {
					open = append(open, entered)
				}
			},
			"admit": func(t *rapid.T) {
				if len(open) > 0 {
					rapid.SampledFrom(open).Draw(t, "connection").admit()
				}
			},
			"close": func(t *rapid.T) {
				if len(open) > 0 {
					c := rapid.SampledFrom(open).Draw(t, "connection")
					remove(c)
					require.NoError(t, c.Close())
					require.NoError(t, c.Close(), "it is counted once")
				}
			},
			"": func(t *rapid.T) {
				strangers := count(func(c *conn) bool { return !c.isKnown() })
				assert.Equal(t, len(open), p.open)
				assert.Equal(t, strangers, p.strangers)
				assert.LessOrEqual(t, len(open), limits.All)
				assert.LessOrEqual(t, strangers, limits.Strangers)
				for _, c := range open {
					assert.LessOrEqual(t, c.at.open, limits.Each)
					assert.Same(t, c.at, p.by[c.at.from])
				}
			},
		})
	})
}

// Strangers who hold all of their places lose the oldest of the address with the most.
func TestFullestAddressLosesItsOldestPlace(t *testing.T) {
	p := patient(Limits{All: 10, Each: 10, Strangers: 4})
	enter := func(from string) (entered, evicted *conn) { return p.enter(fakeConn{from: from}) }
	phone, _ := enter("192.168.1.1")
	first, _ := enter("192.168.1.2")
	second, _ := enter("192.168.1.2")
	enter("192.168.1.3")
	_, evicted := enter("192.168.1.4")
	assert.Same(t, first, evicted)
	_, evicted = enter("192.168.1.4")
	assert.Same(t, phone, evicted, "where all have one, the oldest of all goes")
	_, evicted = enter("192.168.1.4")
	assert.Equal(t, "192.168.1.4", evicted.Conn.(fakeConn).from, "who has the most loses one to himself")
	assert.False(t, second.left)
}

// One machine has as many IPv6 addresses as it likes in its network of 64 bits.
func TestAddressesOfOneIPv6NetworkCountAsOne(t *testing.T) {
	p := patient(Limits{Each: 2})
	one, _ := p.enter(fakeConn{from: "fd00::1:1"})
	two, _ := p.enter(fakeConn{from: "fd00::2:2"})
	assert.Same(t, one.at, two.at)
	other, _ := p.enter(fakeConn{from: "fd00:0:0:1::1"})
	assert.NotSame(t, one.at, other.at)
	_, evicted := p.enter(fakeConn{from: "fd00::3:3"})
	assert.Same(t, one, evicted)
	mapped, _ := p.enter(fakeConn{from: "::ffff:192.168.1.1"})
	plain, _ := p.enter(fakeConn{from: "192.168.1.1"})
	assert.Same(t, mapped.at, plain.at)
}
