package card

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// leeks is a card without a problem, to be damaged by the rows below.
const leeks = `---
makes: 1 kg
---

# Leeks

## Formula

| Amount | Item  |
|-------:|-------|
|   1 kg | leeks |

## Method

1. Sweat the **leeks**.
   - hands: 5 min
`

// TestBytesThatAreNotTextAreProblems covers what a text file of testdata can't
// hold: bytes that are not text, other line ends, and files that are too long.
func TestBytesThatAreNotTextAreProblems(t *testing.T) {
	in := func(old, new string) []byte {
		if !strings.Contains(leeks, old) {
			panic("the row damages nothing: " + old)
		}
		return []byte(strings.Replace(leeks, old, new, 1))
	}
	crlf := func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r\n")) }
	mark := func(b []byte) []byte { return append([]byte("\uFEFF"), b...) }
	const empty = `card.md:1:1: the file is empty; begin with a title: "# Brown chicken stock"`
	const hand = `card.md:16:6: unknown fact "hand"; did you mean "hands"?`
	for _, row := range []struct {
		name string
		src  []byte
		want []string
	}{
		{"as it should be", []byte(leeks), nil},
		{"no file", nil, []string{empty}},
		{"empty", []byte{}, []string{empty}},
		{"blank", []byte(" \t\r\n\n"), []string{empty}},
		{"a byte order mark alone", mark(nil), []string{empty}},
		{"20 MB", append([]byte(leeks), bytes.Repeat([]byte("more\n"), 4<<20)...), []string{
			"card.md:1:1: the file has 20 MiB; one of more than 256 KiB is not read; check that it is the right file"}},
		{"one byte too long", append([]byte(leeks), bytes.Repeat([]byte("\n"), document.MaxBytes+1-len(leeks))...), []string{
			"card.md:1:1: the file has 256 KiB; one of more than 256 KiB is not read; check that it is the right file"}},
		{"as long as may be", append([]byte(leeks), bytes.Repeat([]byte("\n"), document.MaxBytes-len(leeks))...), nil},
		{"a NUL in a step", in("Sweat", "Sw\x00eat"), []string{
			"card.md:15:6: a NUL byte: this is not a text file, or it was damaged; take the byte out or restore the file"}},
		{"NULs in the front matter", in("1 kg\n---", "1 \x00\x00kg\n---"), []string{
			"card.md:2:10: a NUL byte: this is not a text file, or it was damaged; take the byte out or restore the file",
			"card.md:2:10: unknown unit \"\x00\x00kg\"; " + doUnit}},
		{"another encoding", in("leeks |", "le\xE9ks |"), []string{
			"card.md:11:12: warning: no step names \"le\uFFFDks\"; write it in bold in the step that uses it",
			"card.md:11:14: a byte that is not UTF-8; save the file as UTF-8",
			`card.md:15:16: warning: "leeks" is not in the formula; bold names an item; for stress write *one star*`}},
		{"CRLF", crlf([]byte(leeks)), nil},
		{"CRLF and a slip", crlf(in("hands", "hand")), []string{hand}},
		{"a byte order mark", mark([]byte(leeks)), nil},
		{"a byte order mark and a slip", mark(in("hands", "hand")), []string{hand}},
		{"a byte order mark and no front matter", mark([]byte("\n" + leeks)), []string{
			`card.md:1:1: the card does not say what it makes; add "makes: 1.6 kg" (or "makes: 1 plate") between "---" lines at the top`}},
		{"all three", mark(crlf(in("hands", "hand"))), []string{hand}},
	} {
		t.Run(row.name, func(t *testing.T) {
			c, problems := Parse("card.md", row.src)
			assert.Equal(t, row.want, append([]string(nil), lines(problems)...))
			sound(t, c, problems, row.src)
			if row.want == nil {
				assert.Equal(t, "Leeks", c.Title)
				assert.Len(t, c.Items, 1)
				assert.Len(t, c.Steps, 1)
			}
		})
	}
}

// TestWindowsLineEndsChangeNothing compiles cards with CRLF line ends. The cards
// and the places of the problems must be those of the same text with LF.
func TestWindowsLineEndsChangeNothing(t *testing.T) {
	// goldmark takes an empty "5." before CRLF for a paragraph, not for a list.
	const emptyItem = "testdata/problems/steps-and-ways.txt"
	n := 0
	for _, pattern := range []string{"../../content/cards/*.md", "testdata/html/*.md", "testdata/problems/*.txt"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, file := range files {
			b, err := os.ReadFile(file)
			require.NoError(t, err)
			text := string(b)
			if _, below, ok := strings.Cut(text, "=== card\n"); ok {
				text, _, _ = strings.Cut(below, "=== problems\n")
			}
			if file == emptyItem {
				continue
			}
			n++
			unix, want := Parse("card.md", []byte(text))
			dos, got := Parse("card.md", []byte(strings.ReplaceAll(text, "\n", "\r\n")))
			assert.Equal(t, lines(want), lines(got), file)
			assert.Equal(t, HTML(unix.Scale(quantity.Int(1), 0, quantity.Prefs{})), strings.ReplaceAll(HTML(dos.Scale(quantity.Int(1), 0, quantity.Prefs{})), "\r\n", "\n"), file)
		}
	}
	assert.Greater(t, n, 50)
}

