package kitchen

import (
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

func TestParse(t *testing.T) {
	k, problems := Parse("kitchen.md", []byte(`---
cooks: first cook, second cook
rules: uk
altitude: 20 m
zone: Europe/London
---

# The boathouse kitchen

## Equipment

- stove: 4 rings
- oven: 2, 3 shelves
- fryer: 1, 6 pieces at a time
- fridge
- char drum: 1, over heat, one temperature

## Hours

- Thursday 17:00–22:00
- Friday 09:00-13:00, 16:00 to 22:00
- the day before: 6:30–7:00
- 2027-06-13 09:00–12:00
- on the day: 18:00–01:00
`))
	require.Empty(t, problems)
	assert.Equal(t, []string{"first cook", "second cook"}, k.Cooks)
	assert.Equal(t, "uk", k.Rules)
	assert.Equal(t, 20, k.AltitudeM)
	piece, _ := quantity.LookupUnit("pieces")
	for i, want := range []Equipment{
		{Name: "hob", Count: 4, Places: 1, Heat: true},
		{Name: "oven", Count: 2, Places: 3, Heat: true, Temp: true},
		{Name: "fryer", Count: 1, Places: 1, Load: quantity.Amount{Qty: quantity.Int(6), Unit: piece}, Heat: true, Temp: true},
		{Name: "fridge", Count: 1},
		{Name: "char drum", Count: 1, Places: 1, Heat: true, Temp: true},
	} {
		got := k.Equipment[i]
		got.Pos = document.Pos{}
		assert.Equal(t, want, got)
	}
	serve := when(t, "2027-06-12 19:30") // a Saturday
	var days, from, to []int
	for _, h := range k.Hours {
		days, from, to = append(days, h.Day(serve)), append(from, h.From), append(to, h.To)
	}
	assert.Equal(t, []int{-2, -1, -1, -1, 1, 0}, days)
	assert.Equal(t, []int{1020, 540, 960, 390, 540, 1080}, from)
	assert.Equal(t, []int{1320, 780, 1320, 420, 720, 1500}, to)
}

func TestParseProblems(t *testing.T) {
	const head, tail = "---\ncooks: 2\n---\n# K\n\n## Equipment\n\n", "\n\n## Hours\n\n- Saturday 08:00–24:00\n"
	for _, tt := range []struct{ name, text, want string }{
		{"no hands", "---\ncooks: 0\n---\n# K\n\n## Equipment\n\n- hob: 4 rings" + tail, `k.md:2:8: 0 cooks; write how many people cook, from 1 to 50`},
		{"other rules", "---\ncooks: 2\nrules: moon\n---\n# K\n\n## Equipment\n\n- hob: 4 rings" + tail, `k.md:3:8: no rule set "moon"; write us or uk, or leave the line out`},
		{"a zone by its city", "---\ncooks: 2\nzone: London\n---\n# K\n\n## Equipment\n\n- hob" + tail, `k.md:3:7: "London" is not a time zone; write its area and its city, like "zone: Europe/London", or leave the line out`},
		{"altitude", "---\ncooks: 2\naltitude: high\n---\n# K\n\n## Equipment\n\n- hob" + tail, `k.md:3:11: "high" is not an altitude; write it in metres, like "altitude: 20 m"`},
		{"breaks of what", "---\ncooks: 2\nbreaks: often\n---\n# K\n\n## Equipment\n\n- hob: 4" + tail, `k.md:3:9: "often" does not say how long a break is and after how much work; write it like "breaks: 20 min per 5 h", or "breaks: none"`},
		{"longer than the work", "---\ncooks: 2\nbreaks: 5 h per 20 min\n---\n# K\n\n## Equipment\n\n- hob: 4" + tail, `k.md:3:9: breaks of "5 h" after "20 min" of work leave no day to work in; write it like "breaks: 20 min per 5 h"`},
		{"a range of breaks", "---\ncooks: 2\nbreaks: 10–20 min per 5 h\n---\n# K\n\n## Equipment\n\n- hob: 4" + tail, `k.md:3:9: "10–20 min" is not one time of a minute or more; write it like "20 min" or "5 h"`},
		{"work without a unit", "---\ncooks: 2\nbreaks: 20 min per 30 s\n---\n# K\n\n## Equipment\n\n- hob: 4" + tail, `k.md:3:20: "30 s" is not one time of a minute or more; write it like "20 min" or "5 h"`},
		{"longer than the shift", "---\ncooks: 2\nbreaks: 6 h per 7 h\n---\n# K\n\n## Equipment\n\n- hob: 4\n\n## Hours\n\n- Saturday 14:00–20:00, 21:00–22:00\n", `k.md:3:9: warning: a break of 6 h is as long as the kitchen's longest shift, 6 h; write a shorter one, like "breaks: 20 min per 5 h", or "breaks: none"`},
		{"never hot", head + "- oven: 1, hot in never" + tail, `k.md:8:19: "never" is not one time of a minute or more; write it like "20 min" or "5 h"`},
		{"no shelf holds so much", head + "- fridge: 1, 900 L a shelf" + tail, `k.md:8:14: fridge: "900 L a shelf" is not what goes on a shelf; write it like "9 L a shelf"`},
		{"a weight on a shelf", head + "- fridge: 1, 9 kg a shelf" + tail, `k.md:8:14: fridge: "9 kg a shelf" is not what goes on a shelf; write it like "9 L a shelf"`},
		{"two counts", head + "- oven: 1, 2" + tail, `k.md:8:12: oven: "2" is a second count, of what it does not say; write how many there are, then the places in each: "1, 2 shelves"`},
		{"hot in days", head + "- oven: 1, hot in 20 h" + tail, `k.md:8:19: the oven takes 20 h to heat up, longer than any does; write it like "hot in 20 min"`},
		{"hot in what", head + "- oven: 1, hot in 10–20 min" + tail, `k.md:8:19: "10–20 min" is not one time of a minute or more; write it like "20 min" or "5 h"`},
		{"places of what", head + "- hob: 4 flames" + tail, `k.md:8:8: hob: "flames" is not a place of it; write "4 rings", "2 shelves" or "2 places"`},
		{"twice", head + "- hob: 4\n- stove: 2" + tail, `k.md:9:3: "hob" is there twice; put both on one line`},
		{"no day", head + "- hob: 4\n\n## Hours\n\n- Caturday 08:00–24:00\n", `k.md:12:3: "Caturday" is not a day; write it like "Saturday 08:00–24:00" or "the day before: 16:00–22:00"`},
		{"no colon", head + "- oven: 1\n- hob 4 rings" + tail, `k.md:9:3: "hob 4 rings" has no colon between the name and what it has; write it like "- hob: 4 rings" or "- oven: 1, 2 shelves"`},
		{"a name nearly known", head + "- ovn: 1" + tail, `k.md:8:3: warning: "ovn" is taken as a kind of equipment of its own; did you mean "oven"?`},
		{"a vessel without a size", head + "- pot: 2, 16" + tail, `k.md:8:8: warning: "pot: 2, 16" gives no size; it is taken as a kind of equipment of its own; write it like "pot: 2, 12 L"`},
		{"a vessel without a depth", head + "- hob: 4\n- tray: 20 × 30 cm" + tail, `k.md:9:9: tray: "20 × 30 cm" does not say how much it holds; write it like "tray: 12 L", "tray: 20 × 30 cm, 2 cm deep" or "tray: 24 cm across, 6 cm deep"`},
		{"set too far in", head + "- hob: 4\n  - oven: 1" + tail, `k.md:9:5: "oven: 1" is not read here; begin the line with "- ", as far left as the heading above it`},
		{"without a dash", head + "- hob: 4\n\noven: 1" + tail, `k.md:10:1: "oven: 1" is not read here; begin the line with "- ", as far left as the heading above it`},
		{"run on", head + "- fridge\n- hob: 4\noven: 1" + tail, `k.md:10:1: "oven: 1" is not read here; begin the line with "- ", as far left as the heading above it`},
		{"a section nearly known", "---\ncooks: 2\n---\n# K\n\n## Equipmnet\n\ngas\n\n## Equipment\n\n- hob: 4" + tail, `k.md:6:4: no section "Equipmnet"; did you mean "equipment"?`},
		{"a line with # for its dash", "---\ncooks: 2\n---\n# K\n\n## Equipment\n\n- hob: 4\n# oven: 1" + tail, `k.md:9:3: "oven: 1" is a second title, and nothing of it is read; begin a line of a list with "- ", a section with "## "`},
		{"a list of no section", "---\ncooks: 2\n---\n# K\n\n- hob: 2\n\n## Equipment\n\n- hob: 4" + tail, `k.md:6:3: warning: this list is not read; put it below "## Equipment", "## Hours" or "## Prices"`},
		{"two cooks in one", "---\ncooks: Ann and Bo\n---\n# K\n\n## Equipment\n\n- hob: 4" + tail, `k.md:2:8: "Ann and Bo" is not the name of one cook; write a comma between two cooks: "cooks: first cook, second cook"`},
		{"no times", head + "- hob: 4\n\n## Hours\n\n- Saturday all day\n- Friday 08:00–09:00\n", `k.md:12:3: "Saturday all day" has no times of day; write it like "Saturday 08:00–24:00" or "the day before: 16:00–22:00"`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, problems := Parse("k.md", []byte(tt.text))
			require.Len(t, problems, 1, "%v", problems)
			assert.Equal(t, tt.want, problems[0].Error())
		})
	}
}

