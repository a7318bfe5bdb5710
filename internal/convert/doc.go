// Package convert reads other people's recipes and writes them as cards: web pages with
// schema.org Recipe data, plain text, e-mail, Markdown, tables, in English and German.
//
// Enter by [Read], which returns the recipes that a file holds, and [Recipe.Card], which
// writes one as card Markdown that compiles without errors. [JSONLD] goes the other way:
// a card as a schema.org Recipe.
//
// Nothing is made up and nothing is lost: what the reader proposes is in the source's own
// words and figures, and each line that it could not place is in [Recipe.NotRead] and in
// the card's notes. The words of both languages are in one table, words.go. Amounts, times,
// equipment and facts are read by the rooms that own them: a line of a formula is what
// package card takes for one.
//
// The package reads HTML, so it is no part of the phone's engine: the server and the
// command line read. It opens no file and fetches nothing.
package convert
