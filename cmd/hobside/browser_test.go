//go:build browser

package main

import (
	"path/filepath"
	"testing"
)

// screens are all screens: the address of each, and what is there when it is
// complete.
var screens = []struct{ name, path, wait string }{
	{"home", "", "#menus a"},
	{"dinner", "s/boathouse", "#cards-to-make li"},
	{"order", "s/boathouse/order", "main li"},
	{"guests", "s/boathouse/guests", "main li"},
	{"batch", "s/boathouse/card/light-chicken-stock", "#mise li"},
	{"ways", "s/boathouse/card/pressed-lamb", "#way-1"},
	{"step", "s/boathouse/card/light-chicken-stock/1/1", "#say"},
	{"step-fry", "s/boathouse/card/polenta-fingers/1/7", "#say"},
	{"step-long", "s/boathouse/card/honey-parfait/1/2", "#say"},
	{"end", "s/boathouse/card/light-chicken-stock/1/end", "#say"},
	{"new", "new/boathouse-supper.md", "#make-dinner"},
	{"cards", "cards", "main a[data-file]"},
	{"card", "card/overnight-crust-bread.md", "#prose table"},
	{"menu", "card/boathouse-supper.md", "#prose h2"},
	{"edit", "card/herb-oil.md/edit", "textarea"},
	{"settings", "settings", "main h1"},
	{"plan", "s/boathouse/plan", "#plan .task"},
	{"pass", "s/boathouse/pass/3", "#pass .mark"},
	{"controls", "s/boathouse/controls", ".control"},
	{"labels", "s/boathouse/labels", ".label"},
	{"house", "house", "#backup"},
}

// TestLook takes a picture of every screen, narrow and wide, light and dark, and
// checks that nothing is cut off at its side.
func TestLook(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	for _, look := range []struct {
		name string
		size [2]int64
		dark bool
	}{
		{"phone-light", [2]int64{390, 844}, false},
		{"phone-dark", [2]int64{390, 844}, true},
		{"narrow", [2]int64{320, 640}, false},
		{"desk", [2]int64{1280, 800}, false},
	} {
		t.Run(look.name, func(t *testing.T) {
			t.Parallel()
			p := started(&phone{t: t, size: look.size, dark: look.dark})
			p.visit(r.url)
			p.see("#dinners a[data-dinner=boathouse]")
			p.until("document.querySelector('#menus a')")
			for _, screen := range screens {
				p.turns(hash(r, screen.path))
				p.see(screen.wait)
				p.fits(screen.name)
				p.shot(look.name + "-" + screen.name)
			}
		})
	}
}
