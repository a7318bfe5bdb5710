package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// built compiles testdata/panics as the engine is.
func built(t testing.TB) []byte {
	t.Helper()
	out := filepath.Join(t.TempDir(), "panics.wasm")
	c := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-o", out, "./testdata/panics")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	text, err := c.CombinedOutput()
	require.NoError(t, err, string(text))
	module, err := os.ReadFile(out)
	require.NoError(t, err)
	return module
}

// tables reads, for every function, what the runtime must still find: its name,
// its stack depths, and all the collector and recover ask.
func tables(t *testing.T, module []byte) (all []string, lines int) {
	t.Helper()
	m, err := dataOf(module)
	require.NoError(t, err)
	head, err := m.pcHeader()
	require.NoError(t, err)
	names, pctab, funcs := head+m.u32(head+32), head+m.u32(head+56), head+m.u32(head+64)
	table := func(at int) string {
		if at == 0 {
			return "-"
		}
		var b strings.Builder
		for i := pctab + at; i < m.tableEnd(pctab+at); i++ {
			b.WriteByte(m.u8(i))
		}
		return b.String()
	}
	for i := range m.u32(head + 8) {
		f := funcs + m.u32(funcs+8*i+4)
		var name strings.Builder
		for at := names + m.u32(f+4); m.u8(at) != 0; at++ {
			name.WriteByte(m.u8(at))
		}
		all = append(all, name.String(), table(m.u32(f+16)))
		for k := range m.u32(f + 28) {
			all = append(all, table(m.u32(f+44+4*k)))
		}
		if m.u32(f+20) != 0 || m.u32(f+24) != 0 {
			lines++
		}
	}
	return all, lines
}

func TestDropLinesLeavesWhatTheRuntimeReads(t *testing.T) {
	module := built(t)
	before, lines := tables(t, module)
	require.Greater(t, lines, 1000, "functions with lines")
	require.Contains(t, before, "main.grow")
	was := bytes.Clone(module)
	require.NoError(t, dropLines(module))
	after, lines := tables(t, module)
	assert.Zero(t, lines)
	require.Equal(t, len(before), len(after))
	for i := range before {
		require.Equal(t, before[i], after[i], "entry %d", i)
	}
	gone := 0
	for i := range was {
		if was[i] != module[i] {
			assert.Zero(t, module[i])
			gone++
		}
	}
	assert.Greater(t, gone, len(module)/100, "bytes that are noughts now")
	once := bytes.Clone(module)
	require.NoError(t, dropLines(module))
	assert.True(t, bytes.Equal(once, module), "a second time changes nothing")
}

// The proof of it: the program runs, and panics and recovers as before. Node is
// asked for and not needed to build, so a machine without it only says so; the
// browser tests run the engine itself in any case.
func TestAProgramWithoutLinesRunsAsBefore(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Log("NOT run: no Node on this machine")
		return
	}
	module := built(t)
	run := func() (out string) {
		path := filepath.Join(t.TempDir(), "panics.wasm")
		require.NoError(t, os.WriteFile(path, module, 0o644))
		text, err := exec.Command(node, filepath.Join(runtime.GOROOT(), "lib", "wasm", "wasm_exec_node.js"), path).CombinedOutput()
		assert.Error(t, err, "it ends in a panic")
		return string(text)
	}
	with := run()
	require.NoError(t, dropLines(module))
	without := run()
	said, trace, _ := strings.Cut(without, "panic: the end")
	wanted, _, _ := strings.Cut(with, "panic: the end")
	assert.Equal(t, wanted, said)
	assert.Contains(t, said, "index out of range [5] with length 1")
	assert.Contains(t, trace, "main.main()")
	assert.Contains(t, trace, "?:0")
}

func TestDropLinesRefusesWhatItDoesNotKnow(t *testing.T) {
	module := built(t)
	other := bytes.Replace(bytes.Clone(module), []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}, []byte{0xf2, 0xff, 0xff, 0xff, 0, 0, 1, 8}, 1)
	for name, bad := range map[string][]byte{
		"nothing": nil, "a page": []byte("<!DOCTYPE html>"), "a head": module[:8], "half of it": module[:len(module)/2], "another compiler's": other,
	} {
		was := bytes.Clone(bad)
		assert.Error(t, dropLines(bad), name)
		assert.True(t, bytes.Equal(was, bad), "%s is left as it was", name)
	}
}
