package engine

import (
	"encoding/json"
	"fmt"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPanicIsAPlainFailure(t *testing.T) {
	var none *Engine
	reported, stack := "", ""
	answer := none.Caught("load", []byte(`{"files":[{"name":"a.md","revision":"1","text":"# A"}]}`), func(cause any) {
		reported, stack = fmt.Sprint(cause), string(debug.Stack())
	})
	var f Failure
	require.NoError(t, json.Unmarshal(answer, &f))
	assert.Equal(t, mistake, f.Error)
	assert.Contains(t, reported, "nil pointer")
	assert.Contains(t, stack, "engine.go", "the stack of the panic")
	assert.JSONEq(t, string(New().Call("load", []byte(`{}`))), string(New().Caught("load", []byte(`{}`), nil)), "a call that works is not changed")
}
