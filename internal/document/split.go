package document

import "strings"

// Split calls each with every part of the fact's value, as [SplitList] does.
func (f Fact) Split(each func(part string, at int)) { SplitList(f.Value, f.ValueAt, each) }

// SplitList calls each with the parts of s between commas or semicolons, without
// the space around them, and the offset of each part when s begins at offset at.
// Empty parts are left out. A comma between digits ("1,5 kg") or in brackets
// does not split.
func SplitList(s string, at int, each func(part string, at int)) {
	depth, start := 0, 0
	emit := func(end int) {
		part := s[start:end]
		lead := len(part) - len(trimLeft(part))
		if part = strings.TrimSpace(part); part != "" {
			each(part, at+start+lead)
		}
		start = end + 1
	}
	for i := range len(s) {
		switch c := s[i]; c {
		case '(', '[':
			depth++
		case ')', ']':
			depth = max(0, depth-1)
		case ',', ';':
			if depth > 0 || c == ',' && i > 0 && i+1 < len(s) && IsDigit(s[i-1]) && IsDigit(s[i+1]) {
				continue
			}
			emit(i)
		}
	}
	emit(len(s))
}
