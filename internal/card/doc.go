// Package card reads kitchen cards: short Markdown files that a cook can edit
// in any editor, print, and follow at the stove.
//
// Enter by [Parse], or by [ParseWith] for a kitchen with equipment of its own. It never gives up at the first mistake: it returns the card
// as far as it could be understood, and a [Problem] for every place where it
// could not, so that an editor can mark all of them at once. [HTML] turns a
// card into a page to read.
//
// The grammar is written down, with an example of every construct, in
// content/README.md; a test compiles those examples.
//
// The package may import quantity, larder and goldmark. It holds no clock, no
// files and no network: the same bytes give the same card on the server and on
// the phone.
package card
