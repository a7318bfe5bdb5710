package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/engine"
)

const supperMenu = "../../content/boathouse-supper.md"

func TestPlanText(t *testing.T) {
	code, out, problems := hobside(t, "plan", "--menu", supperMenu)
	require.Equal(t, 0, code, problems)
	assert.Contains(t, out, "The boathouse supper: 18 covers, Saturday 12 June 2027 19:30\n\nThursday 10 June, 17:00–22:30\n[ ] ")
	assert.Contains(t, out, "\n19:55  Soup  on time in ")
	assert.Equal(t, 167, strings.Count(out, "[ ] ")-strings.Count(out, "  turn the ")-strings.Count(out, "  put "), "a line for every step and load of the dinner")
	assert.Regexp(t, `\n\[ \] \d\d:\d\d +turn the oven to 240 °C for Overnight crust bread, step 5 at \d\d:\d\d`, out)
}

// The kitchen that a menu names is beside the menu, also where the cards are elsewhere.
func TestKitchenBesideTheMenuIsFound(t *testing.T) {
	code, out, problems := hobside(t, "plan", "--menu", supperMenu, "--cards", filepath.Join(filepath.Dir(supperMenu), "cards"))
	require.Equal(t, 0, code, problems)
	_, whole, _ := hobside(t, "plan", "--menu", supperMenu)
	assert.Equal(t, whole, out)
}

// A general library reads the calendar file. It has the same times as the plan.
func TestPlanCalendar(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(filepath.Dir(supperMenu), "boathouse-kitchen.md"))
	require.NoError(t, err)
	inLondon := filepath.Join(t.TempDir(), "kitchen.md")
	require.NoError(t, os.WriteFile(inLondon, bytes.Replace(text, []byte("---\n"), []byte("---\nzone: Europe/London\n"), 1), 0o600))
	code, out, problems := hobside(t, "plan", "--menu", supperMenu, "--kitchen", inLondon, "--format", "ics")
	require.Equal(t, 0, code, problems)
	assert.Contains(t, out, "\r\n", "RFC 5545, 3.1: lines end in CRLF")
	for _, line := range strings.Split(out, "\r\n") {
		assert.LessOrEqual(t, len(line), 75, "RFC 5545, 3.1: %q", line)
	}
	cal, err := ical.NewDecoder(strings.NewReader(out)).Decode()
	require.NoError(t, err)
	var view dinner.Schedule
	code, js, problems := hobside(t, "plan", "--menu", supperMenu, "--format", "json")
	require.Equal(t, 0, code, problems)
	require.NoError(t, json.Unmarshal([]byte(js), &view))
	serve := time.Date(2027, 6, 12, 18, 30, 0, 0, time.UTC) // 19:30 in London in June
	var want []string
	for _, task := range view.Tasks {
		if task.Free > task.Start {
			want = append(want, serve.Add(time.Duration(task.Start)*time.Minute).Format(time.RFC3339)+" "+task.Title)
		}
	}
	for _, c := range view.Courses {
		want = append(want, serve.Add(time.Duration(c.At)*time.Minute).Format(time.RFC3339)+" "+c.Name+" goes out")
	}
	ids := map[string]bool{}
	var got []string
	for _, ev := range cal.Events() {
		start, err := ev.DateTimeStart(time.UTC)
		require.NoError(t, err)
		end, err := ev.DateTimeEnd(time.UTC)
		require.NoError(t, err)
		assert.False(t, end.Before(start))
		id, err := ev.Props.Text(ical.PropUID)
		require.NoError(t, err)
		assert.False(t, ids[id], "%s twice: RFC 5545, 3.8.4.7", id)
		ids[id] = true
		summary, err := ev.Props.Text(ical.PropSummary)
		require.NoError(t, err)
		title, _, _ := strings.Cut(summary, ", step ")
		got = append(got, start.Format(time.RFC3339)+" "+title)
	}
	assert.Equal(t, want, got)
}

// A dinner on the evening after the clocks went back: what was started the day
// before at a reading of the wall's clock lies an hour further away.
func TestPlanAcrossClockChange(t *testing.T) {
	dir := filesIn(t, map[string]string{
		"supper.md":  "---\ncovers: 4\nserve: 2027-10-31 10:00\nkitchen: kitchen.md\n---\n\n# Breakfast\n\n## Bread\n\n- [Loaf](loaf.md)\n",
		"kitchen.md": "---\ncooks: 1\nzone: Europe/London\n---\n\n# Galley\n\n## Equipment\n\n- fridge\n\n## Hours\n\n- the day before: 20:00–22:00\n- on the day: 09:00–12:00\n",
		"loaf.md":    "---\nmakes: 1 plate\n---\n\n# Loaf\n\n## Formula\n\n- 100 g flour\n\n## Method\n\n1. Knead the **flour**.\n   - hands: 10 min\n   - wait: 13 h\n   - keep: 10 min room\n2. Slice it and send.\n   - hands: 5 min\n   - keep: straight on\n   - serve\n",
	})
	code, js, problems := hobside(t, "plan", "--menu", filepath.Join(dir, "supper.md"), "--format", "json")
	require.Equal(t, 0, code, problems)
	var view dinner.Schedule
	require.NoError(t, json.Unmarshal([]byte(js), &view))
	require.Len(t, view.Tasks, 2)
	knead := view.Tasks[0]
	// Thirteen hours before about 09:50 GMT it is about 20:50 GMT, which the wall
	// that evening still calls 21:50.
	from, err := time.Parse("2006-01-02T15:04", knead.From)
	require.NoError(t, err)
	assert.WithinDuration(t, time.Date(2027, 10, 30, 21, 35, 0, 0, time.UTC), from, 10*time.Minute)
	assert.InDelta(t, -(13*60 + 20), knead.Start, 12)
}