func TestBreaksAndHeatingUp(t *testing.T) {
	for value, want := range map[string]Breaks{"20 min per 5 h": {20, 300}, "15 min per 2 h 30 min": {15, 150}, "none": {0, 1440}, "None": {0, 1440}} {
		k, problems := Parse("k.md", []byte("---\ncooks: 2\nbreaks: "+value+"\noven: 1, 2 shelves, hot in 20 min\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n"))
		require.Empty(t, problems)
		assert.Equal(t, want, k.Breaks)
		assert.Equal(t, 20, k.Equipment[0].HotIn)
	}
}

// TestVesselsOfAKitchen: one word may stand with several sizes. Volumes by hand: 20 × 30 ×
// 5 cm are 3 L; 12 in by 8 in by 2 in are 192 × 16.387 ml; 20 cm across and 10 cm deep are
// π × 10² × 10 ml.
func TestVesselsOfAKitchen(t *testing.T) {
	k, problems := Parse("k.md", []byte("---\ncooks: 2\n---\n\n# K\n\n## Equipment\n\n- pot: 2, 16 L\n- pots: 8 L\n- tray: 20x30cm, 5 cm deep\n- tin: 12 × 8 in, 2 in deep\n- pan: 20 cm across, 100 mm deep\n- bowl: 3\n\n## Hours\n\n- Saturday 08:00–12:00\n"))
	require.Len(t, problems, 1, "a bowl without a size")
	require.Len(t, k.Vessels, 5)
	for i, want := range []struct {
		count  int
		litres float64
	}{{2, 16}, {1, 8}, {1, 3}, {1, 3.146}, {1, 3.142}} {
		assert.Equal(t, want.count, k.Vessels[i].Count)
		assert.InDelta(t, want.litres, k.Vessels[i].Litres, 0.001)
	}
}

