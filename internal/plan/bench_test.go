package plan

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func BenchmarkDemo(b *testing.B) {
	in := supper(b, 18)
	for b.Loop() {
		_, err := Make(in)
		require.NoError(b, err)
	}
}

// BenchmarkRePlan plans again when a step runs late a quarter of an hour before
// service.
func BenchmarkRePlan(b *testing.B) {
	in := supper(b, 18)
	first, err := Make(in)
	require.NoError(b, err)
	for _, tt := range []struct {
		name string
		now  int
	}{{"evening before", -1500}, {"afternoon", -200}, {"at the pass", -15}} {
		in := begun(in, first, tt.now)
		for s, p := range in.Progress {
			if !p.Done {
				p.End += 10
				in.Progress[s] = p
			}
		}
		b.Run(tt.name, func(b *testing.B) {
			for b.Loop() {
				_, err := Make(in)
				require.NoError(b, err)
			}
		})
	}
}

// BenchmarkHopelesslyLate plans an hour before service when nothing was done, and when
// nothing was done for the last two hours.
func BenchmarkHopelesslyLate(b *testing.B) {
	in := supper(b, 18)
	first, err := Make(in)
	require.NoError(b, err)
	nothing := in
	nothing.Under, nothing.Now, nothing.Known = true, -60, first.Starts()
	behind := begun(in, first, -120)
	behind.Now = 0
	for _, tt := range []struct {
		name string
		in   Input
	}{{"nothing done", nothing}, {"two hours behind", behind}} {
		b.Run(tt.name, func(b *testing.B) {
			for b.Loop() {
				_, err := Make(tt.in)
				require.NoError(b, err)
			}
		})
	}
}

// BenchmarkBlocked finds why a dinner can't be done and which changes would make
// it possible.
func BenchmarkBlocked(b *testing.B) {
	in := supper(b, 18)
	in.Kitchen.Cooks = in.Kitchen.Cooks[:1]
	for b.Loop() {
		_, err := Make(in)
		why := new(Blocked)
		if !errors.As(err, &why) {
			b.Fatal(err)
		}
		in.Free(why)
	}
}

func BenchmarkChances(b *testing.B) {
	pl, err := Make(supper(b, 18))
	require.NoError(b, err)
	for b.Loop() {
		pl.Chances(500, 1)
	}
}

// banquet is a dinner of so many steps: cards of five steps each, a stew, a bake,
// a salad and so on again and again, with as many cooks as they need.
func banquet(t failer, steps int) Input {
	cards, items := map[string]string{}, []string{"1 g salt"}
	for i := 0; i < steps/5; i++ {
		id := fmt.Sprintf("c%d", i)
		items = append(items, fmt.Sprintf("10 g [Card %d](%s.md)", i, id))
		first := fmt.Sprintf("Cut.; hands: %d min; keep: 12 h chilled", 5+i%7)
		rest := [][]string{
			{"Brown.; hob: 1 ring; hands: 10 min; keep: 30 min room", "Simmer.; hob: 1 ring; hands: 4 min; wait: 40 min", "Strain.; hands: 5 min; keep: 1 h room", "Chill.; fridge; hands: 3 min; wait: at least 1 h; keep: 2 d chilled"},
			{"Mix.; mixer; hands: 8 min; keep: 1 h room", "Bake.; oven: 180 °C, 1 shelf; hands: 3 min; wait: 25 min; keep: 15 min hot", "Cool.; hands: 4 min; wait: 40 min; keep: 1 d room", "Trim.; hands: 6 min; keep: 1 d chilled"},
			{"Salt.; hands: 3 min; wait: 30 min; keep: 1 h room", "Rinse.; hands: 4 min; keep: 2 h chilled", "Pickle.; fridge; hands: 5 min; wait: at least 3 h; keep: 2 d chilled", "Drain.; hands: 3 min; keep: 8 h chilled"},
		}[i%3]
		cards[id] = recipe(fmt.Sprintf("Card %d", i), "makes: 1 kg", []string{"1 kg onions"}, append([]string{first}, rest...)...)
	}
	cards["plate"] = recipe("Plate", "makes: 1 plate", items, "Send.; hands: 5 min; serve")
	kitchen := galley(1+steps/75, "07:00–24:00", fmt.Sprintf("hob: %d", 4+steps/50), fmt.Sprintf("oven: 1, %d shelves", 2+steps/100), fmt.Sprintf("mixer: %d", 1+steps/100), "fridge")
	kitchen = strings.Replace(kitchen, "- on the day", "- the day before: 08:00–23:00\n- on the day", 1)
	return cook(t, kitchen, courses(8, "plate"), cards)
}

// BenchmarkGrowth plans dinners of ever more steps.
func BenchmarkGrowth(b *testing.B) {
	for _, n := range []int{50, 100, 200, 400, 1000} {
		in := banquet(b, n)
		pl, err := Make(in)
		require.NoError(b, err)
		require.Empty(b, breaks(in, pl))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				_, err := Make(in)
				require.NoError(b, err)
			}
		})
	}
}
