package hub_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// bulky returns a plan of as many steps as an event takes.
func bulky(n, steps int) dinner.Event {
	plan := map[string]int{}
	for i := range steps {
		plan[fmt.Sprintf("%s#1/step/%d", strings.Repeat("stock-", 15)+"x", i+1)] = i
	}
	return dinner.Event{ID: fmt.Sprintf("event-%06d", n), Dinner: "boathouse", Device: "phone-a", Kind: dinner.KindPlan,
		Stamp: dinner.Stamp{Wall: start.UnixMilli()}, Plan: plan}
}

// TestNoReplyIsOverItsBound sends large events and texts, reads them, and repeats them
// with other stamps, which brings the stored ones back. Every reply keeps its bound, and
// a phone that repeats what was not acknowledged ends with everything.
func TestNoReplyIsOverItsBound(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h, s, _ := newHub(t)
		waiting, names, largest := map[string]any{}, map[string]bool{}, 0
		for n := range rapid.IntRange(2, 6).Draw(rt, "records") {
			if rapid.Bool().Draw(rt, "plan") {
				ev := bulky(n, rapid.IntRange(1, 1500).Draw(rt, "steps"))
				waiting[ev.ID], names[ev.ID] = ev, true
			} else {
				o := hub.Offer{ID: fmt.Sprintf("offer-%06d", n), Name: fmt.Sprintf("card-%d.md", n), Text: strings.Repeat("<", rapid.IntRange(1, hub.MaxText/6).Draw(rt, "text"))}
				waiting[o.ID], names[o.Name] = o, true
			}
		}
		repeat := map[string]any{}
		for id, what := range waiting {
			largest = max(largest, len(raw(rt, what))+1000)
			if ev, ok := what.(dinner.Event); ok {
				ev.Stamp.Count++
				what = ev
			}
			repeat[id] = what
		}
		got, next := map[string]bool{}, "0"
		ask := func(req hub.Request) hub.Reply {
			reply, err := h.Sync(req)
			require.NoError(rt, err)
			b, err := json.Marshal(reply)
			require.NoError(rt, err)
			require.LessOrEqual(rt, len(b), 1<<20+2*largest)
			for _, ev := range reply.Events {
				got[ev.ID] = true
			}
			for _, f := range reply.Files {
				got[f.Name] = true
			}
			return reply
		}
		for _, round := range []map[string]any{waiting, repeat} {
			total := len(round)
			for tries := 0; len(round) > 0; tries++ {
				require.LessOrEqual(rt, tries, total, "each reply must acknowledge something")
				var what []any
				for _, id := range slices.Sorted(maps.Keys(round)) {
					what = append(what, round[id])
				}
				req := request(rt, what...)
				req.Epoch, req.After = s.Epoch(), next
				reply := ask(req)
				require.Empty(rt, reply.Refused)
				require.NotEmpty(rt, reply.Acked)
				for _, id := range reply.Acked {
					delete(round, id)
				}
				next = reply.Next
			}
		}
		clear(got)
		for more, after := true, "0"; more; {
			reply := ask(hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: after})
			require.NotEqual(rt, after, reply.Next)
			more, after = reply.More, reply.Next
		}
		require.Equal(rt, names, got)
	})
}

// TestLargePlansAreReadAndRepeatedInPages: twenty plans of about 200 kB each are far
// more than one reply holds, both when another phone reads them from memory and when
// their phone repeats all of them.
func TestLargePlansAreReadAndRepeatedInPages(t *testing.T) {
	h, s, _ := newHub(t)
	var again []any
	size := 0
	for n := range 20 {
		ev := bulky(n, 1800)
		size = max(size, len(raw(t, ev)))
		reply, err := h.Sync(request(t, ev))
		require.NoError(t, err)
		require.Equal(t, []string{ev.ID}, reply.Acked)
		ev.Stamp.Count++ // the phone has it otherwise, so the stored one comes back
		again = append(again, ev)
	}
	require.Greater(t, 20*size, 3<<20, "the plans must be more than three replies hold")
	fits := func(reply hub.Reply) {
		t.Helper()
		b, err := json.Marshal(reply)
		require.NoError(t, err)
		require.LessOrEqual(t, len(b), 1<<20+2*(size+1000))
	}

	read := map[string]bool{}
	for more, after := true, "0"; more; {
		reply, err := h.Sync(hub.Request{Device: "phone-b", Epoch: s.Epoch(), After: after})
		require.NoError(t, err)
		fits(reply)
		for _, ev := range reply.Events {
			read[ev.ID] = true
		}
		require.NotEqual(t, after, reply.Next)
		more, after = reply.More, reply.Next
	}
	require.Len(t, read, 20)

	req := request(t, again...)
	newest, err := h.Sync(hub.Request{Device: "phone-a", Epoch: s.Epoch(), After: "20"})
	require.NoError(t, err)
	req.Epoch, req.After = s.Epoch(), newest.Next // only the repeats come back
	reply, err := h.Sync(req)
	require.NoError(t, err)
	fits(reply)
	require.NotEmpty(t, reply.Events)
	require.Less(t, len(reply.Acked), 20, "what does not fit is left for the next request")
}
