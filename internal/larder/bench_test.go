package larder

import (
	"strings"
	"testing"
	"time"
)

// BenchmarkFindAgainstFields finds foods by their names and has the standard library split the
// same names into words in lower case, turn about. It reports how many times longer a look-up
// takes, by the quickest turn of each: what else the machine does only ever adds. The budget
// is in cmd/dev/bench.go.
func BenchmarkFindAgainstFields(b *testing.B) {
	items := []string{"red onions, sliced", "crème fraîche", "strong white bread flour", "Chicken thighs, bone in", "moonflower paste"}
	const times = 200 // to a reading of the clock
	find, fields, words := time.Hour, time.Hour, 0
	for b.Loop() {
		begin := time.Now()
		for i := range times {
			Find(items[i%len(items)])
		}
		half := time.Now()
		for i := range times {
			words += len(strings.Fields(strings.ToLower(items[i%len(items)])))
		}
		find, fields = min(find, half.Sub(begin)), min(fields, time.Since(half))
	}
	if words == 0 {
		b.Fatal("nothing was split")
	}
	b.ReportMetric(float64(find)/float64(fields), "×fields")
	b.ReportMetric(float64(find.Nanoseconds())/times, "ns/find")
}
