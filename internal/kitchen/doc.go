// Package kitchen reads kitchens: Markdown files that say who cooks, with which
// equipment, in which hours, by whose rules, and what things cost where the
// kitchen buys.
//
// Enter by [Parse], which returns what could be read with a problem for every
// place that could not. [Shift.Day] places a kitchen's hours around a dinner.
//
// The package may import quantity, document and goldmark. It reads no clock:
// hours are what the clock on the kitchen's wall shows.
package kitchen
