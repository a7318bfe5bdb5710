package convert

import (
	"regexp"
	"strconv"
	"strings"

	"hobside/internal/document"
)

// isoDuration is a length of time by ISO 8601, without years and months, which vary.
var isoDuration = regexp.MustCompile(`(?i)^P(?:(\d+)W)?(?:(\d+)D)?(?:T(?:(\d+(?:[.,]\d+)?)H)?(?:(\d+(?:[.,]\d+)?)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$`)

// isoSeconds reads "PT1H30M". ok is false for anything else and for no time at all.
func isoSeconds(s string) (seconds int, ok bool) {
	m := isoDuration.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, false
	}
	total := 0.0
	for i, unit := range [...]float64{7 * 86400, 86400, 3600, 60, 1} {
		n, _ := strconv.ParseFloat(strings.ReplaceAll(m[i+1], ",", "."), 64)
		total += n * unit
	}
	if total < 1 || total > 2*366*86400 {
		return 0, false
	}
	return int(total), true
}

// isoWords returns a length of time as a person reads it, and other words as they are.
func isoWords(s string) string {
	if n, ok := isoSeconds(s); ok {
		return document.FormatSeconds(n)
	}
	return squeeze(s)
}

// iso writes a length of time by ISO 8601: 5400 s is "PT1H30M".
func iso(seconds int) string {
	var b strings.Builder
	b.WriteByte('P')
	if d := seconds / 86400; d > 0 {
		b.WriteString(strconv.Itoa(d) + "D")
	}
	h, m, s := seconds%86400/3600, seconds%3600/60, seconds%60
	if h+m+s > 0 || seconds == 0 {
		b.WriteByte('T')
	}
	if h > 0 {
		b.WriteString(strconv.Itoa(h) + "H")
	}
	if m > 0 {
		b.WriteString(strconv.Itoa(m) + "M")
	}
	if s > 0 || seconds == 0 {
		b.WriteString(strconv.Itoa(s) + "S")
	}
	return b.String()
}
