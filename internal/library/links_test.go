package library

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// uses writes a card that makes a kilogram of one linked item.
func uses(link string) string {
	return "---\nmakes: 1 kg\n---\n# Card\n\n## Formula\n\n- 1 kg " + link + "\n\n## Method\n\n1. Warm the **thing**.\n   - hob: 1 ring\n   - hands: 5 min\n"
}

// titled gives a card another title.
func titled(title, text string) string { return strings.Replace(text, "# Card", "# "+title, 1) }

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
		{"an order with a card that is not there", map[string]string{"a.md": uses("thing") + "   - before: Trout fillet\n   - after: the moon\n", "b.md": titled("Trout fillets", uses("thing"))},
			[]string{`a.md:15:14: there is no card "Trout fillet"; did you mean "Trout fillets"?; write the title of a card, or take the line out`,
				`a.md:16:13: there is no card "the moon"; write the title of a card, or take the line out`}},
		{"an order with a step that is not there", map[string]string{"a.md": uses("thing") + "   - before: Trout fillets, step 3\n", "b.md": titled("Trout fillets", uses("thing"))},
			[]string{"a.md:15:14: Trout fillets has no step 3; its last step is 1"}},
		{"two steps that wait for each other", map[string]string{"a.md": titled("Bread", uses("thing")) + "   - after: Trout, step 1\n", "b.md": titled("Trout", uses("thing")) + "   - after: Bread\n"},
			[]string{"a.md:15:13: these steps wait for each other: Bread, step 1 → Trout, step 1 → Bread, step 1; take one of the lines out"}},
		{"a step before one that makes what it takes", map[string]string{"a.md": titled("Bread", uses("[thing](b.md)")) + "   - before: Trout, step 1\n", "b.md": titled("Trout", uses("thing"))},
			[]string{"a.md:15:14: these steps wait for each other: Bread, step 1 → Trout, step 1 → Bread, step 1; take one of the lines out"}},
		{"a ring by what cards handle", map[string]string{"a.md": titled("Bread", strings.ReplaceAll(uses("wheat flour"), "thing", "wheat flour")) + "   - after: anything with fish\n", "b.md": titled("Trout", strings.ReplaceAll(uses("trout"), "thing", "trout")) + "   - after: anything with gluten\n"},
			[]string{"a.md:15:13: these steps wait for each other: Bread, step 1 → Trout, step 1 → Bread, step 1; take one of the lines out"}},
		{"kept apart from what it handles", map[string]string{"a.md": strings.ReplaceAll(uses("wheat flour"), "thing", "wheat flour") + "   - apart: gluten\n"},
			[]string{"a.md:12:4: step 1 is kept apart from gluten and handles it; take one of the two out"}},
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
