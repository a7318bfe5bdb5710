package main

import (
	"fmt"
	"io"

	"hobside/internal/engine"
)

// printCost writes what a card costs, or what has no price.
func printCost(w io.Writer, c *engine.CostView) {
	if c == nil {
		return
	}
	fmt.Fprintf(w, "\nCost: %s\n", costLine(c))
	for _, m := range c.Missing {
		fmt.Fprintf(w, "  without: %s\n", m)
	}
	for _, a := range c.Assumed {
		fmt.Fprintf(w, "  assumed: %s\n", a)
	}
}

// costLine returns a cost in words: "€4.20, €0.35 a plate".
func costLine(c *engine.CostView) string {
	switch {
	case c.Sum == "":
		return "nothing in it has a price"
	case c.Of == "":
		return c.Sum
	}
	return c.Sum + ", " + c.Each + " a " + c.Of
}
