package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

const prepMenu = `---
covers: 10
serve: 2027-06-12 19:30
kitchen: kitchen.md
---

# Lunch

## Bowl

- [Bowl](bowl.md)
`

const prepKitchen = `---
cooks: Ada
---

# Kitchen

## Equipment

- hob: 2 rings

## Hours

- Saturday 09:00–22:00
`

const prepBowl = `---
makes: 10 plates
---

# Bowl

## Formula

- 150 g shallots, cut fine
- 1 kg [Stock](stock.md)

## Method

1. Put the **shallots** into the **stock** and serve.
   - hob: 1 ring
   - hands: 10 min
`

const prepStock = `---
makes: 1 kg
---

# Stock

## Formula

- 1.1 kg water
- 300 g shallots, halved

## Method

1. Boil the **water** with the **shallots**.
   - hob: 1 ring
   - hands: 10 min
   - keep: 1 d chilled
`

func TestPrepPrintsEachIngredientOnceForAllCards(t *testing.T) {
	dir := filesIn(t, map[string]string{"menu.md": prepMenu, "kitchen.md": prepKitchen, "bowl.md": prepBowl, "stock.md": prepStock})
	code, out, problems := hobside(t, "prep", "--menu", dir+"/menu.md")
	require.Zero(t, code, problems)
	assert.Contains(t, out, "SATURDAY 12 JUNE 2027, Ada")
	assert.Regexp(t, `\[ \] by \d\d:\d\d  shallots: 300 g halved for Stock; 150 g cut fine for Bowl\n`, out)
	assert.NotContains(t, out, "water", "nothing is done to it")
}

func TestPrepAsJSONNamesTheTicksOfEachLine(t *testing.T) {
	dir := filesIn(t, map[string]string{"menu.md": prepMenu, "kitchen.md": prepKitchen, "bowl.md": prepBowl, "stock.md": prepStock})
	code, out, problems := hobside(t, "prep", "--menu", dir+"/menu.md", "--format", "json")
	require.Zero(t, code, problems)
	var list dinner.PrepList
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	require.Len(t, list.Days, 1)
	require.Len(t, list.Days[0].Lines, 1)
	assert.Equal(t, []string{"stock#1/mise/2", "bowl#1/mise/1"}, list.Days[0].Lines[0].Keys)
}

func TestPrepWithoutPlanSaysWhy(t *testing.T) {
	closed := filesIn(t, map[string]string{"menu.md": prepMenu, "bowl.md": prepBowl, "stock.md": prepStock,
		"kitchen.md": "---\ncooks: Ada\n---\n\n# Kitchen\n\n## Hours\n\n- Saturday 09:00–22:00\n"}) // no hob
	code, _, problems := hobside(t, "prep", "--menu", closed+"/menu.md")
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, problems, "there is no prep list without a plan")
}
