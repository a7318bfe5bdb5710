package document

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/text"
)

// table writes a table of so many columns, whose rows have one cell each.
func table(columns, rows int) string {
	return "|" + strings.Repeat("a|", columns) + "\n|" + strings.Repeat("-|", columns) + "\n" + strings.Repeat("b\n", rows)
}

func TestTableWithTooManyCellsIsRefused(t *testing.T) {
	const head = "---\nmakes: 1 kg\n---\n\n# Peas\n\n"
	for _, tt := range []struct {
		name, text string
		line       int // of the problem; 0 for none
	}{
		{"5,000 columns and 5,000 rows", head + table(5000, 5000), 8},
		{"in a quote", head + "> " + strings.ReplaceAll(table(300, 300), "\n", "\n> "), 8},
		{"in a list", head + "1. " + strings.ReplaceAll(table(300, 300), "\n", "\n   "), 8},
		{"rows that leave the quote", head + "> |" + strings.Repeat("a|", 300) + "\n> |" + strings.Repeat("-|", 300) + "\n" + strings.Repeat("b\n", 300), 8},
		{"many tables", head + strings.Repeat(table(8, 8)+"\n", 300), 2450},
		{"rows of a no-break space", head + table(300, 0) + strings.Repeat("\u00a0\n", 300), 8},
		{"as large as may be", head + table(98, 198), 0},
		{"one row more", head + table(98, 200), 8},
		{"much text below a rule with a pipe", head + "- | -\n" + strings.Repeat("peas\n\n", 20_000), 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			f := Open("peas.md", []byte(tt.text))
			if tt.line == 0 {
				assert.Empty(t, f.Problems)
				assert.NotContains(t, HTML([]byte(tt.text)), "can't be shown")
				return
			}
			require.Len(t, f.Problems, 1)
			assert.Equal(t, tt.line, f.Problems[0].Line)
			assert.Equal(t, "a table with too many cells here; nothing below the front matter is read", f.Problems[0].Msg)
			assert.Len(t, f.Front, 1, "the front matter is read")
			assert.True(t, f.Unread())
			assert.Equal(t, "<p>This can't be shown: a table with too many cells.</p>", HTML([]byte(tt.text)))
		})
	}
}

// TestHugeTableTakesLittleMemory reads a table of 30 kB that the parser would
// turn into gigabytes of cells.
func TestHugeTableTakesLittleMemory(t *testing.T) {
	src := []byte(table(5000, 5000))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	Open("peas.md", src)
	HTML(src)
	runtime.ReadMemStats(&after)
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4<<20), "bytes allocated")
}

// FuzzCells holds the count of cells to what the parser makes: it never counts
// fewer.
func FuzzCells(f *testing.F) {
	for _, s := range []string{table(3, 3), "> " + strings.ReplaceAll(table(2, 2), "\n", "\n> "), "- a|b\n  -|-\n  c\n", "a|b\n:-|-:\n`c\\|d`|e|f\n\u00a0\nx\n", "1) a | b\n> c\n-|-\n", "a\n:-\nb\n"} {
		f.Add([]byte(s))
	}
	cards, err := filepath.Glob("../../content/cards/*.md")
	require.NoError(f, err)
	for _, name := range cards {
		b, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		if tooDeep(src) >= 0 {
			return
		}
		cells, _ := countCells(src, 1<<30)
		if cells > 1<<20 {
			return // parsing it would take the memory of which it is kept
		}
		made := 0
		root := markdown.Parser().Parse(text.NewReader(src))
		_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			if table, ok := n.(*east.Table); ok && entering && len(table.Alignments) > 1 {
				for row := table.FirstChild(); row != nil; row = row.NextSibling() {
					made += row.ChildCount()
				}
			}
			return ast.WalkContinue, nil
		})
		if made > cells {
			t.Fatalf("%d cells counted, the parser made %d of %d lines", cells, made, bytes.Count(src, newline))
		}
	})
}
