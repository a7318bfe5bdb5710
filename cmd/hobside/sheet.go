package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"html"
	"io"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/engine"
	"hobside/internal/larder"
	"hobside/internal/larder/composition"
)

// sheet is `hobside sheet --menu FILE`: what is known of every plate, for those who serve it.
func sheet(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("sheet", flag.ContinueOnError)
	of := newMenuFlags(flags)
	format := flags.String("format", "text", "text, json or html")
	in, err := of.read(flags, args)
	if err = cmp.Or(err, known("format", *format, "text", "json", "html")); err != nil {
		return err
	}
	e := engine.New()
	e.SetCompositions(composition.Rows())
	d, err := openMenu(e, in)
	if err != nil {
		return err
	}
	var view engine.SheetView
	if err := ask(e, "sheet", engine.DinnerCall{Dinner: d.Dinner}, &view); err != nil {
		return err
	}
	switch *format {
	case "json":
		err = printJSON(out, view)
	case "html":
		_, err = io.WriteString(out, sheetHTML(&view))
	default:
		err = printSheet(out, &view)
	}
	if err != nil {
		return err
	}
	return told(d.Problems, true, "the sheet may be wrong")
}

// notFree is said on every sheet: no list of what was found says what is not there.
const notFree = "What is not listed was not found in the food table or on the cards. It does not mean that a plate is free of it. Local codes and licensed practice come first."

// allergenLines returns what is known of a plate's allergens, a line for each.
func allergenLines(s *dinner.PlateSheet) []string {
	var out []string
	list := func(whose string, allergens []dinner.Allergen) {
		for _, a := range allergens {
			certainty := string(a.Certainty)
			if a.Certainty == larder.May {
				certainty = "may contain"
			}
			out = append(out, whose+": "+certainty+" "+a.Name+" (via "+strings.Join(a.Via, "; ")+")")
		}
	}
	list("EU and UK", s.EU)
	list("US", s.US)
	for _, w := range s.Without {
		out = append(out, "without, as its author says: "+w)
	}
	for _, item := range s.NotAssessed {
		out = append(out, "not assessed: "+item)
	}
	return out
}

// plateName returns a plate with its course and for whom it is.
func plateName(s *dinner.PlateSheet) string {
	name := s.Course + ": " + s.Plate
	if s.For != "" {
		name += " (" + s.For + ")"
	}
	return fmt.Sprintf("%s, %d covers", name, s.Covers)
}

// printSheet writes the sheet for a terminal or a printer.
func printSheet(w io.Writer, v *engine.SheetView) error {
	fmt.Fprintf(w, "%s, %d covers\n%s\n", v.Title, v.Covers, notFree)
	for i := range v.Plates {
		p := &v.Plates[i]
		fmt.Fprintf(w, "\n%s\n", plateName(&p.Allergens))
		for _, line := range allergenLines(&p.Allergens) {
			fmt.Fprintf(w, "  %s\n", line)
		}
		if err := printNutrition(w, p.Nutrition); err != nil {
			return err
		}
		printCost(w, p.Cost)
	}
	return nil
}

// sheetHTML returns the sheet as a page of HTML.
func sheetHTML(v *engine.SheetView) string {
	var b strings.Builder
	title := html.EscapeString(v.Title)
	fmt.Fprintf(&b, "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>%s</title>\n<h1>%s, %d covers</h1>\n<p>%s</p>\n", title, title, v.Covers, notFree)
	for i := range v.Plates {
		p := &v.Plates[i]
		fmt.Fprintf(&b, "<h2>%s</h2>\n", html.EscapeString(plateName(&p.Allergens)))
		listHTML(&b, "Allergens", allergenLines(&p.Allergens))
		b.WriteString(factsHTML(p.Nutrition, p.Cost, 3))
	}
	b.WriteString("</html>\n")
	return b.String()
}
