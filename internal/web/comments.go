package web

import (
	"bytes"
	"path"
	"strings"
)

// AsSent returns a file of the app as it is sent: JavaScript and CSS lose the
// comments that fill whole lines, a quarter of their compressed size. The lines
// stay, empty, so that the numbers of the browser's errors are those of the
// source. Every other file is returned as it is.
//
// Lines are not parsed: inside a template literal, a line that begins as a
// comment would be lost as well.
func AsSent(name string, body []byte) []byte {
	if ext := path.Ext(name); ext != ".js" && ext != ".css" {
		return body
	}
	lines := bytes.SplitAfter(body, []byte("\n"))
	var out bytes.Buffer
	inside := false // a block comment
	for _, line := range lines {
		text := strings.TrimSpace(string(line))
		whole := strings.HasPrefix(text, "//")
		if was := inside; was || strings.HasPrefix(text, "/*") {
			_, rest, ends := strings.Cut(text, "*/")
			inside = !ends
			whole = rest == ""
			if was && ends {
				line = []byte(rest + "\n")
			}
		}
		switch {
		case !whole:
			out.Write(line)
		case bytes.HasSuffix(line, []byte("\n")):
			out.WriteByte('\n')
		}
	}
	return out.Bytes()
}
