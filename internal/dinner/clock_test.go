package dinner

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// figure5 is the hybrid logical clock as published: Kulkarni, Demirbas, Madappa,
// Avva, Leone, "Logical Physical Clocks", OPODIS 2014, Fig. 5; written down from
// memory, with the figure's own names.
type figure5 struct {
	l int64
	c int
}

// send is "send or local event".
func (j *figure5) send(pt int64) Stamp {
	l := j.l
	j.l = max(l, pt)
	if j.l == l {
		j.c++
	} else {
		j.c = 0
	}
	return Stamp{Wall: j.l, Count: j.c}
}

// receive is "receive event of message m".
func (j *figure5) receive(m Stamp, pt int64) Stamp {
	l := j.l
	j.l = max(l, m.Wall, pt)
	switch {
	case j.l == l && j.l == m.Wall:
		j.c = max(j.c, m.Count) + 1
	case j.l == l:
		j.c++
	case j.l == m.Wall:
		j.c = m.Count + 1
	default:
		j.c = 0
	}
	return Stamp{Wall: j.l, Count: j.c}
}

// A deviceClock stamps events with Next as a phone does, which keeps the last stamp
// it made or saw.
type deviceClock struct{ last Stamp }

func (c *deviceClock) next(now int64) Stamp {
	c.last = Next(now, c.last)
	return c.last
}

func (c *deviceClock) observe(s Stamp) {
	if s.Compare(c.last) > 0 {
		c.last = s
	}
}

// Next gives what the figure gives. The figure makes a stamp for the receipt
// itself; here a receipt is no event, so observe and then next are compared.
func TestClockAgreesWithThePublishedAlgorithm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var ours deviceClock
		var theirs figure5
		for range rapid.IntRange(1, 60).Draw(t, "events") {
			now := rapid.Int64Range(1, 12).Draw(t, "now") // goes back, too
			if rapid.Bool().Draw(t, "send") {
				require.Equal(t, theirs.send(now), ours.next(now))
				continue
			}
			m := Stamp{Wall: rapid.Int64Range(1, 12).Draw(t, "m wall"), Count: rapid.IntRange(0, 4).Draw(t, "m count")}
			ours.observe(m)
			require.Equal(t, theirs.receive(m, now), ours.next(now))
		}
	})
}

// What happened before has the lower stamp (Theorem 1 there); a stamp is never
// behind its device's clock (Theorem 2), and ahead of it only as far as the
// clocks differ (Corollary 1). Theorems numbered from memory.
func TestClocksOfManyDevices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const apart = 7 // how far clocks differ
		type made struct {
			stamp Stamp
			past  map[int]bool // the events that happened before
		}
		var events []made
		clocks := make([]deviceClock, 3)
		pasts := []map[int]bool{{}, {}, {}} // what each device knows of
		ahead := rapid.SliceOfN(rapid.Int64Range(0, apart), 3, 3).Draw(t, "ahead")
		now := int64(1000)
		for range rapid.IntRange(1, 40).Draw(t, "events") {
			now += rapid.Int64Range(0, 2).Draw(t, "passes")
			d := rapid.IntRange(0, 2).Draw(t, "device")
			if len(events) > 0 && rapid.Bool().Draw(t, "hears") {
				i := rapid.IntRange(0, len(events)-1).Draw(t, "of")
				clocks[d].observe(events[i].stamp)
				for p := range events[i].past {
					pasts[d][p] = true
				}
				pasts[d][i] = true
			}
			s := clocks[d].next(now + ahead[d])
			past := map[int]bool{}
			for p := range pasts[d] {
				past[p] = true
				require.Positive(t, s.Compare(events[p].stamp), "it happened before and has not the lower stamp")
			}
			require.GreaterOrEqual(t, s.Wall, now+ahead[d])
			require.LessOrEqual(t, s.Wall, now+apart)
			pasts[d][len(events)] = true
			events = append(events, made{s, past})
		}
	})
}

// stampVectors are the cases that the page's stamp.js is tested with, too.
func stampVectors(t *testing.T) (vectors struct {
	Next []struct {
		Name       string
		Now        int64
		Last, Want Stamp
	}
	Later []struct {
		Name string
		A, B Stamp
		Want bool
	}
}) {
	t.Helper()
	b, err := os.ReadFile("../../testdata/stamps.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(b, &vectors))
	require.NotEmpty(t, vectors.Next)
	require.NotEmpty(t, vectors.Later)
	return vectors
}

func TestNext(t *testing.T) {
	for _, tt := range stampVectors(t).Next {
		t.Run(tt.Name, func(t *testing.T) {
			assert.Equal(t, tt.Want, Next(tt.Now, tt.Last))
			assert.Equal(t, 1, Next(tt.Now, tt.Last).Compare(tt.Last), "it is later")
		})
	}
	t.Run("the largest integer as a count", func(t *testing.T) { // more than JavaScript can hold
		assert.Equal(t, Stamp{1001, 0}, Next(900, Stamp{1000, math.MaxInt64}))
	})
}

func TestCompareStamps(t *testing.T) {
	for _, tt := range stampVectors(t).Later {
		t.Run(tt.Name, func(t *testing.T) {
			assert.Equal(t, tt.Want, tt.A.Compare(tt.B) > 0)
		})
	}
}
