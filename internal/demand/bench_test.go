package demand

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/menu"
)

// BenchmarkExplodeDemo is the demo dinner.
func BenchmarkExplodeDemo(b *testing.B) {
	in := demo(b)
	for b.Loop() {
		Explode(in)
	}
}

func demo(t testing.TB) Input {
	t.Helper()
	text, err := os.ReadFile("../../content/boathouse-supper.md")
	require.NoError(t, err)
	m, _ := menu.Parse("boathouse-supper.md", text)
	in := Input{Menu: m, Cards: map[string]*card.Card{}}
	files, err := filepath.Glob("../../content/cards/*.md")
	require.NoError(t, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		c, _ := card.Parse(filepath.Base(file), text)
		in.Cards[c.ID] = c
	}
	return in
}

// BenchmarkExplode is so many cards in eight levels, each of which wants three
// of the level below: the time a card takes must not grow with their number.
func BenchmarkExplode(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			in := levels(b, n, 8)
			for b.Loop() {
				Explode(in)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/card")
		})
	}
}

// levels makes n cards, as many on each level; those of the top one are plates.
func levels(t testing.TB, n, deep int) Input {
	t.Helper()
	in := Input{Cards: map[string]*card.Card{}}
	wide := n / deep
	text := "---\ncovers: 18\n---\n# Many\n\n## All\n\n"
	for level := range deep {
		for i := range wide {
			id := fmt.Sprintf("c%d-%d", level, i)
			front, items := "makes: 1.6 kg\nmargin: 5 %", []string{"500 g onions", "5 L water", "12 g salt"}
			if level == 0 {
				front = "makes: 1 plate"
				text += "- [" + id + "](" + id + ".md)\n"
			}
			for k := range 3 {
				if level+1 < deep {
					items = append(items, fmt.Sprintf("%d g [Below](c%d-%d.md)", 3+k, level+1, (i+k)%wide))
				}
			}
			c, _ := card.Parse(id+".md", []byte(made(front, items...)))
			in.Cards[id] = c
		}
	}
	m, problems := menu.Parse("many.md", []byte(text))
	require.Empty(t, problems)
	in.Menu = m
	d, more := Explode(in)
	require.Empty(t, more)
	require.Len(t, d.Components, wide*deep)
	return in
}
