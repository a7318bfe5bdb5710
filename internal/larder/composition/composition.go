// Package composition holds what 100 g of each food of the table consist of, from USDA
// SR28. It is apart from the table because a phone fetches it only when it is asked for.
//
// Enter by [Rows], or by [Text] to send it.
package composition

import (
	_ "embed"

	"hobside/internal/larder"
)

//go:embed composition.txt
var text string

// Rows returns the composition of every row of USDA SR28 that the food table names.
func Rows() larder.Compositions { return larder.ReadCompositions(text) }

// Text returns the table as [larder.ReadCompositions] reads it.
func Text() string { return text }
