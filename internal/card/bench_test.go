package card

import (
	"testing"
	"time"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
)

// BenchmarkCompile compiles the grammar's first card.
func BenchmarkCompile(b *testing.B) {
	src := []byte(readmeExamples(b)[0].text)
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		Parse("stock.md", src)
	}
}

// BenchmarkCompileAgainstGoldmark compiles that card and has goldmark parse the
// same bytes, turn about, so that a noisy machine weighs on both alike. It
// reports how many times longer the card takes; the budget is 1.5.
func BenchmarkCompileAgainstGoldmark(b *testing.B) {
	src := []byte(readmeExamples(b)[0].text)
	plain := goldmark.New(goldmark.WithExtensions(extension.Table)).Parser()
	const turns = 10 // to a reading of the clock
	var card, mark time.Duration
	for b.Loop() {
		begin := time.Now()
		for range turns {
			Parse("stock.md", src)
		}
		half := time.Now()
		for range turns {
			plain.Parse(text.NewReader(src))
		}
		card += half.Sub(begin)
		mark += time.Since(half)
	}
	b.ReportMetric(float64(card)/float64(mark), "×goldmark")
	b.ReportMetric(float64(card.Microseconds())/float64(b.N*turns), "µs/card")
}
