package convert

import (
	"regexp"
	"strings"
)

var (
	marks      = strings.NewReplacer(`\`, `\\`, "`", "\\`", `*`, `\*`, `_`, `\_`, `[`, `\[`, `]`, `\]`, `<`, `\<`, `>`, `\>`, `~`, `\~`, `|`, `\|`, `&`, `&amp;`)
	lineBegins = regexp.MustCompile(`^(?:[-+#=:]|\d+[.)])`)
)

// escape returns words as Markdown that shows them as they are.
func escape(s string) string {
	return begin(marks.Replace(squeeze(s)))
}

// begin keeps the first sign of a line from being a list's or a heading's.
func begin(s string) string {
	at := lineBegins.FindStringIndex(s)
	if at == nil {
		return s
	}
	if last := at[1] - 1; last > 0 && at[1] < len(s) && s[at[1]] != ' ' {
		return s // "1.5 kg" begins no list
	}
	return s[:at[1]-1] + `\` + s[at[1]-1:]
}
