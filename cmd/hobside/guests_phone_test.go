//go:build browser

package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestClashesAreShownInOrderWithWaysOut: on the guests' page what nobody understood is first,
// in red, then what clashes, with plate, component and ingredient, then what may, then, folded,
// what nobody has assessed. A way out is taken by one tap, with no network; amounts follow, and
// it can be undone.
func TestClashesAreShownInOrderWithWaysOut(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		require.NoError(t, r.stop())
		guests := func(lines string) {
			p.eval(`import("/app/events.js").then((m) => m.emit("guests", "", { text: ` + "`" + lines + "`" + ` }))`)
		}
		p.turns(hash(r, "s/boathouse/guests"))
		p.see("#guests .guest")
		guests("1 cover: no trout\n1 cover: no yeast\n1 cover: no thyme\n1 cover: no nutz (by the door)")
		p.reads("#guests [data-clash=notChecked]", "Not checked: ")
		p.reads("#guests [data-clash=notChecked]", "Did you mean nut?")
		p.reads("#clashes", "Lamb sauce › thyme")
		p.reads("#clashes", "1 cover without trout")
		p.see("#may-contain")
		assert.Equal(t, "true", p.eval(`(() => {
			const top = ["[data-clash=notChecked]", "#clashes", "#may-contain", "#who-h"].map((x) => document.querySelector(x).getBoundingClientRect().top);
			return top.every((y, i) => !i || y > top[i - 1]);
		})()`), "in this order")
		p.eval("scrollTo(0, 0)")
		check("guests")

		// Another plate of the course.
		p.tap(`#clashes [data-plate^="Trout"] [data-way-out=plate]`)
		p.until(`!document.querySelector('#clashes [data-plate^="Trout"]')`)
		p.reads("#guests .seated", "they get Salt-baked beetroot")
		check("guests-seated")
		covers := func(plate string) string {
			return p.eval(`import("/app/state.js").then((m) => m.dinner.value.courses[2].plates.find((x) => x.card === "` + plate + `").covers)`)
		}
		assert.Equal(t, "17 1", covers("trout-plate")+" "+covers("beetroot-plate"), "amounts follow")
		p.tap("#undo-guests")
		p.see(`#clashes [data-plate^="Trout"] [data-way-out=plate]`)
		assert.Equal(t, "18 0", covers("trout-plate")+" "+covers("beetroot-plate"))

		// An optional item left off.
		p.tap(`#clashes [data-way-out=leave]`)
		p.until(`!document.querySelector("#clashes").innerText.includes("Lamb sauce › thyme")`)
		p.kept()
		p.reload()
		p.see("#clashes")
		assert.NotContains(t, p.see("#clashes"), "Lamb sauce › thyme", "after a reload")

		// The word that was meant.
		p.tap("[data-clash=notChecked] [data-meant]")
		p.until(`!document.querySelector("[data-clash=notChecked]")`)
		p.reads("#guests .groups", "without nut")
		p.reads("#guests .groups", "by the door")

		// What was not understood is not lost when the rows are opened.
		guests("1 cover: no nutz\n1 cover: vegan, no nuts\n1 cover: halal")
		p.reads("#guests", "Not checked: halal: how the animals were slaughtered")
		p.reads("#guests .groups", "1 cover, vegan, without nuts")
		check("guests-in-part")
		p.tap("#change-guests")
		assert.Contains(t, p.eval(`document.querySelector("[data-guest=no0]").value`), "nutz")
		assert.Equal(t, "true", p.eval(`[...document.querySelector("[data-guest=pick0]").options].length > 20`), "a list to pick from")
		check("guests-change")
	})
}

// TestSheetHasNutrition: the allergen sheet to print has what each plate consists of once that
// was asked for; of a plate of which too little is known, what is missing.
func TestSheetHasNutrition(t *testing.T) {
	inLooks(t, func(t *testing.T, r running, p *phone, check func(string)) {
		p.turns(hash(r, "s/boathouse/guests"))
		p.see("#sheet .plate-sheet")
		p.tap("#with-nutrition")
		p.see("#sheet .nutrition[data-share]")
		assert.Equal(t, p.eval(`import("/app/state.js").then((m) => m.dinner.value.courses.flatMap((c) => c.plates).filter((x) => x.covers).length)`), p.eval(`document.querySelectorAll("#sheet .plate-sheet .nutrition").length`), "each plate that somebody gets says it, or what is missing")
		assert.Equal(t, "true", p.eval(`[...document.querySelectorAll("#sheet .nutrition")].every((n) => (n.dataset.known === "1") === !!n.querySelector(".declaration") && (n.dataset.known === "1" || Number(n.dataset.share) < 95 || !!n.innerText.includes("no figure")))`))
		p.eval(`document.querySelector("#sheet .nutrition").scrollIntoView()`)
		check("sheet")
	})
}
