//go:build browser

package main

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// livesIn sets the time zone of the phone itself.
func (p *phone) livesIn(zone string) {
	p.t.Helper()
	require.NoError(p.t, chromedp.Do(p.ctx, chromedp.Func(func(ctx context.Context, tab *chromedp.Target) error {
		_, err := cdp.Call(ctx, tab, emulation.SetTimezoneOverride, emulation.SetTimezoneOverrideParams{TimezoneID: zone})
		return err
	})))
}

// TestTimesAreTheKitchensOnAnyPhone opens a dinner of a kitchen in London on a phone in New York:
// clock, time left and course are by the kitchen's clock, and the app says so.
func TestTimesAreTheKitchensOnAnyPhone(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.livesIn("America/New_York")
	p.cookable(r)
	assert.Equal(t, "false", p.eval(`!!document.querySelector('#elsewhere')`), "a kitchen that names no zone is where the phone is")
	p.eval(`Promise.all([import("/app/events.js"), import("/app/state.js")]).then(([m, s]) => m.emit("open", "", { text: "Zoned", open: { ...s.state.value.open, zone: "Europe/London" } }, "zoned"))`)
	p.synced()
	require.NoError(t, r.stop()) // it would correct the phone's clock
	p.until(`document.querySelector('#status').dataset.net === 'off'`)
	p.visit(hash(r, "s/zoned"))
	p.see("#cards-to-make li")
	// The clock stands at 18:00 in London, 13:00 in New York: both on summer time.
	p.eval(`(() => { const at = Date.parse("2027-06-12T17:00:00Z"); Date.now = () => at; document.dispatchEvent(new Event("visibilitychange")); })()`)
	p.reads("#elsewhere", "Europe/London")
	p.reads("#elsewhere", "18:00 there, 13:00 on this phone")
	p.reads(".dinner-head .when", "in 1 h 30 min")
	p.visit(hash(r, "s/zoned/card/light-chicken-stock/1/1"))
	p.reads(".against", "18:00")
	p.reads(".against", "the kitchen's")
	p.reads(".against", "Bread 19:30 in 1 h 30 min")
	p.tap("#timer-start")
	p.reads("#timer-on", "ends 18:30")
}

// TestZonesOfThePageFollowTheDatabase compares the page's readings of the clock, and the moments of
// those readings, with the IANA time zone database as Go reads it.
func TestZonesOfThePageFollowTheDatabase(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.visit(hash(r, "settings"))
	p.see("#who")
	type reading struct {
		Zone string `json:"zone"`
		At   int64  `json:"at"`
		Wall string `json:"wall"`
		Back int64  `json:"back"`
	}
	var want []reading
	for _, name := range []string{"UTC", "Europe/London", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu", "Pacific/Apia", "America/St_Johns"} {
		loc, err := time.LoadLocation(name)
		require.NoError(t, err)
		for at := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC); at.Year() == 2027; at = at.Add(7*time.Hour + 30*time.Minute) {
			wall := at.In(loc).Format(wallForm)
			back := at
			for _, earlier := range []time.Duration{30 * time.Minute, time.Hour} { // of a reading that comes twice the first counts
				if at.Add(-earlier).In(loc).Format(wallForm) == wall {
					back = at.Add(-earlier)
				}
			}
			want = append(want, reading{name, at.UnixMilli(), wall, back.UnixMilli()})
		}
	}
	text, err := json.Marshal(want)
	require.NoError(t, err)
	wrong := p.eval(fmt.Sprintf(`import("/app/zone.js").then((m) => JSON.stringify(%s.filter((r) => m.wallAt(r.at, r.zone) !== r.wall || m.momentOf(r.wall, r.zone) !== r.back)))`, text))
	assert.Equal(t, "[]", wrong)
	skipped := p.eval(`import("/app/zone.js").then((m) => m.wallAt(m.momentOf("2027-03-28T01:30", "Europe/London"), "Europe/London"))`)
	assert.Equal(t, "2027-03-28T02:30", skipped, "a reading that is skipped is read by the clock before the change (ECMA-262, LocalTime; from memory)")
}
