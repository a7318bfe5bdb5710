package card

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// sound asserts what holds of any card, however it was typed: the source is
// kept byte for byte, every problem has a place in the file and words, steps
// name items that are there, and they never use more than the formula has
// without an error that says so.
func sound(t testing.TB, c *Card, problems []document.Problem, src []byte) {
	t.Helper()
	if c == nil {
		t.Fatal("no card")
	}
	if !bytes.Equal(c.Source, src) {
		t.Errorf("the source is not byte for byte the file")
	}
	errors := 0
	for i, f := range problems {
		if f.Line < 1 || f.Col < 1 || f.Col > runesIn(src, f.Line)+1 {
			t.Errorf("no such place in the file: %s", f.Error())
		}
		if f.File != c.File || f.Msg == "" || f.Hint == "" && f.Do == "" {
			t.Errorf("a problem without file, words, or what to do: %s", f.Error())
		}
		for _, s := range []string{f.Msg, f.Hint, f.Do} {
			if !utf8.ValidString(s) && utf8.Valid(src) {
				t.Errorf("a problem that is no text: %q", s)
			}
		}
		if strings.HasSuffix(f.Msg, ".") && !strings.HasSuffix(f.Msg, `".`) {
			t.Errorf("a full stop at the end: %s", f.Error())
		}
		if f.Severity == document.Error {
			errors++
		}
		if f.Severity != document.Error && f.Severity != document.Warning {
			t.Errorf("a problem that is neither error nor warning: %s", f.Error())
		}
		if i > 0 && (problems[i-1].Line > f.Line || problems[i-1].Line == f.Line && problems[i-1].Col > f.Col) {
			t.Errorf("out of order: %s", f.Error())
		}
	}
	for _, s := range c.Steps {
		if s.Way < 0 || s.Way > len(c.Ways) || s.After.Step < 0 || s.After.Step > len(c.Steps) {
			t.Errorf("step %d: way %d, after %d", s.Number, s.Way, s.After.Step)
		}
		for _, r := range s.Text {
			if r.Item < 0 || r.Item > len(c.Items) {
				t.Fatalf("step %d names item %d of %d", s.Number, r.Item, len(c.Items))
			}
		}
	}
	for _, it := range c.Items {
		if it.Amount.Qty.Sign() < 0 || it.Amount.To.Sign() < 0 || it.Percent.Sign() < 0 || it.Trim.Sign() < 0 {
			t.Errorf("%s: an amount below 0", it.Name)
		}
	}
	for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
		if fault := books(c, way); fault != "" && errors == 0 {
			t.Errorf("way %d: %s, and no error says so", way, fault)
		}
	}
}

// runesIn counts the runes of a line; −2 when there is no such line.
func runesIn(src []byte, line int) int {
	for ; line > 1; line-- {
		i := bytes.IndexByte(src, '\n')
		if i < 0 {
			return -2
		}
		src = src[i+1:]
	}
	if i := bytes.IndexByte(src, '\n'); i >= 0 {
		src = src[:i]
	}
	return utf8.RuneCount(src)
}

// books adds up what the steps of one way use, without the code under test, and
// returns the items of which that is more than the formula has.
func books(c *Card, way int) string {
	used, _ := c.Uses(way, quantity.Int(1))
	sum := make([]quantity.Number, len(c.Items))
	for s := range used {
		for r, u := range used[s] {
			item := c.Steps[s].Text[r].Item
			if item == 0 || u.Amount.Unit == nil {
				continue
			}
			n, ok := quantity.Convert(u.Amount.Qty, u.Amount.Unit, c.Items[item-1].Amount.Unit)
			if ok {
				sum[item-1] = sum[item-1].Add(n)
			}
		}
	}
	for i, n := range sum {
		if c.Items[i].Amount.Unit != nil && n.Cmp(c.Items[i].Amount.Qty) > 0 {
			return fmt.Sprintf("the steps use %s of %s %s", n, c.Items[i].Amount.Qty, c.Items[i].Name)
		}
	}
	return ""
}
