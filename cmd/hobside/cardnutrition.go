package main

import (
	"fmt"
	"io"
	"text/tabwriter"

	"hobside/internal/engine"
)

// printNutrition writes what a card consists of, or what is missing for it.
func printNutrition(w io.Writer, n *engine.NutritionView) error {
	if n == nil {
		return nil
	}
	fmt.Fprintf(w, "\nNutrition: %.0f %% of the weight has a composition (USDA SR28)\n", 100*n.Share)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for i, l := range n.EU {
		portion := ""
		if i < len(n.EUPortion) {
			portion = n.EUPortion[i].Text + " in " + n.Portion
		}
		fmt.Fprintf(t, "  %s\t%s in 100 g\t%s\n", l.Name, l.Text, portion)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if len(n.EU) == 0 && len(n.EUPortion) == 0 {
		fmt.Fprintln(w, "  too little is known for a figure, or what it makes has no weight")
	}
	for _, m := range n.Missing {
		fmt.Fprintf(w, "  without: %s\n", m)
	}
	for _, a := range n.Assumed {
		fmt.Fprintf(w, "  assumed: %s\n", a)
	}
	return nil
}
