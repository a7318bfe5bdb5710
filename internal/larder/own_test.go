package larder

import "strings"

// wordLists reads "name: word, word" lines; a line without a colon goes on.
func wordLists(text string) map[string][]string {
	out := map[string][]string{}
	name := ""
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if head, rest, ok := strings.Cut(line, ": "); ok {
			name, line = head, rest
		}
		for word := range strings.SplitSeq(line, ",") {
			if word = strings.TrimSpace(word); word != "" {
				out[name] = append(out[name], word)
			}
		}
	}
	return out
}
