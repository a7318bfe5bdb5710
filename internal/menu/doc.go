// Package menu reads the two other Markdown files of a dinner: the menu
// (courses of plates, covers, serving time, guests' exclusions) and the kitchen
// (cooks, equipment, hours).
//
// Enter by [ParseMenu] and [ParseKitchen]. Both give back what could be read,
// with a problem for what could not. [CheckLinks] looks at menu and cards
// together: missing cards, two cards of one name, loops, by-products nobody
// saves.
//
// The package may import quantity, larder and card. It holds no clock: a
// serving time is a wall-clock date and time, and whoever plans gives the zone.
package menu
