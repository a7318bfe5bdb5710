package hub_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// news is a message of the stream as a phone reads it.
type news struct {
	hub.Position
	From   *uint64        `json:"from,string"` // nil: the phone must fetch
	Chains []string       `json:"chains"`
	Events []dinner.Event `json:"events"`
}

// place returns the place of a phone that has the log of a store up to a sequence number.
func place(t require.TestingT, s *store.Store, epoch string, after uint64) hub.Position {
	at := hub.Position{Epoch: epoch, Seq: after}
	require.NoError(t, s.View(func(tx *store.Tx) error {
		if chain, ok := tx.Chain(after); ok {
			at.Chain = chain.String()
		}
		return nil
	}))
	return at
}

func TestMessageBringsFewNewEvents(t *testing.T) {
	h, s, _ := newHub(t)
	sync1(t, h, request(t, tick(1, start), tick(2, start)))
	read := func(epoch string, after uint64) news {
		_, message, _ := h.News(place(t, s, epoch, after))
		var n news
		require.NoError(t, json.Unmarshal(message, &n))
		assert.EqualValues(t, s.Epoch(), n.Epoch)
		return n
	}
	n := read(s.Epoch(), 1)
	require.NotNil(t, n.From)
	assert.EqualValues(t, 1, *n.From)
	assert.EqualValues(t, 2, n.Seq)
	assert.Equal(t, []dinner.Event{tick(2, start)}, n.Events)
	assert.Equal(t, []string{place(t, s, "", 1).Chain, n.Chain}, n.Chains, "at from and at each record after it")
	assert.Equal(t, place(t, s, "", 2).Chain, n.Chain)
	other := place(t, s, s.Epoch(), 1)
	other.Chain = place(t, s, "", 2).Chain
	_, message, _ := h.News(other)
	assert.NotContains(t, string(message), "from", "a phone of another history must fetch")
	n = read(s.Epoch(), 2)
	require.NotNil(t, n.From)
	assert.Empty(t, n.Events)
	for name, n := range map[string]news{"another epoch": read("other", 1), "beyond the end": read(s.Epoch(), 9)} {
		assert.Nil(t, n.From, name)
		assert.Empty(t, n.Events, name)
	}
	_, _, moved := h.News(place(t, s, s.Epoch(), 2))
	sync1(t, h, request(t, hub.Offer{ID: "offer-0001", Name: "stock.md", Text: "# Stock\n"}))
	<-moved
	assert.Nil(t, read(s.Epoch(), 2).From, "a file must be fetched")
	assert.EqualValues(t, 3, read(s.Epoch(), 2).Seq)
	sync1(t, h, request(t, tick(4, start)))
	assert.Len(t, read(s.Epoch(), 3).Events, 1)
	long := []any{}
	for i := range 30 {
		long = append(long, ev("note-0001"+string(rune('a'+i%26))+string(rune('a'+i/26)), dinner.KindNote, "", func(e *dinner.Event) { e.Text = strings.Repeat("x", 3900) }))
	}
	sync1(t, h, request(t, long...))
	assert.Nil(t, read(s.Epoch(), 4).From, "many records must be fetched, in pages")
}
