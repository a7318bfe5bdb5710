package web

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOneSyncOfADeviceAtATime(t *testing.T) {
	var all turns
	first := all.take(t.Context(), "phone-a")
	require.NotNil(t, first)
	other := all.take(t.Context(), "phone-b")
	require.NotNil(t, other, "another device does not wait")
	other()

	got := make(chan func())
	for range maxWaiting {
		go func() { got <- all.take(t.Context(), "phone-a") }()
	}
	for waiting := 0; waiting <= maxWaiting; {
		all.mu.Lock()
		waiting = all.of["phone-a"].in
		all.mu.Unlock()
	}
	assert.Nil(t, all.take(t.Context(), "phone-a"), "one more than may wait")
	select {
	case <-got:
		require.Fail(t, "two at a time")
	default:
	}
	end := first
	for range maxWaiting {
		end()
		end = <-got
		require.NotNil(t, end)
	}
	end()
	assert.Empty(t, all.of, "a device of which nothing is left is forgotten")
}

func TestDeviceThatGivesUpLosesItsTurn(t *testing.T) {
	var all turns
	first := all.take(t.Context(), "phone-a")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	assert.Nil(t, all.take(ctx, "phone-a"))
	first()
	assert.Empty(t, all.of)
}
