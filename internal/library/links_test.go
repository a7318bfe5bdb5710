package library

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// uses writes a card that makes a kilogram of one linked item.
func uses(link string) string {
	return "---\nmakes: 1 kg\n---\n# Card\n\n## Formula\n\n- 1 kg " + link + "\n\n## Method\n\n1. Warm the **thing**.\n   - hob: 1 ring\n   - hands: 5 min\n"
}

func TestLinks(t *testing.T) {
	for _, tt := range []struct {
		name  string
		files map[string]string
		want  []string
	}{
		{"all there", map[string]string{"a.md": uses("[thing](b.md)"), "b.md": uses("thing")}, nil},
		{"a missing card", map[string]string{"a.md": uses("[thing](stok.md)")},
			[]string{"a.md:8:8: there is no card stok.md; write that card, or correct the link"}},
		{"a by-product nobody saves", map[string]string{"a.md": uses("[thing](b.md#fat)"), "b.md": uses("thing")},
			[]string{`a.md:8:8: "Card" saves no fat; add it under "## Saves" in b.md`}},
		{"a loop of three", map[string]string{"a.md": uses("[thing](b.md)"), "b.md": uses("[thing](c.md)"), "c.md": uses("[thing](a.md)")},
			[]string{"c.md:8:8: these cards need each other in a loop: a → b → c → a; take one of the links out"}},
		{"a card that needs itself", map[string]string{"a.md": uses("[thing](a.md)")},
			[]string{"a.md:8:8: these cards need each other in a loop: a → a; take one of the links out"}},
		{"a menu's missing plate and kitchen", map[string]string{"m.md": "---\ncovers: 2\nkitchen: kk.md\n---\n# M\n\n## A\n\n- [X](x.md)\n"},
			[]string{"m.md:9:4: there is no card x.md; write that card, or correct the link", "m.md:1:1: there is no kitchen kk.md; write that file, or correct the kitchen line"}},
		{"a kitchen without a hob", map[string]string{"a.md": uses("thing"), "m.md": "---\ncovers: 2\nkitchen: k.md\n---\n# M\n\n## A\n\n- [X](a.md)\n", "k.md": "---\ncooks: 1\noven: 1\n---\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n"},
			[]string{`a.md:12:4: warning: the kitchen has no "hob"; add it to k.md, or do the step another way`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			set := Set{}
			for name, text := range tt.files {
				set[name] = Compile(name, text)
				require.Empty(t, set[name].Problems)
			}
			var got []string
			for _, p := range set.links() {
				got = append(got, p.Error())
			}
			assert.Equal(t, tt.want, got)
		})
	}
}
