// Package quantity does the arithmetic of amounts: exact numbers, units, and the
// rounding that happens once, when an amount is shown.
//
// Start with [ParseAmount], which reads what a cook types ("1 ½ lb", "2–3 cloves",
// "1,5 kg"), and [Show], which writes an amount for a person to read. Between the
// two every figure is a [Number], an exact rational: an amount that is scaled up
// and down again is the same to the last digit.
//
// The package imports only pure parts of the standard library. It knows units and
// no foods: package larder knows what a litre of oil weighs.
package quantity
