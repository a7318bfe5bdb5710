package web_test

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"runtime/debug"
	"runtime/metrics"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// BenchmarkAbuse has eight connections of one paired phone, or of strangers, do the same
// heavy thing without a pause while another phone ticks. It reports the longest wait of
// a tick and the most memory that the whole process held, with the eight clients in it.
func BenchmarkAbuse(b *testing.B) {
	long := strings.Repeat("- 100 g of an item with a long name, in a long line of the formula\n", 5000)
	edit := func(n int) string {
		text := strings.Replace(long, "100 g", fmt.Sprint(n, " g"), n%4000+1)
		return asked(b, hub.Request{Files: offers(hub.Offer{ID: fmt.Sprintf("edit-%07d", n), Name: "long.md", Base: dinner.Revision(long), Text: text})})
	}
	for _, abuse := range []struct {
		name, path string
		body       func(n int) string
		before     int // plans in the log, each of about 200 kB
		stranger   bool
	}{
		{name: "whole log read", path: "/api/sync", body: func(int) string { return asked(b, hub.Request{}) }, before: 60},
		{name: "long texts merged", path: "/api/sync", body: edit},
		{name: "large junk", path: "/api/sync", body: func(int) string { return `{"events":[` + strings.Repeat(`{},`, 300_000) + `{}]}` }},
		{name: "deep junk", path: "/api/sync", body: func(int) string { return strings.Repeat("[", 900_000) }},
		{name: "wrong codes", path: "/api/pair", body: func(n int) string { return fmt.Sprintf(`{"code":"%08d","name":"x"}`, n) }, stranger: true},
	} {
		b.Run(abuse.name, func(b *testing.B) {
			g := newGated(b, nil)
			phone, other := g.pair("cook"), g.pair("cook")
			for n := range abuse.before {
				require.Equal(b, 200, other.send("/api/sync", asked(b, hub.Request{Events: []json.RawMessage{largePlan(n)}})))
			}
			if !abuse.stranger && abuse.before == 0 {
				other.send("/api/sync", asked(b, hub.Request{Files: offers(hub.Offer{ID: "offer-0000001", Name: "long.md", Text: long})}))
			}
			if abuse.stranger {
				other = g.browser()
			}
			debug.FreeOSMemory()
			var stop atomic.Bool
			var most, requests atomic.Uint64
			var all sync.WaitGroup
			for c := range 8 {
				all.Go(func() {
					for n := c; !stop.Load(); n += 8 {
						other.send(abuse.path, abuse.body(n))
						requests.Add(1)
					}
				})
			}
			all.Go(func() {
				for !stop.Load() {
					most.Store(max(most.Load(), held()))
				}
			})
			var took []time.Duration
			for n := 0; b.Loop(); n++ {
				began := time.Now()
				require.NoError(b, phone.tick(1_000_000+n))
				took = append(took, time.Since(began))
			}
			stop.Store(true)
			all.Wait()
			spread(b, took)
			b.ReportMetric(float64(most.Load())/1e6, "MB-most")
			b.ReportMetric(float64(requests.Load()), "requests")
		})
	}
}

// held returns how many bytes of memory Go holds from the system.
func held() uint64 {
	s := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	metrics.Read(s)
	return s[0].Value.Uint64() - s[1].Value.Uint64()
}

// asked returns the body of a sync of a phone that has nothing yet.
func asked(b *testing.B, req hub.Request) string {
	req.Device, req.After = "phone-b", "0"
	if req.Events == nil {
		req.Events = []json.RawMessage{}
	}
	if req.Files == nil {
		req.Files = []json.RawMessage{}
	}
	body, err := json.Marshal(req)
	require.NoError(b, err)
	return string(body)
}

func offers(o hub.Offer) []json.RawMessage {
	offer, _ := json.Marshal(o)
	return []json.RawMessage{offer}
}

// largePlan returns an event with a plan of 1,800 steps.
func largePlan(n int) json.RawMessage {
	plan := map[string]int{}
	for i := range 1800 {
		plan[fmt.Sprintf("%s#1/step/%d", strings.Repeat("stock-", 15)+"x", i+1)] = i
	}
	ev, _ := json.Marshal(dinner.Event{ID: fmt.Sprintf("plan-%07d", n), Dinner: "boathouse", Device: "phone-b", Kind: dinner.KindPlan,
		Stamp: dinner.Stamp{Wall: start.UnixMilli()}, Plan: plan})
	return ev
}

// send posts a body, reads the reply and returns its status, 0 when there was none.
func (b *browser) send(path, body string) int {
	req, err := http.NewRequest("POST", b.g.lan+path, strings.NewReader(body))
	if err != nil {
		return 0
	}
	req.Header.Set("Content-Type", "application/json")
	if b.cookie != "" {
		req.Header.Set("Cookie", "__Host-hobside="+b.cookie)
	}
	res, err := b.client.Do(req)
	if err != nil {
		return 0
	}
	defer res.Body.Close()
	io.Copy(io.Discard, res.Body)
	return res.StatusCode
}
