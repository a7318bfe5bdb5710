package engine

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
)

// partsCard uses its items in parts of every kind.
const partsCard = `---
makes: 1 kg
---

# Parts

## Formula

- 500 g butter
- 7 g salt
- 330 ml milk
- 5 tbsp oil
- 1.5 kg flour
- 3 eggs, each 50 g
- 1 lb sugar
- 1 pinch saffron

## Method

1. Take **half the butter**, **a third of the salt**, **100 ml milk**, **a quarter of the oil**, **20 % of the flour**, **half the eggs**, **a sixth of the sugar** and **half the saffron**.
   - hands: 5 min
2. Then **120 g butter**, **a third of the salt**, **half the milk**, **a quarter of the oil**, **a third of the flour**, **1 egg** and **a tenth of the sugar**.
   - hands: 5 min
3. And the **rest of the butter**, **rest of the salt**, **rest of the milk**, **rest of the oil**, **rest of the flour**, **rest of the eggs**, **rest of the sugar** and the **rest of the saffron**.
   - hands: 5 min
`

const partsMenu = "---\ncovers: 10\n---\n\n# Supper\n\n## First\n\n- [Parts](parts.md): 77 g per cover\n"

// addsUp holds the amounts that the steps of a batch show of each item to what
// its mise shows. What is compared is the text, as a cook would add it up. A
// part smaller than the scale can weigh is shown all the same, as what it is:
// by that much, and no more, the sum may be over.
func addsUp(t testing.TB, m BatchView, prefs Prefs, slack func(MiseView) float64) (compared int) {
	t.Helper()
	uses := make([][]string, len(m.Mise)+1)
	for _, s := range m.Steps {
		for _, r := range s.Runs {
			if r.Item > 0 && r.Amount != "" {
				uses[r.Item] = append(uses[r.Item], r.Amount)
			}
		}
	}
	for i, mise := range m.Mise {
		parts := uses[i+1]
		if len(parts) < 2 || mise.Amount == "to taste" || strings.Contains(mise.Amount, "–") {
			continue
		}
		compared++
		sum, may, counted := 0., slack(mise)+figure(prefs, mise.Amount)+1e-6, 0
		for _, text := range parts {
			n := base(text)
			sum += n
			if !strings.Contains(text, " ") {
				counted++
			}
			if n < least(prefs, mise.Amount)-1e-6 {
				may += n
			}
		}
		if counted > 0 && counted < len(parts) || counted == 0 && !strings.Contains(mise.Amount, " ") {
			continue // three eggs, of them 75 g, 1 and 25 g: no sum a cook would do
		}
		under := slack(mise) + figure(prefs, mise.Amount) + may/50 // next to nothing is told in two figures
		if d := sum - base(mise.Amount); d > may || -d > under {
			t.Errorf("%s: the steps show %s, the mise %s of %s", m.Key, strings.Join(parts, " + "), mise.Amount, mise.Name)
		}
	}
	return compared
}

// figure is what the sum of the parts of a shown amount may be off: half of its last
// figure or of a step of the scale, and in cups and pounds, of which each is at most 2 % off, 4 %.
func figure(prefs Prefs, amount string) float64 {
	number, unit, _ := strings.Cut(amount, " ")
	switch unit {
	case "g", "kg", "ml", "L":
		_, decimals, _ := strings.Cut(number, ".")
		last := base("1 "+unit) / math.Pow(10, float64(len(decimals)))
		if prefs.System != "us" && prefs.Scale == "5 g" && unit == "g" {
			last = max(last, 5)
		}
		for top, mark := 100., 5.; base(amount) > top && unit != "g" && unit != "kg"; top, mark = top*100, mark*10 {
			last = max(last, mark) // of the jug
		}
		return last / 2
	}
	return base(amount) * 0.04
}

// least is the smallest part of an amount that can be weighed or poured.
func least(prefs Prefs, amount string) float64 {
	weighed := strings.HasSuffix(amount, "g") || strings.HasSuffix(amount, "oz") || strings.HasSuffix(amount, "lb")
	switch {
	case weighed && prefs.System == "us":
		return 28.349523125 / 4
	case weighed:
		return base(prefs.Scale)
	case prefs.System == "us":
		return 4.92892159375 / 4
	}
	return 0.5
}

