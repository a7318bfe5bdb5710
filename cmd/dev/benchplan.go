package main

import (
	"io"
	"os"

	planner "hobside/internal/plan/bench"
)

// measuredMenus are the demo dinner and the menus in testdata.
var measuredMenus = []string{
	"content/boathouse-supper.md",
	"testdata/menus/lunch/orchard-lunch.md",
	"testdata/menus/supper/harbour-supper.md",
	"testdata/menus/buffet/hall-buffet.md",
}

// benchPlan measures how well the plans of the menus can be followed, a line each,
// or that of the menu whose file PLAN_MENU names.
func benchPlan(out io.Writer) error {
	menus := measuredMenus
	if menu := os.Getenv("PLAN_MENU"); menu != "" {
		menus = []string{menu}
	}
	for _, menu := range menus {
		if err := planner.Run(menu, out); err != nil {
			return err
		}
	}
	return nil
}
