package hub_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// TestWantedTextsAreSent: a phone that has all records gets the text of a revision
// again, also of one that is no longer the newest. What the server does not know is
// left out.
func TestWantedTextsAreSent(t *testing.T) {
	h, _, _ := newHub(t)
	first, second := "# Stock\n", "# Stock\n\nSimmer.\n"
	reply, err := h.Sync(request(t, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: first}))
	require.NoError(t, err)
	reply, err = h.Sync(request(t, hub.Offer{ID: "offer-0002", Name: "stock.md", Base: dinner.Revision(first), Text: second}))
	require.NoError(t, err)

	req := request(t)
	req.Epoch, req.After, req.Want = reply.Epoch, reply.Next, []string{dinner.Revision(first), dinner.Revision(second), dinner.Revision("other"), "", "no revision"}
	got, err := h.Sync(req)
	require.NoError(t, err)
	assert.Empty(t, got.Files, "nothing new")
	assert.Equal(t, []hub.WantedText{{Revision: dinner.Revision(first), Text: first}, {Revision: dinner.Revision(second), Text: second}}, got.Texts)
}

// TestWantedTextsAreBounded asks for many large texts: a reply has as many as fit, and
// the first in any case.
func TestWantedTextsAreBounded(t *testing.T) {
	h, _, _ := newHub(t)
	var want []string
	for i := range 5 {
		text := fmt.Sprintf("# Card %d\n\n%s\n", i, strings.Repeat("a line of a long card\n", 15_000))
		_, err := h.Sync(request(t, hub.Offer{ID: fmt.Sprintf("offer-%04d", i), Name: fmt.Sprintf("card-%d.md", i), Text: text}))
		require.NoError(t, err)
		want = append(want, dinner.Revision(text))
	}
	req := request(t)
	req.Want = want
	reply, err := h.Sync(req)
	require.NoError(t, err)
	assert.NotEmpty(t, reply.Texts)
	assert.Less(t, len(reply.Texts), 5)
	b, err := json.Marshal(reply)
	require.NoError(t, err)
	assert.Less(t, len(b), 2<<20)

	many, err := json.Marshal(map[string]any{"device": "phone-a", "want": make([]string, hub.MaxWanted+1)})
	require.NoError(t, err)
	_, err = hub.ReadRequest(many)
	assert.ErrorIs(t, err, hub.ErrRequest)
}

// TestTextDamagedOnThePhoneIsRefused: an offer whose text is not what its revision names.
func TestTextDamagedOnThePhoneIsRefused(t *testing.T) {
	h, _, _ := newHub(t)
	whole := hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "120 g salt\n", Revision: dinner.Revision("120 g salt\n")}
	damaged := hub.Offer{ID: "offer-0002", Name: "soup.md", Text: "920 g salt\n", Revision: dinner.Revision("120 g salt\n")}
	reply, err := h.Sync(request(t, whole, damaged))
	require.NoError(t, err)
	assert.Equal(t, []string{"offer-0001"}, reply.Acked)
	require.Len(t, reply.Refused, 1)
	assert.Equal(t, "offer-0002", reply.Refused[0].ID)
	assert.Contains(t, reply.Refused[0].Why, "damaged on the phone")
}
