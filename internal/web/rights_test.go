package web_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// TestRightToManageDevicesIsCheckedInTheWrite changes the rights of a cook's phone while
// the body of its request is still coming.
func TestRightToManageDevicesIsCheckedInTheWrite(t *testing.T) {
	for name, tt := range map[string]struct {
		change func(g *gated, id string) error
		status int
	}{
		"revoked":         {func(g *gated, id string) error { return g.gate.Revoke(id) }, 401},
		"made a helper's": {func(g *gated, id string) error { return g.gate.SetRole(id, "helper") }, 403},
	} {
		t.Run(name, func(t *testing.T) {
			g := newGated(t, nil)
			other := g.pair("helper").id()
			for _, path := range []string{"/api/devices", "/api/devices/" + other} {
				phone := g.pair("cook")
				id := phone.id()
				status, body := phone.lateTo(path, `{"role":"cook"}`, func() { assert.NoError(t, tt.change(g, id)) })
				assert.Equal(t, tt.status, status, "%s: %s", path, body)
				assert.NotContains(t, body, `"code"`)
			}
			all, err := g.gate.Devices()
			require.NoError(t, err)
			assert.Equal(t, "helper", all[0].Role)
		})
	}
}

// The code that a cook's phone asked for pairs nobody when that phone is revoked or made
// a helper's, and when it is paired again.
func TestCodeOfDeviceWithoutRightsPairsNobody(t *testing.T) {
	for name, change := range map[string]func(g *gated, id string, secret string) error{
		"revoked":         func(g *gated, id, _ string) error { return g.gate.Revoke(id) },
		"made a helper's": func(g *gated, id, _ string) error { return g.gate.SetRole(id, "helper") },
		"revoked by the command line alone": func(g *gated, id, _ string) error {
			return g.store.Update(func(tx *store.Tx) error { return tx.RemoveDevice(id) })
		},
	} {
		t.Run(name, func(t *testing.T) {
			g := newGated(t, nil)
			phone := g.pair("cook")
			var code web.Code
			require.NoError(t, json.NewDecoder(phone.do("POST", "/api/devices", `{"role":"cook"}`).Body).Decode(&code))
			require.Len(t, code.Code, 8)
			require.NoError(t, change(g, phone.id(), phone.cookie))
			res := g.browser().do("POST", "/api/pair", `{"code":"`+code.Code+`"}`)
			assert.Equal(t, 403, res.StatusCode)
			assert.Empty(t, res.Cookies())
		})
	}
}

// A browser that is paired again has one device, and the streams of the one before end.
func TestPairingAgainReplacesTheDevice(t *testing.T) {
	g := newGated(t, nil)
	phone := g.pair("cook")
	stream := phone.do("GET", "/api/stream", "")
	c, err := g.gate.NewCode("helper")
	require.NoError(t, err)
	res := phone.do("POST", "/api/pair", `{"code":"`+c.Code+`","name":"Nora's phone"}`)
	require.Equal(t, 200, res.StatusCode)
	_, err = io.Copy(io.Discard, stream.Body)
	assert.NoError(t, err)
	assert.Equal(t, 401, phone.do("GET", "/api/me", "").StatusCode, "the old cookie")
	all, err := g.gate.Devices()
	require.NoError(t, err)
	require.Len(t, all, 1)
	assert.Equal(t, "helper", all[0].Role)
}

// An event that reaches the disk together with a revocation does not reach the streams
// of the revoked device.
func TestRevokedStreamGetsNothingWrittenWithTheRevocation(t *testing.T) {
	g := newGated(t, func(c *web.Config) { c.Gap = time.Nanosecond })
	lost := g.pair("cook")
	stream := lost.do("GET", "/api/stream", "").Body
	first := make([]byte, 4096)
	for n := 0; !bytes.Contains(first[:n], []byte("data: ")); {
		m, err := stream.Read(first[n:])
		require.NoError(t, err)
		n += m
	}
	id := lost.id()
	heard := make(chan string, 1)
	_, err := g.store.Follow(func([]store.Written) { // follows the hub: the streams have been told
		var news []byte
		buf := make([]byte, 4096)
		for !bytes.Contains(news, []byte("event: changed")) {
			n, err := stream.Read(buf)
			news = append(news, buf[:n]...)
			if err != nil {
				break
			}
		}
		heard <- string(news)
	})
	require.NoError(t, err)
	// The first write keeps the next two waiting, so that they share a transaction.
	holding, release := make(chan struct{}), make(chan struct{})
	done := make(chan error, 3)
	go func() {
		done <- g.store.Update(func(*store.Tx) error { close(holding); <-release; return nil })
	}()
	<-holding
	go func() { done <- g.gate.Revoke(id) }()
	untilWaiting(t, "web.(*Gate).revoke(")
	go func() {
		req, err := hub.ReadRequest([]byte(push("phone-a", event(7))))
		if err == nil {
			_, err = g.hub.Sync(req)
		}
		done <- err
	}()
	untilWaiting(t, "hub.(*Hub).Sync(")
	close(release)
	assert.NotContains(t, <-heard, fmt.Sprintf("event-%06d", 7))
	for range 3 {
		assert.NoError(t, <-done)
	}
}

// untilWaiting returns when a goroutine inside a function waits for something.
func untilWaiting(t *testing.T, function string) {
	t.Helper()
	require.Eventually(t, func() bool {
		stacks := make([]byte, 1<<20)
		for g := range strings.SplitSeq(string(stacks[:runtime.Stack(stacks, true)]), "\n\n") {
			if strings.Contains(g, function) && strings.Contains(g, " [select") {
				return true
			}
		}
		return false
	}, time.Minute, time.Millisecond)
}

func TestUnknownRoleIsUnauthorized(t *testing.T) {
	g := newGated(t, nil)
	phone := g.pair("cook")
	id := phone.id()
	asOwner := func() error {
		return g.store.Update(func(tx *store.Tx) error {
			return tx.ChangeDevice(id, func(d *store.Device) { d.Role = "owner" })
		})
	}
	status, body := phone.late(push("phone-a", event(1)), func() { assert.NoError(t, asOwner()) })
	assert.Equal(t, 401, status, body)
	for _, ask := range [][2]string{{"GET", "/api/me"}, {"POST", "/api/sync"}, {"GET", "/api/stream"}, {"GET", "/api/devices"}} {
		assert.Equal(t, 401, phone.do(ask[0], ask[1], "").StatusCode, ask)
	}
	assert.Equal(t, 200, phone.do("GET", "/", "").StatusCode, "the app's files are for everyone")
	assert.Empty(t, g.sync(push("phone-a")).Events)
}
