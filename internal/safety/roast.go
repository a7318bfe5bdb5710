package safety

import "strconv"

// roastTable is the holding table for whole roasts, US FDA Food Code 3-401.11(B): core
// temperature in °C, and how long it is held, in seconds; 0: at once.
var roastTable = []struct{ tempC, seconds float64 }{
	{54.4, 6720}, {55.0, 5340}, {56.1, 3360}, {57.2, 2160}, {57.8, 1680}, {58.9, 1080}, {60.0, 720}, {61.1, 480},
	{62.2, 300}, {62.8, 240}, {63.9, 134}, {65.0, 85}, {66.1, 54}, {67.2, 34}, {68.3, 22}, {69.4, 14}, {70.0, 0},
}

// limitsRoast returns the rows of the table as limits. They are for whole roasts of
// beef, pork, lamb and cured pork in an oven as the code describes it (the rows of kind
// [RoastOven]), not for poultry.
func limitsRoast() []Limit {
	out := make([]Limit, 0, len(roastTable))
	for _, r := range roastTable {
		out = append(out, Limit{
			ID: "fc_roast_" + strconv.FormatFloat(r.tempC, 'f', 1, 64), Rules: US, Kind: CookTo, Case: "whole roast",
			Classes: []Class{Roast}, Bound: AtLeast, HasTemp: true, TempC: r.tempC,
			HasTime: true, Minutes: r.seconds / 60, AtOnce: r.seconds == 0,
			Source: Source{"US FDA Food Code 2013, 2017, 2022", "3-401.11(B)", Read},
		})
	}
	return out
}
