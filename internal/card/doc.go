// Package card reads recipe cards: short Markdown files that a cook can edit in
// any editor, print, and follow at the stove.
//
// Enter by [Parse], or by [ParseWith] for a kitchen with equipment of its own.
// It never fails: it returns the card as far as it could be read, with a
// [document.Problem] for every place that could not, so that an editor can mark
// all of them at once. [HTML] turns a card into a page to read.
//
// The grammar, with an example of every construct, is content/README.md; a test
// compiles those examples.
//
// The package may import quantity, larder, document and goldmark. It holds no
// clock, no files and no network: the same bytes give the same card on the
// server and on the phone.
package card
