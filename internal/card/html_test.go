package card

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestHTML holds the cards of testdata/html to the pages beside them.
func TestHTML(t *testing.T) {
	cards, err := filepath.Glob("testdata/html/*.md")
	require.NoError(t, err)
	require.NotEmpty(t, cards)
	for _, file := range cards {
		src, err := os.ReadFile(file)
		require.NoError(t, err)
		c, _ := Parse(filepath.Base(file), src)
		got := HTML(c.Scale(quantity.Int(2), 0, quantity.Prefs{}))
		golden := strings.TrimSuffix(file, ".md") + ".html"
		if *update {
			require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
		}
		want, err := os.ReadFile(golden)
		require.NoError(t, err)
		assert.Equal(t, string(want), got, file)
		assert.Empty(t, foreign(got), file)
	}
}

// TestForeignFindsAuthorsMarkup gives foreign pages that are broken on purpose:
// the check must find each of them.
func TestForeignFindsAuthorsMarkup(t *testing.T) {
	for page, want := range map[string]string{
		`<p>fine</p><a href="stock.md">x</a><br><td style="text-align:right">1</td><hr />`: "",
		`<script>x`:                                        "<script>",
		`<p onclick="x()">`:                                `<p onclick="x()">`,
		`<a href="javascript:x">`:                          `<a href="javascript:x">`,
		`<a href=" java&#x0A;script&colon;x">`:             `<a href=" java&#x0A;script&colon;x">`,
		`<img src="data:text/html,x" alt="">`:              `<img src="data:text/html,x" alt="">`,
		`<a href="x" onfocus="y">`:                         `<a href="x" onfocus="y">`,
		`<td style="background:url(x)">`:                   `<td style="background:url(x)">`,
		`1 < 2`:                                            "< 2",
		`<!-- raw HTML omitted -->`:                        "",
		`<!-- else -->`:                                    "<!-- else -->",
		`<a href="vbscript:x">`:                            `<a href="vbscript:x">`,
		`<img src="data:image/png;base64,AAAA" alt="dot">`: "",
	} {
		assert.Equal(t, want, strings.Join(foreign(page), "\n"), page)
	}
}

// ours are all tags a page may have. Attributes stand in the order they are
// written in, their values in double quotes.
var ours = regexp.MustCompile(`^</?(?:h[1-6]|p|ul|ol|li|table|thead|tbody|tr|th|td|strong|em|code|pre|blockquote|hr|br|a|img)` +
	`(?: (?:href|src|alt|title|class|start|colspan)="[^"<]*"| style="text-align:(?:left|right|center)"| data-item="[0-9]+")*(?: /)?>$`)

var address = regexp.MustCompile(` (?:href|src)="([^"]*)"`)

// foreign returns everything in a page that the card's author could have put
// there as mark-up: tags of any other kind, and addresses that run something.
func foreign(page string) []string {
	var out []string
	for {
		i := strings.IndexByte(page, '<')
		if i < 0 {
			return out
		}
		page = page[i:]
		if rest, ok := strings.CutPrefix(page, "<!-- raw HTML omitted -->"); ok {
			page = rest
			continue
		}
		tag, rest, closed := strings.Cut(page, ">")
		if closed {
			tag += ">"
		}
		if !ours.MatchString(tag) {
			out = append(out, tag)
			page = page[1:]
			continue
		}
		page = rest
		for _, m := range address.FindAllStringSubmatch(tag, -1) {
			if executes(m[1]) {
				out = append(out, tag)
			}
		}
	}
}

// executes reports whether a browser would run an address. It drops what browsers
// drop before they look at the scheme: spaces, tabs, line ends, controls.
func executes(address string) bool {
	plain := strings.Map(func(r rune) rune {
		if r <= ' ' {
			return -1
		}
		return r
	}, strings.ToLower(html.UnescapeString(address)))
	scheme, rest, ok := strings.Cut(plain, ":")
	if !ok || strings.ContainsAny(scheme, "/?#") {
		return false
	}
	switch scheme {
	case "http", "https", "mailto", "tel", "ftp":
		return false
	case "data":
		return !strings.HasPrefix(rest, "image/") || strings.HasPrefix(rest, "image/svg")
	}
	// A browser ignores an unknown scheme. These schemes run what follows.
	return scheme == "javascript" || scheme == "vbscript" || scheme == "file"
}