// TestAmounts reads one amount in a table and in a list; both must say the same.
// The figures are by hand.
func TestAmounts(t *testing.T) {
	const zero = `an amount of 0; leave the line out, or mark the item optional`
	for _, row := range []struct {
		typed    string
		qty, to  string // exact, in unit
		unit     string
		problem  string // of the table
		listToo  string // of the list where its words differ; "-" for none
		foodName string // the name in the list where the amount was not understood
	}{
		{typed: "1 ½ kg", qty: "3/2", unit: "kilogram"},
		{typed: "1½ kg", qty: "3/2", unit: "kilogram"},
		{typed: "1 1/2 kg", qty: "3/2", unit: "kilogram"},
		{typed: "2-3", qty: "2", to: "3"},
		{typed: "2–3 cloves", qty: "2", to: "3", unit: "clove"},
		{typed: "2 to 3 cloves", qty: "2", to: "3", unit: "clove"},
		{typed: "1,5 kg", qty: "3/2", unit: "kilogram"},
		{typed: "1.5kg", qty: "3/2", unit: "kilogram"},
		{typed: "500 gr", qty: "500", unit: "gram"},
		{typed: "½", qty: "1/2"},
		{typed: "0.333333 L", qty: "333333/1000000", unit: "litre"},
		{typed: "0", problem: `"0": ` + zero, listToo: `"0 leeks": ` + zero},
		{typed: "0 g", problem: `"0 g": ` + zero, listToo: `"0 g leeks": ` + zero},
		{typed: "-3 g", problem: `"-3 g": an amount can't be negative; type how much goes in`, listToo: `"-3 g leeks": an amount can't be negative; type how much goes in`},
		{typed: "−3 g", problem: `"−3 g": an amount can't be negative; type how much goes in`, listToo: `"−3 g leeks": an amount can't be negative; type how much goes in`},
		{typed: "1e9 kg", problem: `"1e9 kg": a number in powers of ten; write it out in full`, listToo: `"1e9 kg leeks": a number in powers of ten; write it out in full`},
		{typed: "1000000000 kg", problem: `"1000000000 kg": more than any kitchen holds; check the number and its unit`,
			listToo: `"1000000000 kg leeks": more than any kitchen holds; check the number and its unit`},
		{typed: "3-2 kg", problem: `"3-2 kg": a range whose upper end is not above its lower; swap them or type one number`,
			listToo: `"3-2 kg leeks": a range whose upper end is not above its lower; swap them or type one number`},
		{typed: "lots", problem: `"lots": no amount here; type a number and a unit, such as "500 g", or "to taste"`,
			listToo: `warning: "lots leeks" has no amount; write one, or "to taste" if that is meant`, foodName: "lots leeks"},
	} {
		t.Run(row.typed, func(t *testing.T) {
			leeks := strings.Replace(leeks, "makes: 1 kg", "makes: 1 plate", 1) // in any case
			table := strings.Replace(leeks, "  1 kg", row.typed, 1)
			list := strings.Replace(leeks, "| Amount | Item  |\n|-------:|-------|\n|   1 kg | leeks |", "- "+row.typed+" leeks", 1)
			for form, text := range map[string]string{"table": table, "list": list} {
				c, problems := Parse("card.md", []byte(text))
				sound(t, c, problems, []byte(text))
				if assert.Len(t, c.Items, 1, form) {
					want := "leeks"
					if form == "list" && row.foodName != "" {
						want = row.foodName
					}
					assert.Equal(t, want, c.Items[0].Name, form)
				}
				want := row.problem
				if form == "list" {
					want = row.listToo
				}
				if want != "" {
					if assert.NotEmpty(t, problems, form) {
						assert.Equal(t, want, strings.SplitN(problems[0].Error(), " ", 2)[1], form)
					}
					continue
				}
				assert.Empty(t, lines(problems), form)
				a := c.Items[0].Amount
				assert.Equal(t, row.qty, a.Qty.String(), form)
				if row.to != "" {
					assert.Equal(t, row.to, a.To.String(), form)
				} else {
					assert.True(t, a.To.IsZero(), form)
				}
				if row.unit == "" {
					assert.Same(t, quantity.Each, a.Unit, form)
				} else {
					assert.Equal(t, row.unit, a.Unit.Name, form)
				}
			}
		})
	}
}
