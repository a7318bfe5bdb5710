package hub_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// BenchmarkFanOut is the hub's own part of one tick: taking it, and making the
// message for 200 streams. Most of its time is the disk's; the allocations
// and bytes are the hub's and the store's.
func BenchmarkFanOut(b *testing.B) {
	const streams = 200
	h, _, _ := newHub(b)
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		at, _ := h.Watch()
		req := request(b, tick(n, start))
		req.Epoch, req.After, req.Chain = at.Epoch, fmt.Sprint(at.Seq), &at.Chain
		_, err := h.Sync(req)
		require.NoError(b, err)
		for range streams {
			_, message, _ := h.News(at)
			require.NotEmpty(b, message)
		}
	}
}

// BenchmarkPush is 100 ticks of one phone in one request.
func BenchmarkPush(b *testing.B) {
	h, _, _ := newHub(b)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		var events []any
		for range 100 {
			n++
			events = append(events, tick(n, start))
		}
		at, _ := h.Watch()
		req := request(b, events...)
		req.Epoch, req.After, req.Chain = at.Epoch, fmt.Sprint(at.Seq), &at.Chain
		reply, err := h.Sync(req)
		require.NoError(b, err)
		require.Len(b, reply.Acked, 100)
	}
}

// BenchmarkTickBesideMerges is a tick while another phone sends edits of one large card
// that are to be merged, without a pause.
func BenchmarkTickBesideMerges(b *testing.B) {
	h, _, _ := newHub(b)
	var card strings.Builder
	for i := range 6000 {
		fmt.Fprintf(&card, "- %d g of item number %d, in a long line of the formula\n", i, i)
	}
	text := card.String()
	at := func(req hub.Request) hub.Request {
		end, _ := h.Watch()
		req.Epoch, req.After, req.Chain = end.Epoch, fmt.Sprint(end.Seq), &end.Chain
		return req
	}
	sync1(b, h, at(request(b, offer("offer-0001", "", text))))
	stop, stopped := make(chan struct{}), make(chan int)
	go func() {
		n := 0
		for ; ; n++ {
			select {
			case <-stop:
				stopped <- n
				return
			default:
			}
			line := fmt.Sprintf("- %d g of item", n%150*40)
			h.Sync(at(request(b, offer(fmt.Sprintf("edit-%05d", n), dinner.Revision(text), strings.Replace(text, line, fmt.Sprint(line, " ", n, ":"), 1)))))
		}
	}()
	longest := time.Duration(0)
	for n := 0; b.Loop(); n++ {
		began := time.Now()
		sync1(b, h, at(request(b, tick(n, start))))
		longest = max(longest, time.Since(began))
	}
	b.ReportMetric(float64(longest.Milliseconds()), "ms-longest")
	close(stop)
	b.ReportMetric(float64(<-stopped), "edits")
}
