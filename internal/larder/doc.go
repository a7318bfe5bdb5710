// Package larder is the food table: what one piece and one litre of a food weigh, how
// much is lost in trimming, in which section of a shop it is found, and which
// allergens it carries. Every figure has a source. Nothing is guessed: a food that
// is not in the table is not found.
//
// Start with [Find], which takes an item as cooks type it ("red onions", "unsalted
// butter"), [Convert], which gives an amount of a food in another unit or an error
// that says what is missing, and [Assess], which lists an item's allergens.
//
// The package imports quantity and embeds its tables; it reads no files.
package larder
