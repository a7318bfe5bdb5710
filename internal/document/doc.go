// Package document reads what cards, menus and kitchens have in common: a
// Markdown file with "word: value" facts. It knows places in the text, front
// matter, facts, problems, amounts, durations, temperatures, names of
// equipment and links to other files, and nothing of what a card or a menu is.
//
// Enter by [Open]. It never fails: it returns the file as far as it could be
// read, with a [Problem] for every place that could not. A parser of one kind
// of file embeds the [File], adds problems with [File.Err] and [File.Warn], and
// returns [File.Done].
//
// The package may import quantity and goldmark. It holds no clock, no files
// and no network: the same bytes give the same result on the server and on the
// phone.
package document
