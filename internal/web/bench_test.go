package web_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/hub"
	"hobside/internal/web"
)

// spread reports the median, the 99th percentile and the longest of some times.
func spread(b *testing.B, took []time.Duration) {
	slices.Sort(took)
	at := func(p float64) float64 {
		return float64(took[min(len(took)-1, int(p*float64(len(took))))].Microseconds()) / 1000
	}
	b.ReportMetric(at(0.50), "p50-ms")
	b.ReportMetric(at(0.99), "p99-ms")
	b.ReportMetric(at(1), "max-ms")
}

// BenchmarkPush is one phone that ticks and waits until the tick is on disk.
func BenchmarkPush(b *testing.B) {
	s := newSite(b, nil)
	var took []time.Duration
	for n := 0; b.Loop(); n++ {
		body := tap(s, event(n))
		began := time.Now()
		reply := post(b, http.DefaultClient, s.url, body)
		took = append(took, time.Since(began))
		require.Len(b, reply.Acked, 1)
	}
	spread(b, took)
}

// tap returns the request of a phone that has the whole log and ticks once.
func tap(s *site, event string) string {
	at, _ := s.hub.Watch()
	return fmt.Sprintf(`{"device":"phone-a","epoch":"%s","after":"%d","events":[%s],"files":[]}`, at.Epoch, at.Seq, event)
}

func post(t testing.TB, c *http.Client, url, body string) hub.Reply {
	res, err := c.Post(url+"/api/sync", "application/json", strings.NewReader(body))
	if !assert.NoError(t, err) {
		return hub.Reply{}
	}
	defer res.Body.Close()
	var reply hub.Reply
	assert.NoError(t, json.NewDecoder(res.Body).Decode(&reply))
	return reply
}

// BenchmarkPhones has 200 phones with open streams, each of which ticks twice a
// second. It measures the time from one phone's tick until another phone has it.
func BenchmarkPhones(b *testing.B) {
	const phones, pace = 200, time.Second / 400
	s := newSite(b, nil)
	client := &http.Client{Transport: &http.Transport{MaxIdleConns: 2 * phones, MaxIdleConnsPerHost: 2 * phones}}
	var tapped sync.Map // id -> time
	var mu sync.Mutex
	var took []time.Duration
	var seen atomic.Int64
	ctx, cancel := context.WithCancel(context.Background())
	var wg, ready sync.WaitGroup
	ready.Add(phones)
	defer func() { cancel(); wg.Wait() }()
	for n := range phones {
		req, err := http.NewRequestWithContext(ctx, "GET", s.url+"/api/stream", nil)
		require.NoError(b, err)
		res, err := client.Do(req)
		require.NoError(b, err)
		wg.Go(func() {
			defer res.Body.Close()
			epoch, after := "", "0"
			open := sync.OnceFunc(ready.Done)
			for lines := bufio.NewScanner(res.Body); lines.Scan(); {
				data, ok := strings.CutPrefix(lines.Text(), "data: ")
				if !ok {
					continue
				}
				open()
				var at hub.Position
				if json.Unmarshal([]byte(data), &at) != nil || fmt.Sprint(at.Seq) == after {
					continue
				}
				for more := true; more && ctx.Err() == nil; {
					reply := post(b, client, s.url, fmt.Sprintf(`{"device":"phone-%d","epoch":"%s","after":"%s"}`, n, epoch, after))
					now := time.Now()
					mu.Lock()
					for _, ev := range reply.Events {
						if at, ok := tapped.Load(ev.ID); ok {
							took = append(took, now.Sub(at.(time.Time)))
						}
						seen.Add(1)
					}
					mu.Unlock()
					epoch, after, more = reply.Epoch, reply.Next, reply.More
				}
			}
		})
	}
	ready.Wait()
	clock := time.NewTicker(pace)
	defer clock.Stop()
	total := 0
	var pushes sync.WaitGroup
	for b.Loop() {
		total++
		ev := event(total)
		tapped.Store(fmt.Sprintf("event-%06d", total), time.Now())
		pushes.Go(func() {
			reply := post(b, client, s.url, tap(s, ev))
			assert.Equal(b, 1, len(reply.Acked))
		})
		<-clock.C
	}
	pushes.Wait()
	require.Eventually(b, func() bool { return seen.Load() >= int64(total*phones) }, 10*time.Second, time.Millisecond, "a tick was lost")
	mu.Lock()
	defer mu.Unlock()
	spread(b, took)
}

// BenchmarkFanOut has 200 open streams. One phone ticks; measured is the time
// until every stream has brought the tick.
func BenchmarkFanOut(b *testing.B) {
	const phones = 200
	s := newSite(b, func(c *web.Config) { c.Gap = time.Nanosecond }) // no wait for more to say
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: phones}}
	ctx, cancel := context.WithCancel(context.Background())
	var wg sync.WaitGroup
	defer func() { cancel(); wg.Wait() }()
	at, _ := s.hub.Watch()
	got := make(chan struct{}, phones)
	for range phones {
		req, err := http.NewRequestWithContext(ctx, "GET", fmt.Sprintf("%s/api/stream?epoch=%s&after=%d&chain=%s", s.url, at.Epoch, at.Seq, at.Chain), nil)
		require.NoError(b, err)
		res, err := client.Do(req)
		require.NoError(b, err)
		wg.Go(func() {
			defer res.Body.Close()
			for lines := bufio.NewScanner(res.Body); lines.Scan(); {
				if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok && strings.Contains(data, `"from"`) {
					got <- struct{}{}
				}
			}
		})
	}
	arrived := func() {
		for range phones {
			<-got
		}
	}
	arrived() // each stream says at once where the log is
	var took []time.Duration
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		body := tap(s, event(n))
		began := time.Now()
		reply := post(b, client, s.url, body)
		arrived()
		took = append(took, time.Since(began))
		require.Len(b, reply.Acked, 1)
	}
	spread(b, took)
}
