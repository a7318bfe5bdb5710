// Package demand works out how much of everything a dinner needs: from covers
// down through plates and components to the items one buys.
//
// Enter by [Explode]. What it returns always balances: for every component,
// made = used + margin + left. [Order] turns the result into the list to buy.
//
// The package may import quantity, larder, card and menu. It never rounds: the
// numbers it returns are exact, and rounding is the business of whoever shows
// them (quantity.Split keeps shown parts adding up to the shown whole).
package demand
