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
// same bytes, turn about. It reports how many times longer the card takes, by
// the quickest turn of each: what else the machine does only ever adds. The budget
// is in cmd/dev/bench.go.
func BenchmarkCompileAgainstGoldmark(b *testing.B) {
	src := []byte(readmeExamples(b)[0].text)
	plain := goldmark.New(goldmark.WithExtensions(extension.Table)).Parser()
	const times = 10 // to a reading of the clock
	card, mark := time.Hour, time.Hour
	for b.Loop() {
		begin := time.Now()
		for range times {
			Parse("stock.md", src)
		}
		half := time.Now()
		for range times {
			plain.Parse(text.NewReader(src))
		}
		card, mark = min(card, half.Sub(begin)), min(mark, time.Since(half))
	}
	b.ReportMetric(float64(card)/float64(mark), "×goldmark")
	b.ReportMetric(float64(card.Nanoseconds())/1000/times, "µs/card")
}
