// Package menu reads menus: Markdown files with the courses and plates of a
// dinner, its covers, its serving time and what guests can't have.
//
// Enter by [Parse], which returns what could be read with a problem for every
// place that could not. [ParseGuests] reads the lines of the guests alone.
//
// The package may import quantity, document and goldmark. It reads no clock: a
// serving time is what the clock on the kitchen's wall shows, and the caller
// that plans knows the time zone.
package menu
