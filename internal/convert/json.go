package convert

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Bounds of the JSON of a page. A recipe has a few hundred values, ten deep.
const (
	maxDepth  = 64
	maxValues = 200_000
)

var (
	errJSON     = errors.New("the page's recipe data is not whole JSON")
	errJSONDeep = errors.New("the page's recipe data is nested too deep or has too many values to be a recipe's: paste the recipe as text")
)

// A lenient reads JSON as pages have it: with commas before a closing bracket, line breaks
// in strings, comments around it. It is bounded in depth and in values.
type lenient struct {
	s      string
	at     int
	values int
}

// parseJSON reads one JSON value from the front of a text. What follows is not looked at.
func parseJSON(s string) (any, error) {
	s = strings.TrimSpace(s)
	for _, open := range [...]string{"<!--", "//<![CDATA[", "/*<![CDATA[*/", "<![CDATA["} {
		s = strings.TrimSpace(strings.TrimPrefix(s, open))
	}
	if before, after, ok := strings.Cut(s, "-->"); ok && !strings.ContainsAny(before, "{[") {
		s = after
	}
	p := &lenient{s: s}
	return p.value(0)
}

// space skips white space and comments.
func (p *lenient) space() {
	for p.at < len(p.s) {
		switch rest := p.s[p.at:]; {
		case strings.IndexByte(" \t\r\n", rest[0]) >= 0:
			p.at++
		case strings.HasPrefix(rest, "\u00a0"):
			p.at += len("\u00a0")
		case strings.HasPrefix(rest, "//"):
			p.skipPast("\n")
		case strings.HasPrefix(rest, "/*"):
			p.skipPast("*/")
		default:
			return
		}
	}
}

// skipPast moves behind the next end, or to the end of the text.
func (p *lenient) skipPast(end string) {
	if i := strings.Index(p.s[p.at+2:], end); i >= 0 {
		p.at += 2 + i + len(end)
	} else {
		p.at = len(p.s)
	}
}

// next returns the next byte that is no space, 0 at the end.
func (p *lenient) next() byte {
	p.space()
	if p.at == len(p.s) {
		return 0
	}
	return p.s[p.at]
}

func (p *lenient) value(depth int) (any, error) {
	if p.values++; depth > maxDepth || p.values > maxValues {
		return nil, errJSONDeep
	}
	switch c := p.next(); c {
	case '{':
		return p.object(depth)
	case '[':
		return p.array(depth)
	case '"':
		return p.text()
	case 0:
		return nil, errJSON
	default:
		from := p.at
		for p.at < len(p.s) && strings.IndexByte(",]} \t\r\n/", p.s[p.at]) < 0 {
			p.at++
		}
		switch word := p.s[from:p.at]; word {
		case "null", "undefined":
			return nil, nil
		case "true", "false":
			return word == "true", nil
		case "":
			return nil, errJSON
		default:
			if _, err := strconv.ParseFloat(word, 64); err != nil {
				return nil, errJSON
			}
			return word, nil // a figure stays as it was typed
		}
	}
}

func (p *lenient) array(depth int) (any, error) {
	list := []any{}
	for p.at++; ; {
		switch p.next() {
		case ']':
			p.at++
			return list, nil
		case ',':
			p.at++
			continue
		}
		v, err := p.value(depth + 1)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
}

func (p *lenient) object(depth int) (any, error) {
	m := map[string]any{}
	for p.at++; ; {
		switch p.next() {
		case '}':
			p.at++
			return m, nil
		case ',':
			p.at++
			continue
		case '"':
		default:
			return nil, errJSON
		}
		key, err := p.text()
		if err != nil {
			return nil, err
		}
		if p.next() != ':' {
			return nil, errJSON
		}
		p.at++
		v, err := p.value(depth + 1)
		if err != nil {
			return nil, err
		}
		m[plainKey(key)] = v
	}
}

// plainKey returns a property's name without the vocabulary that it is of.
func plainKey(key string) string {
	for _, vocabulary := range [...]string{"http://schema.org/", "https://schema.org/", "http://www.schema.org/", "https://www.schema.org/", "schema:"} {
		key = strings.TrimPrefix(key, vocabulary)
	}
	return key
}

// text reads a string. A line break in it is a line break.
func (p *lenient) text() (string, error) {
	var out strings.Builder
	for p.at++; p.at < len(p.s); {
		switch c := p.s[p.at]; c {
		case '"':
			p.at++
			return out.String(), nil
		case '\\':
			if err := p.escape(&out); err != nil {
				return "", err
			}
		default:
			out.WriteByte(c)
			p.at++
		}
	}
	return "", errJSON
}

// escape reads a backslash and what follows it.
func (p *lenient) escape(out *strings.Builder) error {
	if p.at+1 >= len(p.s) {
		return errJSON
	}
	c := p.s[p.at+1]
	p.at += 2
	switch c {
	case 'n':
		out.WriteByte('\n')
	case 't':
		out.WriteByte('\t')
	case 'r', 'b', 'f':
		out.WriteByte(' ')
	case 'u':
		r, ok := p.hex()
		if !ok {
			return errJSON
		}
		if r >= 0xd800 && r < 0xdc00 && strings.HasPrefix(p.s[p.at:], `\u`) { // the first half of a pair
			p.at += 2
			low, ok := p.hex()
			if !ok {
				return errJSON
			}
			r = (r-0xd800)<<10 + (low - 0xdc00) + 0x10000
		}
		if r == 0 || r > utf8.MaxRune {
			r = utf8.RuneError
		}
		out.WriteRune(r)
	default:
		out.WriteByte(c)
	}
	return nil
}

// hex reads four hexadecimal digits.
func (p *lenient) hex() (rune, bool) {
	if p.at+4 > len(p.s) {
		return 0, false
	}
	n, err := strconv.ParseUint(p.s[p.at:p.at+4], 16, 32)
	p.at += 4
	return rune(n), err == nil
}
