//go:build browser

package main

import (
	"io"
	"net"
	"net/url"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// frontDoor is the address at which every phone finds its server, whichever port that
// listens at: what a browser keeps of an app belongs to the address.
const frontDoor = "127.0.0.1:7700"

// A door leads from frontDoor to the server that a phone visited last. Where no server
// listens, it closes the connection.
type door struct {
	listener net.Listener
	server   atomic.Pointer[string]
}

func newDoor(t testing.TB) *door {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	t.Cleanup(func() { l.Close() })
	d := &door{listener: l}
	go func() {
		for {
			from, err := l.Accept()
			if err != nil {
				return
			}
			go d.pass(from)
		}
	}()
	return d
}

// rule is how a browser is told of the door.
func (d *door) rule() string { return "MAP " + frontDoor + " " + d.listener.Addr().String() }

// leadsTo makes the door lead to the server of an address, and returns that address as
// the browser has it. Only plain HTTP goes by the door.
func (d *door) leadsTo(address string) string {
	u, err := url.Parse(address)
	if err != nil || u.Scheme != "http" {
		return address
	}
	server := u.Host
	d.server.Store(&server)
	u.Host = frontDoor
	return u.String()
}

func (d *door) pass(from net.Conn) {
	defer from.Close()
	server := d.server.Load()
	if server == nil {
		return
	}
	to, err := net.Dial("tcp", *server)
	if err != nil {
		return
	}
	defer to.Close()
	go func() {
		_, _ = io.Copy(to, from)
		to.Close()
		from.Close()
	}()
	_, _ = io.Copy(from, to)
}
