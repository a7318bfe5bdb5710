// Package larder is the food table: what one of a thing weighs, what a litre of
// it weighs, how much is lost in trimming, which shop section it stands in,
// which allergens it carries. Every value has a source, and a food that is not
// in the table is not guessed at.
//
// Enter by [Find], which takes an item as cooks type it ("red onions",
// "unsalted butter"), and by [Convert], which turns an amount of a food into
// another unit or says why it can't.
//
// The package imports quantity and embedded tables only.
package larder
