package house

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestBrokenRulesAreFound breaks each rule once, in a package made for it: each
// must be reported.
func TestBrokenRulesAreFound(t *testing.T) {
	const doc = "// Package card is long enough a comment to say what lives here and how one enters it.\n"
	for _, row := range []struct{ name, dir, src, want string }{
		{"clean", "internal/card", doc + "package card\nimport (\"strings\"; \"time\"; \"hobside/internal/quantity\")\nvar a = 1\nfunc f() { a := 2; a++; _ = time.Minute }", ""},
		{"an arrow up", "internal/card", doc + "package card\nimport \"hobside/internal/menu\"", "internal/card imports internal/menu: that arrow goes up"},
		{"an arrow across", "internal/card", doc + "package card\nimport \"hobside/internal/safety\"", "internal/card imports internal/safety: that arrow goes up"},
		{"an arrow to a command", "internal/card", doc + "package card\nimport \"hobside/cmd/dev\"", "internal/card imports cmd/dev: rooms import rooms only"},
		{"a browser outside the tests", "internal/card", doc + "package card\nimport \"hobside/internal/browser\"", "internal/card imports internal/browser, which is outside the house"},
		{"a browser in a command", "cmd/hobside", "// Command hobside is long enough a comment to say what lives here and how one enters it.\npackage main\nimport \"hobside/internal/browser\"",
			"cmd/hobside imports internal/browser, which is outside the house"},
		{"no floor", "internal/attic", "// Package attic is long enough a comment to say what lives here and how one enters it.\npackage attic", "internal/attic is on no floor: give it a line in floors"},
		{"a solver that cooks", "internal/plan/rcpsp", "// Package rcpsp is long enough a comment to say what lives here and how one enters it.\npackage rcpsp\nimport \"hobside/internal/card\"",
			"internal/plan/rcpsp imports hobside/internal/card: the solver knows nothing of kitchens"},
		{"files", "internal/card", doc + "package card\nimport \"os\"", "internal/card imports os, which lets in files and the process"},
		{"network", "internal/card", doc + "package card\nimport \"net/http\"", "internal/card imports net/http, which lets in the network"},
		{"chance", "internal/card", doc + "package card\nimport \"math/rand/v2\"", "internal/card imports math/rand/v2, which lets in chance that no seed repeats"},
		{"another module", "internal/safety", "// Package safety is long enough a comment to say what lives here and how one enters it.\npackage safety\nimport \"github.com/yuin/goldmark\"",
			"internal/safety imports github.com/yuin/goldmark; a pure room needs the standard library alone"},
		{"a clock", "internal/card", doc + "package card\nimport \"time\"\nvar f = time.Now", "internal/card/x.go:4:9: time.Now reads a clock"},
		{"a clock by another name", "internal/card", doc + "package card\nimport t \"time\"\nfunc f() { t.Sleep(1) }", "internal/card/x.go:4:12: time.Sleep reads a clock"},
		{"a goroutine", "internal/card", doc + "package card\nfunc f() { go f() }", "internal/card/x.go:3:12: a goroutine"},
		{"state", "internal/card", doc + "package card\nvar n int\nfunc f() { n++ }", "internal/card/x.go:4:12: n belongs to the whole program and is changed while it runs"},
		{"state in a map", "internal/card", doc + "package card\nvar m = map[int]int{}\nfunc f() { m[1] = 2 }", "internal/card/x.go:4:12: m belongs to the whole program and is changed while it runs"},
		{"no comment", "internal/card", "package card", "internal/card has no package comment"},
		{"a comment that says little", "internal/card", "// Package card has cards.\npackage card", "internal/card: the package comment is too short to say what lives there and how to enter"},
		{"another's comment", "internal/card", "// This is where cards live, and it is a long enough comment to pass.\npackage card", `internal/card: the package comment should begin "Package card …"`},
		{"a name that says nothing", "internal/card/utils", "// Package utils is long enough a comment to say what lives here and how one enters it.\npackage utils", "internal/card/utils: the name says nothing of what lives there"},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := readFiles(t, row.dir, map[string]string{"x.go": row.src})
			faults := append(append(arrows(p), impurities(p)...), unsaid(p)...)
			if row.want == "" {
				assert.Empty(t, faults)
				return
			}
			assert.Contains(t, faults, row.want)
		})
	}
}
