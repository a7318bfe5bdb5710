package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"

	"hobside/internal/larder"
	"hobside/internal/larder/composition"
)

// food is `hobside food WORDS`: what the food table knows of an item.
func food(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("food", flag.ContinueOnError)
	format := flags.String("format", "text", "text or json")
	words, err := parse(flags, args)
	switch err = cmp.Or(err, known("format", *format, "text", "json")); {
	case err != nil:
		return err
	case len(words) == 0:
		return usage(`name a food, like "red onions"`)
	}
	item := strings.Join(words, " ")
	d, ok := (*larder.Foods)(nil).Describe(item, composition.Rows())
	if !ok {
		hint := ""
		if near := larder.Suggest(item); near != "" {
			hint = "; did you mean " + strconv.Quote(near) + "?"
		}
		return fmt.Errorf("the food table has nothing like %q%s", item, hint)
	}
	if *format == "json" {
		return printJSON(out, d)
	}
	return printFood(out, &d)
}

// printFood writes a description for a terminal.
func printFood(out io.Writer, d *larder.Description) error {
	fmt.Fprintln(out, d.Name)
	if !d.Same {
		fmt.Fprintln(out, "not in the table itself: what follows is probable, not sure")
	}
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	line := func(name, value, source string) {
		if value != "" {
			fmt.Fprintf(w, "  %s\t%s\t%s\n", name, value, source)
		}
	}
	list := func(words []string) string { return strings.Join(words, ", ") }
	figure := func(x *float64, unit string) string {
		if x == nil {
			return ""
		}
		return strconv.FormatFloat(*x, 'f', -1, 64) + " " + unit
	}
	line("same as", list(d.SameAs), "")
	line("as for", d.AsFor, "")
	line("section", d.Section, "")
	allergens := "not assessed"
	if d.Assessed {
		allergens = "none of the two lists"
	}
	if len(d.EU)+len(d.US) > 0 {
		allergens = "EU: " + list(d.EU) + "; US: " + list(d.US)
	}
	line("allergens", allergens, d.Sources["eu"])
	if len(d.EUMay)+len(d.USMay) > 0 {
		line("may contain", "EU: "+list(d.EUMay)+"; US: "+list(d.USMay), d.Sources["eu"])
	}
	var animals []string
	for _, a := range d.Animals {
		animals = append(animals, string(a))
	}
	line("animal", list(animals), "")
	line("heat class", string(d.HeatClass), d.Sources["heat_class"])
	line("bought by", d.BoughtBy, d.Sources["bought_by"])
	if d.Keeps != nil {
		line("keeps", strconv.Itoa(*d.Keeps)+" d as bought", d.Sources["keeps_days"])
	}
	line("one weighs", figure(d.Each, "g"), d.Sources["each_g"])
	for _, unit := range slices.Sorted(maps.Keys(d.Weights)) {
		grams := d.Weights[unit]
		line("one "+unit, figure(&grams, "g"), d.Sources["weights_g."+unit])
	}
	line("density", figure(d.Density, "g/ml"), d.Sources["g_per_ml"])
	line("trim", figure(d.Trim, "%"), d.Sources["trim_pct"])
	for i, n := range d.Per100 {
		source := ""
		if i == 0 {
			source = d.Sources["per_100g"]
		}
		line(n.Name+" in 100 g", n.Text, source)
	}
	return w.Flush()
}
