package hub_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkFanOut is the hub's own part of one tick: taking it, and making the
// message for 200 streams. Most of its time is the disk's; the allocations
// and bytes are the hub's and the store's.
func BenchmarkFanOut(b *testing.B) {
	const streams = 200
	h, s, _ := newHub(b)
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		at, _ := h.Watch()
		req := request(b, tick(n, start))
		req.Epoch, req.After = at.Epoch, fmt.Sprint(at.Seq)
		_, err := h.Sync(req)
		require.NoError(b, err)
		for range streams {
			_, message, _ := h.News(s.Epoch(), at.Seq)
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
		req.Epoch, req.After = at.Epoch, fmt.Sprint(at.Seq)
		reply, err := h.Sync(req)
		require.NoError(b, err)
		require.Len(b, reply.Acked, 100)
	}
}