func TestTooMuchEquipment(t *testing.T) {
	text := "---\ncooks: 1\n---\n# K\n\n## Equipment\n\n"
	for i := range maxEquipment + 2 {
		text += "- pan " + strconv.Itoa(i+1) + "\n"
	}
	k, problems := Parse("k.md", []byte(text+"\n## Hours\n\n- Saturday 08:00–24:00\n"))
	assert.Len(t, k.Equipment, maxEquipment)
	require.Len(t, problems, 2)
	assert.Equal(t, "k.md:208:3: the kitchen has more than 200 kinds of equipment; leave out what no card needs", problems[0].Error())
}

// when reads a date and time.
func when(t *testing.T, text string) document.When {
	t.Helper()
	w, wrong := document.ParseWhen(text)
	require.Empty(t, wrong)
	return w
}

func TestShiftDay(t *testing.T) {
	monday := when(t, "2027-03-01 00:00") // the weekday is from Python 3.11's datetime module
	for _, tt := range []struct {
		shift Shift
		want  int
	}{
		{Shift{ByWeekday: true, Weekday: time.Monday}, 0},
		{Shift{ByWeekday: true, Weekday: time.Sunday}, -1},
		{Shift{ByWeekday: true, Weekday: time.Saturday}, -2},
		{Shift{ByWeekday: true, Weekday: time.Tuesday}, -6},
		{Shift{Date: when(t, "2027-02-28 00:00")}, -1},
		{Shift{Date: when(t, "2027-03-02 00:00")}, 1},
		{Shift{Days: -3}, -3},
		{Shift{}, 0},
	} {
		for _, minutes := range []int{0, 1, 1170, 1439} {
			assert.Equal(t, tt.want, tt.shift.Day(monday.Add(minutes)), "%+v, served at %s", tt.shift, monday.Add(minutes))
		}
	}
	assert.NotPanics(t, func() { Shift{ByWeekday: true}.Day(document.When{}) }, "a menu without a date has hours too")
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("---\ncooks: 2\nhob: 4 rings\n---\n# K\n\n## Equipment\n\n- fryer: 2, 6 pieces at a time\n\n## Hours\n\n- the day before: 17:00–01:00\n\n## Prices\n\n- eggs: 3,60 EUR per 12\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		k, problems := Parse("k.md", src)
		for _, f := range problems {
			if f.Line < 1 || f.Col < 1 || f.Msg == "" {
				t.Fatalf("a problem without a place or words: %+v", f)
			}
		}
		for _, h := range k.Hours {
			if h.To <= h.From || h.From < 0 || h.To > 48*60 {
				t.Fatalf("hours %+v", h)
			}
		}
		for _, e := range k.Equipment {
			if e.Name == "" || e.Count < 1 || e.Count > 99 || e.Places < 0 || e.Places > 99 || e.Load.Qty.Sign() < 0 {
				t.Fatalf("equipment %+v", e)
			}
		}
		for _, p := range k.Prices {
			if p.Cost.Sign() <= 0 || p.Per.Unit == nil || p.Per.Qty.Sign() <= 0 {
				t.Fatalf("price %+v", p)
			}
		}
	})
}

