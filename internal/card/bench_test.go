package card

import (
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
)

// BenchmarkCompile compiles the grammar's first card and has goldmark parse
// the same bytes, in turn, so that a noisy machine weighs on both alike. The
// budget is a ratio of 1.5.
func BenchmarkCompile(b *testing.B) {
	src := []byte(readmeExamples(b)[0].text)
	plain := goldmark.New(goldmark.WithExtensions(extension.Table)).Parser()
	b.SetBytes(int64(len(src)))
	b.Run("goldmark", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			plain.Parse(text.NewReader(src))
		}
	})
	b.Run("card", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			Parse("stock.md", src)
		}
	})
}
