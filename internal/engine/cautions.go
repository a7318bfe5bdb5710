package engine

import (
	"strings"

	"hobside/internal/card"
	"hobside/internal/monitor"
)

// A cautionKey names what the cautions of a card depend on.
type cautionKey struct {
	card     *card.Card // compiled once for each text
	way      int
	excluded string // by guests, joined with commas
}

// cautionsOf returns the cautions of each step of a card. They are looked up
// once for a card, a way and the words that guests exclude: the search through
// the table takes longer than the rest of a card, and a change of covers changes
// none.
func (e *Engine) cautionsOf(c *card.Card, way int, excluded []string) [][]string {
	key := cautionKey{c, way, strings.Join(excluded, ",")}
	out, ok := e.cautions[key]
	if !ok {
		out = monitor.Cautions(c, way, excluded)
		e.cautions[key] = out
	}
	return out
}
