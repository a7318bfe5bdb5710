package library

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/document"
	"hobside/internal/document/filetest"
)

func said(problems []document.Problem) []string {
	out := []string{}
	for _, f := range problems {
		out = append(out, f.Error())
	}
	return out
}

// TestCheckBetweenFiles checks the problems that only several files together
// have.
func TestCheckBetweenFiles(t *testing.T) {
	for _, row := range []struct {
		name  string
		files []Source
		want  []string
	}{
		{"nothing", nil, []string{}},
		{"a chain", []Source{{"a.md", filetest.Mix("A", "999 g [B](b.md)")}, {"b.md", filetest.Mix("B", "999 g peas")}}, []string{}},
		{"a loop of three", []Source{{"a.md", filetest.Mix("A", "999 g [B](b.md)")}, {"b.md", filetest.Mix("B", "999 g [C](c.md)")}, {"c.md", filetest.Mix("C", "999 g peas", "100 g [A](a.md)")}},
			[]string{"c.md:10:9: these cards need each other in a loop: a → b → c → a; take one of the links out"}},
		{"a card that needs itself", []Source{{"a.md", filetest.Mix("A", "999 g [A](a.md)")}},
			[]string{"a.md:9:9: these cards need each other in a loop: a → a; take one of the links out"}},
		{"two loops", []Source{{"a.md", filetest.Mix("A", "999 g [B](b.md)")}, {"b.md", filetest.Mix("B", "999 g [A](a.md)", "200 g [C](c.md)")}, {"c.md", filetest.Mix("C", "999 g [B](b.md)")}},
			[]string{"b.md:9:9: these cards need each other in a loop: a → b → a; take one of the links out",
				"c.md:9:9: these cards need each other in a loop: b → c → b; take one of the links out"}},
		{"a missing card", []Source{{"a.md", filetest.Mix("A", "999 g [Stock](stok.md)")}, {"stock.md", filetest.Mix("Stock", "999 g bones")}},
			[]string{`a.md:9:9: there is no card stok.md; did you mean "stock.md"?; write that card, or correct the link`}},
		{"a missing card near none", []Source{{"a.md", filetest.Mix("A", "999 g [Stock](stock.md)")}},
			[]string{"a.md:9:9: there is no card stock.md; write that card, or correct the link"}},
		{"a by-product nobody saves", []Source{{"a.md", filetest.Mix("A", "999 g [fat](stock.md#fat)")}, {"stock.md", filetest.Mix("Stock", "999 g bones")}},
			[]string{`a.md:9:9: "Stock" saves no fat; add it under "## Saves" in stock.md`}},
		{"two cards of one name", []Source{{"old/stock.md", filetest.Mix("Old stock", "999 g bones")}, {"new/stock.md", filetest.Mix("New stock", "999 g bones")}},
			[]string{"new/stock.md:1:1: two files of one name: old/stock.md is called stock.md too; rename one; links could mean either"}},
		{"a link goes by name, whatever the folder", []Source{{"plates/a.md", filetest.Mix("A", "999 g [B](../base/b.md)")}, {"base/b.md", filetest.Mix("B", "999 g peas")}}, []string{}},
		{"a menu without its cards and kitchen", []Source{{"m.md", "---\ncovers: 4\nkitchen: k.md\n---\n\n# Supper\n\n## Soup\n\n- [Soup](soup.md)\n"}},
			[]string{"m.md:10:4: there is no card soup.md; write that card, or correct the link",
				"m.md:1:1: there is no kitchen k.md; write that file, or correct the kitchen line"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, said(Check(row.files)))
		})
	}
}

// Check returns the problems of files, each alone and all together.
func Check(files []Source) []document.Problem {
	set, _, problems := Gather(files)
	return append(problems, set.Check()...)
}
