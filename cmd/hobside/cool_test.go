package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/safety"
)

func TestCool(t *testing.T) {
	const deep = "stock, thick, 20 cm deep, in the fridge at 3 °C, from 90 °C"
	code, out, problems := hobside(t, "cool", deep)
	require.Zero(t, code, problems)
	for _, want := range []string{
		"From 90 °C to 5 °C: ",
		"from 57 °C to 21 °C in at most 2 h: not met",
		"US FDA Food Code, 3-501.14(A)(1) (read)",
		"What would cool it quicker",
		"half the depth (200 mm now): ", "a third of the depth, in 3 vessels (200 mm now): ", "in an ice bath: ",
		"composition of chicken stock (USDA SR28, read)",
		"Choi and Okos 1986",
		"Local codes and licensed practice come first.",
	} {
		assert.Contains(t, out, want)
	}
	assert.NotContains(t, strings.ToLower(out), "safe")

	code, out, problems = hobside(t, "cool", "--format", "json", deep)
	require.Zero(t, code, problems)
	var c cooling
	require.NoError(t, json.Unmarshal([]byte(out), &c))
	in, _ := safety.In("fridge", 3)
	f, err := safety.NewForecast(safety.Body{Class: safety.Stock, Shape: safety.Slab, DepthM: 0.20}, in, 90)
	require.NoError(t, err)
	assert.InDelta(t, f.Cools(5).Mid, *c.Until.Mid, 0.05, "the command says what the room says")
	assert.Equal(t, 90.0, c.FromC)
	require.Len(t, c.Stages, 2)
	assert.Equal(t, "not met", c.Stages[0].State)
	require.NotEmpty(t, c.Ways)
	assert.Equal(t, 90.0, c.Curve[0].MidC)
	for i := 1; i < len(c.Curve); i++ {
		assert.LessOrEqual(t, c.Curve[i].MidC, c.Curve[i-1].MidC)
		assert.LessOrEqual(t, c.Curve[i].QuickC, c.Curve[i].SlowC)
	}

	// In time: no other way is offered. Words may stand in parts, flags among them.
	code, out, _ = hobside(t, "cool", "4 kg stock", "--rules", "us", "thin", "8 cm deep", "30 cm across", "stirred ice bath")
	require.Zero(t, code)
	assert.Contains(t, out, "from 57 °C to 21 °C in at most 2 h: met")
	assert.NotContains(t, out, "What would cool it quicker")
	assert.Contains(t, out, "off the boil: 90 °C at the start")

	// Readings move the forecast: still 80 °C after ten hours is slower than the middle course.
	_, out, _ = hobside(t, "cool", deep, "--format", "json", "--read", "0 90, 600 80")
	var slow cooling
	require.NoError(t, json.Unmarshal([]byte(out), &slow))
	assert.Greater(t, *slow.Until.Mid, *c.Until.Mid)

	// The unit of a figure is read: 41 °F is 5 °C, 185 °F is 85 °C, by definition.
	_, fahrenheit, problems := hobside(t, "cool", "4", "kg", "stock", "in", "an", "ice", "bath", "--to", "41F", "--read", "0 185 °F, 30 140F")
	_, celsius, _ := hobside(t, "cool", "4 kg stock, in an ice bath", "--to", "5", "--read", "0 85, 30 60")
	assert.Equal(t, celsius, fahrenheit, problems)
	assert.Contains(t, celsius, "4 kg, stock, in an ice bath, from 85 °C\nFrom 85 °C to 5 °C: ")

	// Never is null, and "never" in words.
	_, out, _ = hobside(t, "cool", "2 kg rice, on the bench", "--format", "json")
	var never cooling
	require.NoError(t, json.Unmarshal([]byte(out), &never))
	assert.Nil(t, never.Until.Slow)
	_, out, _ = hobside(t, "cool", "2 kg rice, on the bench")
	assert.Contains(t, out, "From 90 °C to 5 °C: never")
	// The UK's advice has no temperature: not judged, and no number beside it.
	_, out, _ = hobside(t, "cool", "2 kg rice", "--rules", "uk")
	assert.Contains(t, out, "at most 1 h 30 min: not judged\n    UK practice guidance (local authority) (read)")
}

func TestCoolHelp(t *testing.T) {
	for _, flag := range []string{"--help", "-h"} {
		code, out, _ := hobside(t, "cool", flag)
		assert.Zero(t, code)
		assert.Contains(t, out, "usage: hobside cool")
		assert.Contains(t, out, "--read")
	}
}

func TestCoolRefuses(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{[]string{}, "say what cools"},
		{[]string{"4 kg stock", "--to", "cold"}, `--to "cold" is not a temperature to cool to`},
		{[]string{"4 kg stock", "--to", "41"}, `--to "41": 41 °C, or 41 °F, which is 5 °C? write the unit, like --to 41F`},
		{[]string{"4 kg stock wobbly in an ice bath"}, `"stock wobbly" is not understood`},
		{[]string{"4 kg stock", "--to", "400"}, `--to "400" is not a temperature to cool to`},
		{[]string{"4 kg stock", "--rules", "moon"}, `unknown rules "moon"`},
		{[]string{"4 kg stock", "--format", "xml"}, `unknown format "xml"`},
		{[]string{"4 kg stock", "--bake"}, "flag provided but not defined"},
		{[]string{"4 kg"}, "what food is it?"},
		{[]string{"4 kg zzyzx"}, `"zzyzx" is not understood`},
		{[]string{"stock"}, "say how deep it is, or what it weighs"},
		{[]string{"4 kg stock, 0 cm deep"}, `"0 cm deep": nothing is that small`},
		{[]string{"stock, 6 cm"}, "is that how deep it is, or how wide?"},
		{[]string{"stock, 50 m deep"}, "is not plausible for food in a kitchen"},
		{[]string{"stock, 5 cm deep, from 300 °C"}, "can't be at 300 °C"},
		{[]string{"stock, 5 cm deep, from 185"}, "if the probe shows °F that is 85 °C"},
		{[]string{"stock, 5 cm deep, from −5 °C"}, "freezing and thawing are not forecast"},
		{[]string{"stock, 5 cm deep, in the fridge at 900 °C"}, "the surroundings can't be at 900 °C"},
		{[]string{"stock, 5 cm deep", "--read", "soon"}, `"soon" is not a minute and a temperature`},
		{[]string{"stock, 5 cm deep", "--read", "x 80"}, `"x" is not a number of minutes`},
		{[]string{"stock, 5 cm deep", "--read", "0 hot"}, `"hot" is not a temperature`},
		{[]string{"stock, 5 cm deep", "--read", "0 80, 10 140"}, "if the probe shows °F that is 60 °C"},
		{[]string{"stock, 5 cm deep", "--read", "10 80, 5 70"}, "it is not later than the one before"},
		{[]string{"stock, 5 cm deep", "--read", "0 60, 10 90"}, "look at the probe and at what it stands in"},
	} {
		code, out, problems := hobside(t, append([]string{"cool"}, tt.args...)...)
		assert.Equal(t, exitUsage, code, "%v: %s", tt.args, problems)
		assert.Contains(t, problems, tt.want, "%v", tt.args)
		assert.Empty(t, out)
	}
}
