//go:build browser

package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sheets prints the page on paper of a size in inches and returns the words of
// each sheet. HOBSIDE_SHOTS keeps the file.
func (p *phone) sheets(name string, wide, high float64) []string {
	p.t.Helper()
	data := run1(p, func(ctx context.Context, tab *chromedp.Target) ([]byte, error) {
		got, err := cdp.Call(ctx, tab, page.PrintToPDF, page.PrintToPDFParams{PaperWidth: wide, PaperHeight: high})
		return got.Data, err
	})
	dir := os.Getenv("HOBSIDE_SHOTS")
	if dir == "" {
		dir = p.t.TempDir()
	}
	file := filepath.Join(dir, name+".pdf")
	require.NoError(p.t, os.WriteFile(file, data, 0o644))
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	require.NoError(p.t, err, "pdftotext (poppler-utils) reads the printed page")
	var out []string
	for _, sheet := range bytes.Split(bytes.TrimSuffix(text, []byte("\f")), []byte("\f")) {
		out = append(out, strings.Join(strings.Fields(string(sheet)), " "))
	}
	return out
}

// TestPrint prints on A4 and on Letter: every sheet has its words, none is
// empty, and no control of the screen is printed.
func TestPrint(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	for _, s := range []struct {
		name, path, wait string
		want             []string
	}{
		{"card", "card/overnight-crust-bread.md", "#prose table", []string{"Overnight crust bread", "whey"}},
		{"order", "s/boathouse/order", ".order-list li", []string{"The boathouse supper", "dry goods", "rice flour"}},
		{"plan", "s/boathouse/plan", "#plan .task", []string{"The boathouse supper", "Thursday 10 June", "Light chicken stock", "goes out"}},
		{"prep", "s/boathouse/prep", "#prep .tickrow", []string{"The boathouse supper", "Thursday 10 June", "chicken backs", "chopped"}},
		{"labels", "s/boathouse/labels", ".label", []string{"Light chicken stock", "Made", "Use by day", "Contains"}},
		{"guests", "s/boathouse/guests", "#sheet", []string{"Allergens, plate by plate", "EU, of fourteen", "Not checked"}},
		{"controls", "s/boathouse/controls", ".control", []string{"Light chicken stock", "Nothing read", "Local codes"}},
	} {
		p.turns(hash(r, s.path))
		p.see(s.wait)
		for _, paper := range []struct {
			name       string
			wide, high float64
		}{{"a4", 8.27, 11.69}, {"letter", 8.5, 11}} {
			name := s.name + "-" + paper.name
			sheets := p.sheets(name, paper.wide, paper.high)
			for i, words := range sheets {
				assert.NotEmpty(t, words, "%s: sheet %d of %d is empty", name, i+1, len(sheets))
			}
			all := strings.Join(sheets, " ")
			for _, want := range s.want {
				assert.Contains(t, all, want, name)
			}
			for _, not := range []string{"Settings", "Dinners", "More", "Print", "Scale", "Go by", "Edit", "How sure", "CSV"} {
				assert.NotContains(t, all, not, "%s: this is for the screen", name)
			}
		}
	}
}
