package main

import (
	"context"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every command is caught: each is replaced by one that panics as Go itself does.
func TestPanicOfACommandIsAPlainWord(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	for i, c := range commands {
		t.Run(c.name, func(t *testing.T) {
			defer func() { commands[i] = c }()
			commands[i].run = func(_ context.Context, args []string, _ io.Writer) error {
				_ = args[len(args)]
				return nil
			}
			out, problems, code := callHobside(c.name)
			assert.Equal(t, exitFailed, code)
			assert.Empty(t, out)
			assert.Contains(t, problems, "a mistake of its own")
			assert.NotContains(t, problems, "runtime error")
			name := regexp.MustCompile(`\S+hobside-mistake-\S+\.txt`).FindString(problems)
			written, err := os.ReadFile(name)
			require.NoError(t, err)
			assert.Contains(t, string(written), "index out of range")
			assert.True(t, strings.Contains(string(written), "caught_test.go"), "the stack")
		})
	}
}
