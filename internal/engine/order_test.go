package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestOrderAddsUp adds up the parts that a line shows for its cards: they are
// what the line needs, and what is bought is never less.
func TestOrderAddsUp(t *testing.T) {
	p, _ := demo(t)
	call[Sheet](t, p.e, "prefs", Prefs{Dinner: p.dinner, System: "metric", Scale: "0.1 g"})
	for _, covers := range []int{18, 24, 7, 31} {
		if covers != 18 {
			p.covers(covers)
		}
		order := call[dinner.OrderList](t, p.e, "order", DinnerCall{Dinner: p.dinner})
		require.GreaterOrEqual(t, len(order.Sections), 5)
		lines, keys := 0, map[string]bool{}
		for _, s := range order.Sections {
			for _, l := range s.Lines {
				lines++
				assert.False(t, keys[l.Key], "two lines %s", l.Key)
				keys[l.Key] = true
				require.NotEmpty(t, l.For, l.Name)
				if strings.Contains(l.Need, "+") || l.Need == "" {
					continue // two measures that nothing brings together, or to taste
				}
				unit := l.Need[strings.LastIndexByte(l.Need, ' ')+1:]
				sum, same := 0., true
				for _, w := range l.For {
					_, amount, ok := strings.Cut(w, ": ")
					require.True(t, ok, w)
					for strings.Contains(amount, ": ") {
						_, amount, _ = strings.Cut(amount, ": ")
					}
					u := amount[strings.LastIndexByte(amount, ' ')+1:]
					same = same && weight(u) == weight(unit)
					sum += base(amount)
				}
				if same { // the shown figures add up to the need, in its own figures: three from a kilogram up, rounded up
					need, step := base(l.Need), 0.1 // of the scale
					for top := 1000.; need >= top && weight(unit); top *= 10 {
						step = top / 100
					}
					assert.True(t, sum <= need+1e-6 && sum > need-step-1e-6, "%s: %s of %s", l.Name, l.For, l.Need)
				}
				if bought := l.Buy[strings.LastIndexByte(l.Buy, ' ')+1:]; weight(bought) && weight(unit) && !strings.ContainsAny(l.Buy, "×+") {
					assert.GreaterOrEqual(t, base(l.Buy), base(l.Need)-0.051, "%s: buy %s, need %s", l.Name, l.Buy, l.Need)
				}
			}
		}
		assert.Greater(t, lines, 40)
		assert.False(t, keys["order/water"], "tap water is not bought")
		assert.True(t, keys["order/chicken-backs"] || keys["order/chicken-back"], "%v", keys)
	}
}

func weight(unit string) bool { return unit == "g" || unit == "kg" }

// TestOrderDoublesWithTheCovers: at twice the covers, what scales without a smallest batch
// or whole loaves needs twice as much.
func TestOrderDoublesWithTheCovers(t *testing.T) {
	p, _ := demo(t)
	need := func() map[string]string {
		out := map[string]string{}
		for _, s := range call[dinner.OrderList](t, p.e, "order", DinnerCall{Dinner: p.dinner}).Sections {
			for _, l := range s.Lines {
				out[l.Key] = l.Need
			}
		}
		return out
	}
	once := need()
	p.covers(36)
	twice := need()
	// lettuce: 200 g × 2.835 ÷ 2.5 = 226.8 g; 453.6 g.
	assert.Equal(t, "227 g", once["order/lettuce"])
	assert.Equal(t, "454 g", twice["order/lettuce"])
}
