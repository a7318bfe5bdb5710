package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"
	"text/tabwriter"

	"hobside/internal/folder"
	"hobside/internal/larder"
	"hobside/internal/larder/composition"
	"hobside/internal/library"
)

// food is `hobside food WORDS`: what the food table knows of an item.
func food(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("food", flag.ContinueOnError)
	format := flags.String("format", "text", "text or json")
	own := flags.String("foods", "", "the file of the kitchen's own foods")
	words, err := parse(flags, args)
	switch err = cmp.Or(err, known("format", *format, "text", "json")); {
	case err != nil:
		return err
	case len(words) == 0:
		return usage(`name a food, like "red onions"`)
	}
	foods, err := readFoods(*own)
	if err != nil {
		return err
	}
	item := strings.Join(words, " ")
	d, ok := foods.Describe(item, composition.Rows())
	if !ok {
		hint := ""
		if near := foods.Suggest(item); near != "" {
			hint = "; did you mean " + strconv.Quote(near) + "?"
		}
		return fmt.Errorf("the food table has nothing like %q%s", item, hint)
	}
	if *format == "json" {
		return printJSON(out, d)
	}
	return printFood(out, &d)
}

// readFoods reads a file of a kitchen's own foods, nil for no file. It fails when the
// file is none, or has an error.
func readFoods(file string) (*larder.Foods, error) {
	if file == "" {
		return nil, nil
	}
	text, err := folder.ReadFile(file)
	if err != nil {
		return nil, err
	}
	set, foods, problems := library.Gather([]library.Source{{Name: file, Text: text}})
	if set[filepath.Base(file)].Foods == nil {
		return nil, fmt.Errorf("%s has no table headed \"food\": it is not a kitchen's own foods", file)
	}
	return foods, told(problems, false, "the foods are not read")
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
	for _, f := range d.Facts() {
		line(f.Word, f.Value, f.Source)
	}
	for i, n := range d.Per100 {
		source := ""
		if i == 0 {
			source = d.Sources["per_100g"]
		}
		line(n.Name+" in 100 g", n.Text, source)
	}
	return w.Flush()
}