func TestDeliveryDays(t *testing.T) {
	k, problems := Parse("k.md", []byte("---\ncooks: 1\nhob: 1\ndeliveries: Thursday, Saturday\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n"))
	require.Empty(t, problems)
	assert.Equal(t, []time.Weekday{time.Thursday, time.Saturday}, k.Deliveries)
	_, problems = Parse("k.md", []byte("---\ncooks: 1\nhob: 1\ndeliveries: Thursday, someday\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n"))
	require.Len(t, problems, 1)
	assert.Equal(t, `k.md:4:23: "someday" is not a day of the week; write it like "deliveries: Thursday, Saturday"`, problems[0].Error())
}

// TestShelvesSayWhatGoesOnOne: where a kitchen says it, in litres; else it is 0.
func TestShelvesSayWhatGoesOnOne(t *testing.T) {
	k, problems := Parse("k.md", []byte("---\ncooks: 2\n---\n\n# K\n\n## Equipment\n\n- fridge: 2, 4 shelves, 9 L a shelf\n- freezer: 1, 3 shelves\n\n## Hours\n\n- Saturday 08:00–12:00\n"))
	require.Empty(t, problems)
	assert.Equal(t, 9.0, k.Equipment[0].Litres)
	assert.Equal(t, 4, k.Equipment[0].Places)
	assert.Zero(t, k.Equipment[1].Litres)
}
