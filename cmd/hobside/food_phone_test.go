//go:build browser

package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// looks are the sizes and colours in which the screens of what goes in are looked at: each
// size and each colour once.
var looks = []struct {
	name string
	size [2]int64
	dark bool
}{
	{"phone-light", [2]int64{390, 844}, false},
	{"desk-dark", [2]int64{1280, 800}, true},
}

// inLooks runs a test in each of looks, against a server of its own. Check, given to it,
// holds what is on the screen to the rules: nothing cut off, nothing too small to touch,
// no rule of accessibility broken; and keeps a picture.
func inLooks(t *testing.T, test func(t *testing.T, r running, p *phone, check func(name string))) {
	t.Parallel()
	script := axe(t)
	for _, look := range looks {
		t.Run(look.name, func(t *testing.T) {
			r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
			p := started(&phone{t: t, size: look.size, dark: look.dark})
			p.cookable(r)
			test(t, r, p, func(name string) {
				p.fits(name)
				p.holds(small, name, "too small to touch")
				assert.Empty(t, p.rules(script), name)
				p.shot("food-" + look.name + "-" + name)
			})
		})
	}
}

// TestTapOnIngredientTellsWhatIsKnown taps an ingredient of a batch, of a card, of the
// order list and at the stove, with no network: a window tells what is known of it, and
// from where.
func TestTapOnIngredientTellsWhatIsKnown(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		require.NoError(t, r.stop())
		for _, s := range []struct{ name, path, before, tap string }{
			{"stove", "s/boathouse/card/light-chicken-stock/1/1", "", "#amounts [data-about='chicken backs']"},
			{"order", "s/boathouse/order", "#order .tickrow:has([data-about=onion]) .why summary", "#order [data-about=onion]"},
			{"card", "card/light-chicken-stock.md", "", "#prose [data-about=onions]"},
			{"batch", "s/boathouse/card/light-chicken-stock", "", "#mise [data-about=onions]"},
		} {
			p.turns(hash(r, s.path))
			if s.before != "" {
				p.tap(s.before)
			}
			p.tap(s.tap)
			p.see("#food .facts")
			if s.name != "batch" {
				p.tap("#food [data-close]")
				p.until("!document.querySelector('dialog[open]')")
			}
		}
		p.reads("#food [data-fact='one weighs']", "110 g")
		p.reads("#food [data-fact='one weighs']", "SR28 11282")
		p.reads("#food [data-fact=allergens]", "none of the two lists")
		p.reads("#food [data-fact=keeps]", "7 d")
		check("ingredient")
		p.tap("#consists")
		p.reads("#food .trouble", "when the server can be reached")
	})
}

// TestNutritionIsKeptFromFirstUse: what foods consist of is not fetched on the first visit.
// It is when nutrition is first opened, and from then on a card's nutrition is shown with no
// network, also after the browser was closed.
func TestNutritionIsKeptFromFirstUse(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		kept := `(async () => { for (const name of await caches.keys()) if (await (await caches.open(name)).match("/composition.txt")) return true; return false; })()`
		require.Equal(t, "false", p.eval(kept), "not of the first visit")
		p.turns(hash(r, "card/honey-parfait.md"))
		p.tap("#nutrition summary")
		p.see("#nutrition .nutrition[data-known='1'] [data-rules='EU, UK']")
		assert.Equal(t, `["energy","fat","of which saturates","carbohydrate","of which sugars","fibre","protein","salt"]`,
			p.eval(`JSON.stringify([...document.querySelectorAll("[data-rules='EU, UK'] tbody th")].map((x) => x.innerText))`),
			"the order of Regulation (EU) No 1169/2011 Annex XV")
		p.reads("[data-rules='EU, UK'] thead", "100 g")
		p.reads("[data-rules='EU, UK'] thead", "1 ")
		p.reads("#nutrition", "of the weight has a composition")
		p.until(kept)
		p.eval(`document.querySelector("#nutrition").scrollIntoView()`)
		check("nutrition")

		require.NoError(t, r.stop())
		p.close()
		p.open()
		p.visit(hash(r, "card/honey-parfait.md"))
		p.tap("#nutrition summary")
		p.see("#nutrition .nutrition[data-known='1']")

		p.turns(hash(r, "card/light-chicken-stock.md")) // strained: what is thrown away is not known
		p.reads("#nutrition .nutrition[data-known='0']", "no figure is given")
		p.reads("#nutrition .missing", "strained off")
		check("nutrition-missing")
	})
}

// TestOrderIsByDeliveryOnThePhone: each line has the day by which to buy it, the list is by
// delivery and section; without a plan it says so.
func TestOrderIsByDeliveryOnThePhone(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		p.turns(hash(r, "s/boathouse/order"))
		p.see("#order .delivery[data-day^='2027-06'] h3")
		assert.Equal(t, "true", p.eval(`[...document.querySelectorAll(".delivery[data-day^='2027'] .tickrow")].every((x) => /buy by (Mon|Tue|Wed|Thu|Fri|Sat|Sun)/.test(x.innerText))`))
		assert.Equal(t, "true", p.eval(`(() => { const days = [...document.querySelectorAll(".delivery[data-day^='2027']")].map((x) => x.dataset.day); return days.length > 0 && days.join() === [...days].sort().join(); })()`), "in order of their days")
		assert.Equal(t, "false", p.eval(`!!document.querySelector("#no-plan")`))
		check("order")
		p.tap(".tickrow:has([data-about='salt, fine']) .why summary")
		p.see("[data-about='salt, fine']")
		check("order-line")

		require.NoError(t, r.stop())
		p.eval(`import("/app/events.js").then((m) => m.emit("serve", "", { text: "" }))`)
		p.reads("#no-plan", "Without a plan")
		p.see("#order h2")
		check("order-no-plan")
	})
}

// A line of the prep list is done when the mise en place of all its cards is: a tap on it
// ticks them, and a second tap takes that back.
func TestPrepLineTicksItsCardsOnThePhone(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		p.turns(hash(r, "s/boathouse/prep"))
		p.see("#prep .delivery[data-day^='2027-06'] .tickrow")
		check("prep")
		const line = `[...document.querySelectorAll("#prep .tickrow")].find((x) => x.dataset.key.includes(","))`
		keys := strings.Split(p.eval(line+".dataset.key"), ",")
		require.Greater(t, len(keys), 1, "one ingredient for several cards")
		done := func(key string) string {
			return p.eval(`import("/app/state.js").then((m) => m.tick("` + key + `").value)`)
		}
		p.eval(line + `.querySelector("input").click()`)
		p.see("#prep .tickrow.done")
		for _, key := range keys {
			assert.Equal(t, "true", done(key), key)
		}
		p.eval(line + `.querySelector("input").click()`)
		for _, key := range keys {
			assert.Equal(t, "false", done(key), key)
		}
	})
}
