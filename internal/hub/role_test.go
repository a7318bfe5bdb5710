package hub_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// as sends records as a phone with a role.
func as(t *testing.T, h *hub.Hub, role hub.Role, what ...any) hub.Reply {
	t.Helper()
	req := request(t, what...)
	req.From = from(store.Device{ID: "0123456789abcdef0123", Name: "Nora's phone", Role: string(role)})
	reply, err := h.Sync(req)
	require.NoError(t, err)
	return reply
}

// from returns what looks up a device that is never revoked.
func from(d store.Device) func(*store.Tx) (store.Device, error) {
	return func(*store.Tx) (store.Device, error) { return d, nil }
}

func ev(id string, kind dinner.Kind, on string, change func(*dinner.Event)) dinner.Event {
	e := dinner.Event{ID: id, Dinner: "boathouse", Device: "phone-a", Stamp: dinner.Stamp{Wall: start.UnixMilli()}, Kind: kind, On: on}
	if change != nil {
		change(&e)
	}
	return e
}

func TestHelperRights(t *testing.T) {
	h, _, _ := newHub(t)
	covers := ev("covers-0001", dinner.KindCovers, "", func(e *dinner.Event) { e.Number = 20 })
	as(t, h, hub.Cook, covers, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"})

	takes := []any{
		tick(1, start),
		ev("start-0001", dinner.KindStart, "stock#1/step/1", nil), ev("finish-001", dinner.KindFinish, "stock#1/step/1", nil),
		ev("timer-0001", dinner.KindTimer, "stock#1/step/1", func(e *dinner.Event) { e.Start, e.End = 1, 2 }),
		ev("heat-00001", dinner.KindTemperature, "stock#1/step/1", func(e *dinner.Event) { c := 74.0; e.TempC = &c }),
		ev("delay-0001", dinner.KindDelay, "stock#1/step/1", func(e *dinner.Event) { e.Number = 10 }),
		ev("note-00001", dinner.KindNote, "", func(e *dinner.Event) { e.Text = "skim again" }),
		ev("undo-00001", dinner.KindUndo, "", func(e *dinner.Event) { e.Undo = "event-000001" }),
		ev("undo-00002", dinner.KindUndo, "", func(e *dinner.Event) { e.Undo = "undo-00001" }),
		covers, // sent back: the server has it already
		hub.Offer{ID: "file-" + dinner.Revision("# Stock\n"), Name: "stock.md", Text: "# Stock\n"},
	}
	reply := as(t, h, hub.Helper, takes...)
	assert.Empty(t, reply.Refused)
	assert.Len(t, reply.Acked, len(takes))
	assert.Equal(t, hub.Helper, reply.Role)
	assert.Equal(t, hub.HelperKinds, reply.Kinds, "the phone shows only these")

	refuses := []struct {
		what any
		id   string
		says string
	}{
		{ev("covers-0002", dinner.KindCovers, "", func(e *dinner.Event) { e.Number = 2 }), "covers-0002", "not change what the dinner is"},
		{ev("serve-0001", dinner.KindServe, "", func(e *dinner.Event) { e.Text = "2027-06-12T19:30" }), "serve-0001", "not change what the dinner is"},
		{ev("way-000001", dinner.KindWay, "stock", nil), "way-000001", "not change what the dinner is"},
		{ev("leave-0001", dinner.KindLeave, "stock/item/1", nil), "leave-0001", "not change what the dinner is"},
		{ev("again-0001", dinner.KindAgain, "stock", nil), "again-0001", "not change what the dinner is"},
		{ev("open-00001", dinner.KindOpen, "", func(e *dinner.Event) { e.Open = &dinner.Open{Menu: "m.md"} }), "open-00001", "not change what the dinner is"},
		{ev("plan-00001", dinner.KindPlan, "", func(e *dinner.Event) { e.Plan = map[string]int{"stock#1/step/1": 1} }), "plan-00001", "not change what the dinner is"},
		{ev("shelve-001", dinner.KindShelve, "", func(e *dinner.Event) { e.Number = dinner.Deleted }), "shelve-001", "not change what the dinner is"},
		{ev("pin-000001", dinner.KindPin, "", func(e *dinner.Event) { e.Open = &dinner.Open{Files: map[string]string{"a.md": dinner.Revision("")}} }), "pin-000001", "not change what the dinner is"},
		{ev("undo-00003", dinner.KindUndo, "", func(e *dinner.Event) { e.Undo = "covers-0001" }), "undo-00003", "not change what the dinner is"},
		{ev("undo-00004", dinner.KindUndo, "", func(e *dinner.Event) { e.Undo = "not-here-yet" }), "undo-00004", "try again"},
		{hub.Offer{ID: "offer-0002", Name: "stock.md", Base: dinner.Revision("# Stock\n"), Text: "# Soup\n"}, "offer-0002", "not change cards"},
		{hub.Offer{ID: "offer-0003", Name: "new.md", Text: "# New\n"}, "offer-0003", "not change cards"},
	}
	for _, tt := range refuses {
		reply := as(t, h, hub.Helper, tt.what)
		require.Len(t, reply.Refused, 1, tt.id)
		assert.Equal(t, tt.id, reply.Refused[0].ID)
		assert.Contains(t, reply.Refused[0].Why, tt.says, tt.id)
		assert.Empty(t, reply.Acked)
	}
	// An undo of the cook's undo of covers changes the covers.
	as(t, h, hub.Cook, ev("undo-00005", dinner.KindUndo, "", func(e *dinner.Event) { e.Undo = "covers-0001" }))
	reply = as(t, h, hub.Helper, ev("undo-00006", dinner.KindUndo, "", func(e *dinner.Event) { e.Undo = "undo-00005" }))
	require.Len(t, reply.Refused, 1)
	for _, tt := range refuses { // a cook may send all of them
		reply := as(t, h, hub.Cook, tt.what)
		assert.Equal(t, []string{tt.id}, reply.Acked)
		assert.Empty(t, reply.Kinds)
	}
}

// TestEveryKindHasARole fails for a new kind of event until it is decided whether
// a helper may send it.
func TestEveryKindHasARole(t *testing.T) {
	cooks := []dinner.Kind{dinner.KindOpen, dinner.KindPin, dinner.KindCovers, dinner.KindGuests, dinner.KindServe, dinner.KindWay, dinner.KindLeave, dinner.KindPlate, dinner.KindPortion, dinner.KindAgain, dinner.KindPlan, dinner.KindChange, dinner.KindShelve}
	all := slices.Sorted(slices.Values(append(slices.Clone(cooks), hub.HelperKinds...)))
	assert.Equal(t, kindsInSource(t), all)
}

// kindsInSource returns every constant of type dinner.Kind, sorted.
func kindsInSource(t *testing.T) (kinds []dinner.Kind) {
	t.Helper()
	src, err := os.ReadFile("../dinner/event.go")
	require.NoError(t, err)
	for _, m := range regexp.MustCompile(`(?m)^\tKind\w+\s+Kind = "(\w+)"`).FindAllStringSubmatch(string(src), -1) {
		kinds = append(kinds, dinner.Kind(m[1]))
	}
	require.Len(t, kinds, strings.Count(string(src), " Kind = "), "every constant is read")
	slices.Sort(kinds)
	return kinds
}

func TestRequestCannotSetItsRole(t *testing.T) {
	req, err := hub.ReadRequest([]byte(`{"device":"phone-a","role":"cook","Role":"cook","events":[],"files":[]}`))
	require.NoError(t, err)
	assert.Nil(t, req.From)
	assert.NoError(t, hub.CheckRole("helper"))
	assert.Error(t, hub.CheckRole("owner"))
}
