// Package demand works out how much of everything a dinner needs, from the covers
// through plates and components to the items that are bought.
//
// Start with [Explode]. Its books balance: for every component, made = used +
// margin + left. [Order] turns the result into the order list, [Clashes] and
// [Allergens] say who can't have what, and [Consequences] what follows when a batch
// gave less or more than planned.
//
// The package may import quantity, larder, card and menu. Its numbers are exact.
// They are rounded where they are shown; quantity.Split keeps the shown parts
// adding up to the shown whole.
package demand
