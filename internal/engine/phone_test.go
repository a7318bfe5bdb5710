package engine

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/content"
	"hobside/internal/dinner"
)

// A phone makes the calls that the page makes, in the page's order: revisions,
// load, open, then stamp and apply for each tap.
type phone struct {
	t      testing.TB
	e      *Engine
	dinner string
	last   dinner.Stamp
	made   int
	now    int64 // its clock, when set
}

// demoFiles are the files of the demo dinner.
func demoFiles(t testing.TB) []File {
	t.Helper()
	var files []File
	require.NoError(t, fs.WalkDir(content.Files, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "README.md" {
			return err
		}
		b, err := fs.ReadFile(content.Files, p)
		files = append(files, File{Name: path.Base(p), Text: string(b)})
		return err
	}))
	require.Greater(t, len(files), 20)
	return files
}

// call makes a call that must not fail, through JSON in both directions.
func call[Out any](t testing.TB, e *Engine, method string, in any) Out {
	t.Helper()
	out, failure := try[Out](t, e, method, in)
	require.Empty(t, failure, method)
	return out
}

// try makes a call and returns the answer, or the failure's words.
func try[Out any](t testing.TB, e *Engine, method string, in any) (out Out, failure string) {
	t.Helper()
	b, err := json.Marshal(in)
	require.NoError(t, err)
	answer := e.Call(method, b)
	var f Failure
	require.NoError(t, json.Unmarshal(answer, &f))
	if f.Error != "" {
		return out, f.Error
	}
	require.NoError(t, json.Unmarshal(answer, &out))
	return out, ""
}

// openMenu loads files and opens a dinner of one of their menus.
func openMenu(t testing.TB, files []File, menu string) (*phone, *DinnerView) {
	t.Helper()
	p := &phone{t: t, e: New(), dinner: "supper-1"}
	library := call[LibraryView](t, p.e, "load", LoadCall{Files: files})
	var of LibraryFile
	for _, f := range library.Files {
		if f.Name == menu {
			of = f
		}
	}
	require.Equal(t, "menu", of.Kind)
	texts, pins := map[string]string{}, map[string]string{}
	for _, f := range files {
		for _, name := range of.Needs {
			if f.Name == name {
				rev := call[RevisionView](t, p.e, "revision", TextCall{Text: f.Text}).Revision
				texts[rev], pins[name] = f.Text, rev
			}
		}
	}
	open := p.stamp(dinner.Event{Kind: dinner.KindOpen, Text: "Supper",
		Open: &dinner.Open{Menu: menu, Kitchen: of.Kitchen, Covers: of.Covers, Serve: of.Serve, Files: pins}})
	sheet := call[Sheet](t, p.e, "open", OpenCall{Dinner: p.dinner, Texts: texts, Events: []dinner.Event{open}})
	require.NotNil(t, sheet.Dinner)
	return p, sheet.Dinner
}

// demo opens the demo dinner.
func demo(t testing.TB) (*phone, *DinnerView) {
	return openMenu(t, demoFiles(t), "boathouse-supper.md")
}

// stamp makes an event on this phone.
func (p *phone) stamp(ev dinner.Event) dinner.Event {
	p.t.Helper()
	p.made++
	ev.ID, ev.Dinner, ev.Device = fmt.Sprintf("event-%06d", p.made), p.dinner, "phone"
	now := p.now
	if now == 0 {
		now = 1_800_000_000_000
	}
	p.last = dinner.Next(now, p.last)
	ev.Stamp = p.last
	require.NoError(p.t, dinner.Validate(ev))
	return ev
}

// tap makes an event and applies it. The dinner is nil when it did not change.
func (p *phone) tap(ev dinner.Event) (*DinnerView, *dinner.State, string) {
	p.t.Helper()
	ev = p.stamp(ev)
	sheet := call[Sheet](p.t, p.e, "apply", ApplyCall{Dinner: p.dinner, Events: []dinner.Event{ev}})
	return sheet.Dinner, sheet.State, ev.ID
}

func (p *phone) covers(n int) *DinnerView {
	p.t.Helper()
	d, _, _ := p.tap(dinner.Event{Kind: dinner.KindCovers, Number: n})
	require.NotNil(p.t, d, "%d covers", n)
	require.Equal(p.t, n, d.Covers)
	return d
}

func cardOf(t testing.TB, d *DinnerView, id string) CardView {
	t.Helper()
	for _, c := range d.Cards {
		if c.ID == id {
			return c
		}
	}
	t.Fatalf("the dinner has no card %s", id)
	return CardView{}
}

func miseOf(t testing.TB, d *DinnerView, id, name string) MiseView {
	t.Helper()
	c := cardOf(t, d, id)
	require.NotEmpty(t, c.Batches, id)
	for _, m := range c.Batches[0].Mise {
		if m.Name == name {
			return m
		}
	}
	t.Fatalf("%s has no item %s", id, name)
	return MiseView{}
}

// base reads a shown amount back, in grams, millilitres or pieces: "1 lb 4 oz",
// "1 ½ tsp", "2.25 kg". It knows the units' definitions for itself.
func base(shown string) float64 {
	per := map[string]float64{"g": 1, "kg": 1000, "lb": 453.59237, "oz": 28.349523125, "ml": 1, "L": 1000, "gal": 3785.411784,
		"qt": 946.352946, "pt": 473.176473, "cup": 236.5882365, "cups": 236.5882365, "fl": 29.5735295625, "tbsp": 14.78676478125, "tsp": 4.92892159375}
	signs := map[string]float64{"½": .5, "¼": .25, "¾": .75, "⅓": 1. / 3, "⅔": 2. / 3, "⅛": .125, "⅜": .375, "⅝": .625, "⅞": .875}
	sum, figure := 0., 0.
	pending := false
	words := strings.Fields(strings.TrimPrefix(shown, "about "))
	for _, w := range words {
		if n, err := strconv.ParseFloat(w, 64); err == nil {
			figure, pending = figure+n, true
		} else if n, ok := signs[w]; ok {
			figure, pending = figure+n, true
		} else if n, ok := per[w]; ok {
			sum, figure, pending = sum+figure*n, 0, false
		} else if pending { // "4 pieces": a word for what is counted
			sum, figure, pending = sum+figure, 0, false
		}
	}
	return sum + figure
}