func TestPlanWrongInput(t *testing.T) {
	bad := func(kitchen, extra string) string {
		dir := filesIn(t, map[string]string{
			"supper.md":  "---\ncovers: 4\nserve: 2027-06-12 19:30\nkitchen: kitchen.md\n---\n\n# Supper\n\n## Bread\n\n- [Loaf](loaf.md)\n",
			"kitchen.md": kitchen,
			"loaf.md":    "---\nmakes: 1 plate\n---\n\n# Loaf\n\n## Formula\n\n- 100 g flour\n\n## Method\n\n1. Bake the **flour**.\n" + extra + "   - hands: 10 min\n   - serve\n",
		})
		return filepath.Join(dir, "supper.md")
	}
	const hours = "\n## Hours\n\n- on the day: 08:00–24:00\n"
	for _, tt := range []struct {
		name string
		args []string
		code int
		want string
	}{
		{"no menu", nil, 2, "wrong usage: name a menu: --menu FILE"},
		{"a word too many", []string{"--menu", supperMenu, "tonight"}, 2, `wrong usage: unexpected argument "tonight"`},
		{"no covers", []string{"--menu", supperMenu, "--covers", "0"}, 2, "wrong usage: 0 covers: give a number from 1 to 1000000"},
		{"a time that is none", []string{"--menu", supperMenu, "--serve", "soon"}, 2, `wrong usage: --serve: "soon" is not a date and time: write it like "2027-06-12 19:30"`},
		{"no date", []string{"--menu", supperMenu, "--serve", "19:30"}, 2, `wrong usage: --serve: "19:30" has no date: write it like "2027-06-12 19:30"`},
		{"a format that is none", []string{"--menu", supperMenu, "--format", "xml"}, 2, `wrong usage: unknown format "xml": text, json or ics`},
		{"a kitchen that is a menu", []string{"--menu", supperMenu, "--kitchen", supperMenu}, 1, supperMenu + ` is a menu, not a kitchen: a kitchen says "cooks:" in its front matter`},
		{"no hours", []string{"--menu", bad("---\ncooks: 1\n---\n\n# Galley\n\n## Equipment\n\n- fridge\n", "")}, 1,
			`there is no plan: kitchen.md: the kitchen is never open: add "## Hours" and a list, "- Saturday 08:00–24:00"`},
		{"no oven", []string{"--menu", bad("---\ncooks: 1\n---\n\n# Galley\n\n## Equipment\n\n- fridge\n"+hours, "   - oven: 200 °C\n")}, 1,
			"there is no plan: the kitchen has no oven, and Loaf, step 1 needs one"},
		{"a zone that is none", []string{"--menu", bad("---\ncooks: 1\nzone: Europe/Atlantis\n---\n\n# Galley\n\n## Equipment\n\n- fridge\n"+hours, "")}, 1,
			`the kitchen's zone "Europe/Atlantis" is not known here: write it like "zone: Europe/London"`},
		{"too many covers", []string{"--menu", supperMenu, "--covers", "1000"}, 1, "there is no plan: Pressed lamb, step 5 goes in loads one after the other:"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			code, _, problems := hobside(t, append([]string{"plan"}, tt.args...)...)
			assert.Equal(t, tt.code, code)
			assert.Contains(t, problems, tt.want)
		})
	}
}

// clockChanges finds the changes that the zone's own rules give, to the minute.
func TestClockChanges(t *testing.T) {
	for _, tt := range []struct {
		zone  string
		serve string
		want  []engine.ClockChangeView
	}{
		{"Europe/London", "2027-03-28T19:30", []engine.ClockChangeView{{Wall: "2027-03-28T01:00", By: 60}}}, // Directive 2000/84/EC, kept by the UK: 01:00 UTC, last Sunday of March; from memory
		{"Europe/London", "2027-10-31T19:30", []engine.ClockChangeView{{Wall: "2027-10-31T02:00", By: -60}}},
		{"America/New_York", "2027-03-20T19:30", []engine.ClockChangeView{{Wall: "2027-03-14T02:00", By: 60}}}, // 15 U.S.C. 260a: 02:00, second Sunday of March; from memory
		{"America/New_York", "2027-11-07T12:00", []engine.ClockChangeView{{Wall: "2027-11-07T02:00", By: -60}}},
		{"Asia/Tokyo", "2027-06-12T19:30", nil},
	} {
		loc, err := time.LoadLocation(tt.zone)
		require.NoError(t, err)
		serve, err := time.ParseInLocation(wallForm, tt.serve, loc)
		require.NoError(t, err)
		assert.Equal(t, tt.want, clockChanges(serve, loc), "%s %s", tt.zone, tt.serve)
	}
}
