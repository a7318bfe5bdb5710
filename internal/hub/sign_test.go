package hub_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// signed returns an event that a device signs as it likes.
func signed(id, device, who string) dinner.Event {
	return ev(id, dinner.KindNote, "", func(e *dinner.Event) { e.Device, e.Who, e.Text = device, who, "skim again" })
}

func TestDeviceSignsOnlyForItself(t *testing.T) {
	helper := store.Device{ID: "helper-paired", Name: "Kit's phone", Role: "helper"}
	cook := store.Device{ID: "cook-paired", Name: "Nora's phone", Role: "cook"}
	long := store.Device{ID: "long-paired", Name: strings.Repeat("é", 60), Role: "helper"}
	for _, tt := range []struct {
		name        string
		by          store.Device
		device, who string // as sent
		wantDevice  string
		wantWho     string
	}{
		{"helper as itself", helper, "phone-a", "", "helper-paired", "Kit's phone"},
		{"helper with the cook's name", helper, "phone-a", "Nora", "helper-paired", "Kit's phone"},
		{"helper with the cook's device", helper, "cook-paired", "Nora", "helper-paired", "Kit's phone"},
		{"cook as itself", cook, "phone-a", "", "cook-paired", "Nora's phone"},
		{"cook whose phone another cook holds", cook, "phone-a", "Ada", "cook-paired", "Ada"},
		{"cook under the server's name for it", cook, "cook-paired", "", "cook-paired", "Nora's phone"},
		{"cook who hands in another phone's event", cook, "phone-b", "Kit", "phone-b", "Kit"},
		{"a name that is longer than an event takes", long, "phone-a", "", "long-paired", strings.Repeat("é", 40)},
		{"the server's own machine", store.Device{}, "phone-b", "Kit", "phone-b", "Kit"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h, s, _ := newHub(t)
			send := func(ev dinner.Event) hub.Reply {
				req := request(t, ev)
				req.From = from(tt.by)
				reply, err := h.Sync(req)
				require.NoError(t, err)
				return reply
			}
			sent := signed("note-00001", tt.device, tt.who)
			reply := send(sent)
			assert.Equal(t, tt.by.ID, reply.Device)
			require.Len(t, reply.Events, 1)
			got := reply.Events[0]
			assert.Equal(t, []string{tt.wantDevice, tt.wantWho}, []string{got.Device, got.Who})
			assert.NoError(t, dinner.Validate(got))

			for _, repeat := range []dinner.Event{sent, got, signed("note-00001", "phone-c", "Eve")} {
				again := send(repeat)
				assert.Equal(t, []string{"note-00001"}, again.Acked, "a repeat")
				assert.Equal(t, []dinner.Event{got}, again.Events, "the first signature stays")
			}
			end := request(t, sent)
			end.From, end.Epoch, end.After = from(tt.by), s.Epoch(), "1"
			after, err := h.Sync(end)
			require.NoError(t, err)
			assert.Equal(t, sent.Device != got.Device || sent.Who != got.Who, len(after.Events) == 1, "the phone gets the event back where its copy differs")
		})
	}
}

func TestFileNamesThePairedDevice(t *testing.T) {
	h, _, _ := newHub(t)
	req := request(t, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"})
	req.From = from(store.Device{ID: "cook-paired", Name: "Nora's phone", Role: "cook"})
	reply, err := h.Sync(req)
	require.NoError(t, err)
	require.Len(t, reply.Files, 1)
	assert.Equal(t, "cook-paired", reply.Files[0].Device)
}