func exactly(MiseView) float64 { return 0 }

// units are the ways a cook may have amounts shown.
var units = []Prefs{{System: "metric", Scale: "1 g"}, {System: "metric", Scale: "0.1 g"}, {System: "metric", Scale: "5 g"}, {System: "us"}}

// TestPartsAddUpInTheDemo goes through all cards of the demo, for 1 to 60
// covers, in every choice of units.
func TestPartsAddUpInTheDemo(t *testing.T) {
	p, _ := demo(t)
	for covers := 1; covers <= 60; covers++ {
		prefs := units[covers%len(units)]
		call[Sheet](t, p.e, "prefs", prefs)
		d := p.covers(covers)
		compared := 0
		for _, c := range d.Cards {
			for _, m := range c.Batches {
				compared += addsUp(t, m, prefs, exactly)
			}
		}
		require.Positive(t, compared)
		if t.Failed() {
			t.Fatalf("at %d covers, %s %s", covers, prefs.System, prefs.Scale)
		}
	}
}

// TestPartsAddUp does so for a card made for it, where every kind of part meets
// every kind of unit, at whatever size.
func TestPartsAddUp(t *testing.T) {
	p, d := openMenu(t, []File{{"parts.md", partsCard}, {"supper.md", partsMenu}}, "supper.md")
	require.Empty(t, said(d.Problems))
	rapid.Check(t, func(rt *rapid.T) {
		prefs := rapid.SampledFrom(units).Draw(rt, "units")
		prefs.Dinner = p.dinner
		covers := rapid.IntRange(1, 400).Draw(rt, "covers")
		p.tap(dinner.Event{Kind: dinner.KindCovers, Number: covers})
		d := call[Sheet](t, p.e, "prefs", prefs).Dinner
		m := cardOf(t, d, "parts").Batches[0]
		n := addsUp(t, m, prefs, func(v MiseView) float64 {
			if v.Name == "saffron" || v.Name == "oil" && strings.Contains(v.Amount, "tbsp") {
				return 14.8 // spoons and pinches are told in quarters, each by itself
			}
			return 0
		})
		if n < len(m.Mise)-1 || t.Failed() {
			rt.Fatalf("%d of %d items compared at %d covers in %s", n, len(m.Mise), covers, prefs.System)
		}
	})
}

// failed counts the failures that a test would have reported.
type failed struct {
	testing.TB
	n int
}

func (f *failed) Helper()               {}
func (f *failed) Errorf(string, ...any) { f.n++ }

// TestAddsUpFindsWrongSums gives addsUp wrong sums, which it must report.
func TestAddsUpFindsWrongSums(t *testing.T) {
	for _, row := range []struct {
		whole  string
		parts  []string
		faults int
	}{
		{"1.25 kg", []string{"1 kg", "250 g"}, 0},
		{"1.25 kg", []string{"1 kg", "244 g"}, 1},
		{"1.25 kg", []string{"1 kg", "256 g"}, 1},
		{"5 g", []string{"5 g", "0.4 g"}, 0},
		{"5 g", []string{"6 g", "0.4 g"}, 1},
		{"5 g", []string{"4 g", "0.4 g"}, 1},
	} {
		m := BatchView{Mise: []MiseView{{Amount: row.whole}}}
		for _, part := range row.parts {
			m.Steps = append(m.Steps, StepView{Runs: []RunView{{Item: 1, Amount: part}}})
		}
		f := &failed{TB: t}
		assert.Equal(t, 1, addsUp(f, m, units[0], exactly))
		assert.Equal(t, row.faults, f.n, "%s of %s", row.parts, row.whole)
	}
	for text, want := range map[string]float64{"1 lb 4 oz": 566.99, "1 ½ tsp": 7.393, "¾ cup": 177.44, "4 pieces": 4, "2 ½": 2.5, "about 1.6 kg": 1600, "3 ¼ oz": 92.136} {
		assert.InDelta(t, want, base(text), 0.01, text)
	}
}
