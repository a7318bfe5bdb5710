package document

import "bytes"

// maxNesting is how deep quotes and lists may be nested. Parser and renderer
// recurse, and a stack overflow can't be caught.
const maxNesting = 64

// tooDeep returns the offset of the first line that opens more than maxNesting
// quotes or lists, by its marks and its indent together, or −1.
func tooDeep(body []byte) int {
	for at := 0; at < len(body); {
		end := bytes.IndexByte(body[at:], '\n')
		if end < 0 {
			end = len(body) - at
		}
		if nesting(body[at:at+end]) > maxNesting {
			return at
		}
		at += end + 1
	}
	return -1
}

// nesting counts the quotes and lists that a line may open.
func nesting(line []byte) int {
	marks, indent := 0, 0
	for i, c := range line {
		switch c {
		case ' ':
			indent++
		case '\t':
			indent += 4
		case '>', '.', ')':
			marks++
		case '-', '+', '*':
			// A rule ("* * *") is no list, but nobody needs one that long.
			if i+1 < len(line) && line[i+1] != ' ' && line[i+1] != '\t' {
				return marks + indent/4
			}
			marks++
		case '0', '1', '2', '3', '4', '5', '6', '7', '8', '9':
		default:
			return marks + indent/4
		}
	}
	return marks + indent/4
}
