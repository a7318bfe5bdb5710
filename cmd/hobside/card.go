package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"hobside/internal/card"
	"hobside/internal/convert"
	"hobside/internal/document"
	"hobside/internal/engine"
	"hobside/internal/folder"
	"hobside/internal/larder"
	"hobside/internal/larder/composition"
)

// cardPage is `hobside card FILE`: one card, scaled.
func cardPage(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("card", flag.ContinueOnError)
	makes := flags.String("make", "", "what to make: 2.4 kg, ×3")
	of := flags.String("of", "", "the item that --make is of")
	hundred := flags.String("hundred", "", "the items at 100 %")
	own := flags.String("foods", "", "the file of the kitchen's own foods, where it is not beside the card")
	format := flags.String("format", "text", "text, json, html or jsonld")
	reading := readings(flags)
	files, err := parse(flags, args)
	switch err = cmp.Or(err, known("format", *format, "text", "json", "html", "jsonld")); {
	case err != nil:
		return err
	case len(files) != 1:
		return usage("name one card")
	case *of != "" && *makes == "":
		return usage("--of needs --make: how much of the item there is")
	case *format == "jsonld" && *makes != "":
		return usage("a schema.org Recipe is of the card as typed: leave --make out")
	}
	text, err := folder.ReadFile(files[0])
	if err != nil {
		return err
	}
	e := engine.New()
	if err := reading.set(e); err != nil {
		return err
	}
	if err := loadBeside(e, files[0], *own); err != nil {
		return err
	}
	e.SetCompositions(composition.Rows())
	call := engine.ReadCall{Name: filepath.Base(files[0]), Text: text}
	var page engine.PageView
	if *of != "" || *hundred != "" { // items are found by their names on the card as typed
		if err := ask(e, "read", call, &page); err != nil {
			return err
		}
		if call.Line, call.Hundred, err = lines(page.Card, *of, *hundred); err != nil {
			return err
		}
	}
	call.Make = *makes
	page = engine.PageView{}
	if err := ask(e, "read", call, &page); err != nil {
		return err
	}
	if page.Card == nil {
		return fmt.Errorf("%s is a %s, not a card", files[0], page.Kind)
	}
	broken := false
	for i := range page.Problems {
		page.Problems[i].File = files[0]
		broken = broken || page.Problems[i].Severity == document.Error
	}
	if *format == "jsonld" {
		err = printData(out, files[0], text, page.Card)
	} else {
		err = printPage(out, &page, *format)
	}
	if err != nil {
		return err
	}
	if broken {
		return errProblems
	}
	return nil
}

// loadBeside loads the Markdown files that belong with a card, so that its links and
// its limits can be checked, and a file of a kitchen's own foods where one is named.
func loadBeside(e *engine.Engine, file, foods string) error {
	paths, err := beside(file)
	if err != nil {
		return err
	}
	if foods != "" {
		if _, err := readFoods(foods); err != nil {
			return err
		}
		paths = append([]string{foods}, paths...)
	}
	var load engine.LoadCall
	have := map[string]bool{}
	for _, path := range append([]string{file}, paths...) {
		name := filepath.Base(path)
		if have[name] {
			continue
		}
		have[name] = true
		text, err := folder.ReadFile(path)
		if err != nil {
			return err
		}
		load.Files = append(load.Files, engine.File{Name: name, Text: text})
	}
	var library engine.LibraryView
	return ask(e, "load", load, &library)
}

// printData writes a card as a schema.org Recipe, with what a portion of it consists of
// where that is known.
func printData(out io.Writer, file, text string, page *engine.CardPage) error {
	c, _ := card.Parse(filepath.Base(file), []byte(text))
	var portion []larder.DeclarationLine
	size := ""
	if page.Nutrition != nil {
		if portion, size = page.Nutrition.EUPortion, page.Nutrition.Portion; len(portion) == 0 {
			portion, size = page.Nutrition.EU, "100 g"
		}
	}
	data, err := convert.JSONLD(c, portion, size)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	return err
}

func printPage(out io.Writer, page *engine.PageView, format string) error {
	switch format {
	case "json":
		return printJSON(out, page)
	case "html":
		_, err := io.WriteString(out, page.HTML+factsHTML(page.Card.Nutrition, page.Card.Cost, 2))
		return err
	default:
		return printCard(out, page)
	}
}

// printCard writes a card for a terminal or a printer.
func printCard(w io.Writer, page *engine.PageView) error {
	c := page.Card
	fmt.Fprintf(w, "%s\nMakes %s\n\n", page.Title, page.Makes)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	group := ""
	for _, it := range c.Items {
		if it.Group != group {
			group = it.Group
			fmt.Fprintf(t, "%s\t\t\t\n", group)
		}
		name := it.Name
		for _, more := range []string{it.Prep, it.Aside} {
			if more != "" {
				name += ", " + more
			}
		}
		percent := it.Percent
		if it.Hundred {
			percent += " *"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\n", it.Amount, name, percent)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintf(w, "\nIn all %s", c.Weighs)
	if c.Yield != "" {
		fmt.Fprintf(w, "; it makes %s", c.Yield)
	}
	fmt.Fprint(w, ". Percent of the items marked *.\n")
	for _, it := range c.Items {
		if it.Basis != "" {
			fmt.Fprintf(w, "  %s: %s\n", it.Name, it.Basis)
		}
		if it.Trim != "" {
			fmt.Fprintf(w, "  %s: buy more, %s is lost in trimming\n", it.Name, it.Trim)
		}
	}
	fmt.Fprintln(w)
	way := ""
	for _, s := range c.Steps {
		if s.Way != way {
			if way = s.Way; way != "" {
				fmt.Fprintf(w, "Way: %s\n", way)
			} else {
				fmt.Fprintln(w, "Then")
			}
		}
		fmt.Fprintf(w, "%d. %s\n", s.Number, s.Text)
		for _, f := range s.Facts {
			fmt.Fprintf(w, "   - %s\n", f)
		}
	}
	for i, s := range c.Saves {
		if i == 0 {
			fmt.Fprintln(w, "\nSaves")
		}
		fmt.Fprintf(w, "- %s\n", s)
	}
	if err := printNutrition(w, c.Nutrition); err != nil {
		return err
	}
	printCost(w, c.Cost)
	for i, f := range page.Problems {
		if i == 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintln(w, f.Error())
	}
	return nil
}

// lines finds items of a card by name. It returns the item to scale by and those
// at 100 %, counted from 1.
func lines(c *engine.CardPage, of, hundred string) (line int, at []int, err error) {
	if c == nil {
		return 0, nil, nil
	}
	find := func(name string) (int, error) {
		name = strings.ToLower(strings.TrimSpace(name))
		found := 0
		for _, it := range c.Items {
			switch low := strings.ToLower(it.Name); {
			case low == name:
				return it.Item, nil
			case strings.Contains(low, name) && found != 0:
				return 0, fmt.Errorf("%q may be several items: write the name as the formula has it", name)
			case strings.Contains(low, name):
				found = it.Item
			}
		}
		if found == 0 {
			return 0, fmt.Errorf("the formula has no %q", name)
		}
		return found, nil
	}
	if of != "" {
		if line, err = find(of); err != nil {
			return 0, nil, err
		}
	}
	for name := range strings.SplitSeq(hundred, ",") {
		if strings.TrimSpace(name) == "" {
			continue
		}
		n, err := find(name)
		if err != nil {
			return 0, nil, err
		}
		at = append(at, n)
	}
	return line, at, nil
}
