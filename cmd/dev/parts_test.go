package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestPartsRunAfterWhatTheyNeed draws parts that need earlier ones, some of which
// fail: each runs at most once and after all that it needs, and nothing that needs
// a failed one runs at all.
func TestPartsRunAfterWhatTheyNeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var mu sync.Mutex
		var ran []string
		var parts []part
		fails := map[string]bool{}
		for i := range rapid.IntRange(0, 8).Draw(t, "parts") {
			p := part{name: fmt.Sprint("part ", i)}
			for _, before := range parts {
				if rapid.IntRange(0, 3).Draw(t, "needs") == 0 {
					p.after = append(p.after, before.name)
				}
			}
			fails[p.name] = rapid.IntRange(0, 5).Draw(t, "fails") == 0
			p.do = func(context.Context, io.Writer) error {
				mu.Lock()
				defer mu.Unlock()
				for _, name := range p.after {
					if !slices.Contains(ran, name) || fails[name] {
						return errors.New("begun too early")
					}
				}
				ran = append(ran, p.name)
				if fails[p.name] {
					return errors.New("it failed")
				}
				return nil
			}
			parts = append(parts, p)
		}
		var out bytes.Buffer
		err := runParts(t.Context(), &out, parts)
		if slices.ContainsFunc(ran, func(name string) bool { return fails[name] }) {
			require.ErrorContains(t, err, "it failed")
		} else {
			require.NoError(t, err)
			require.Len(t, ran, len(parts))
		}
		require.Len(t, slices.Compact(slices.Sorted(slices.Values(ran))), len(ran))
		require.Equal(t, len(ran), strings.Count(out.String(), "\n"), "a line for each: %s", out.String())
	})
}

func TestPartsThatWaitForEachOtherAreAnError(t *testing.T) {
	nothing := func(context.Context, io.Writer) error { return nil }
	err := runParts(t.Context(), io.Discard, []part{{name: "a", after: []string{"b"}, do: nothing}, {name: "b", after: []string{"a"}, do: nothing}})
	assert.ErrorContains(t, err, "no part can begin")
}

func TestEveryNeedOfACheckIsACheck(t *testing.T) {
	all := checks(nil)
	for _, p := range all {
		for _, name := range p.after {
			assert.True(t, slices.ContainsFunc(all, func(q part) bool { return q.name == name }), "%s needs %q", p.name, name)
		}
	}
}
