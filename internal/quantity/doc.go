// Package quantity is the kitchen's arithmetic: exact numbers, units, amounts,
// and the rounding that happens once, at the very end, when a person reads
// them.
//
// Enter by [ParseAmount], which reads what a cook types ("1 ½ lb", "2–3 cloves",
// "1,5 kg"), and by [Show], which writes an amount the way a person would say
// it. In between everything is a [Number], an exact rational: scaling there and
// back gives the same amount, to the last digit.
//
// The package imports nothing but the standard library's pure parts. It knows
// units, not foods: what a litre of oil weighs is the larder's business.
package quantity
