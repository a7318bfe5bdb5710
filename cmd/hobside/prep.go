package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"strings"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/engine"
)

// prep is `hobside prep --menu FILE`: what to get ready, by day, cook and ingredient.
func prep(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("prep", flag.ContinueOnError)
	of := newMenuFlags(flags)
	format := flags.String("format", "text", "text or json")
	reading := readings(flags)
	in, err := of.read(flags, args)
	if err = cmp.Or(err, known("format", *format, "text", "json")); err != nil {
		return err
	}
	e := engine.New()
	if err := reading.set(e); err != nil {
		return err
	}
	d, err := openMenu(e, in)
	if err != nil {
		return err
	}
	made, err := planIn(e, d, in, time.Now())
	if err != nil {
		return err
	}
	if len(made.view.Blocked) > 0 {
		return fmt.Errorf("there is no prep list without a plan: %s", made.view.Blocked[0])
	}
	var list dinner.PrepList
	if err := ask(e, "prep", engine.DinnerCall{Dinner: d.Dinner}, &list); err != nil {
		return err
	}
	if *format == "json" {
		err = printJSON(out, struct {
			dinner.PrepList
			Problems []document.Problem `json:"problems"`
		}{list, d.Problems})
	} else {
		printPrep(out, d, &list)
	}
	if err != nil {
		return err
	}
	return told(d.Problems, false, "the list may be wrong")
}

// printPrep writes the list for a terminal or a wall, with a box to tick before each
// ingredient.
func printPrep(w io.Writer, d *engine.DinnerView, list *dinner.PrepList) {
	fmt.Fprintf(w, "%s: what to prepare for %d covers\n", d.Title, d.Covers)
	for _, day := range list.Days {
		who := ""
		if day.Who != "" {
			who = ", " + day.Who
		}
		fmt.Fprintf(w, "\n%s%s\n\n", strings.ToUpper(weekday(day.Day)), who)
		for _, line := range day.Lines {
			fmt.Fprintf(w, "[ ] by %s  %s: %s\n", clockOf(line.By), line.Name, strings.Join(partWords(line.Parts), "; "))
		}
	}
	section(w, "Problems", problemLines(d.Problems))
}

// partWords returns what is done to an ingredient: "300 g halved for Light chicken
// stock".
func partWords(parts []dinner.PrepPart) []string {
	var out []string
	for _, p := range parts {
		out = append(out, strings.TrimSpace(p.Amount+" "+p.Work)+" for "+p.For)
	}
	return out
}

// clockOf returns the time of day of a wall clock reading, "2027-06-11 15:04".
func clockOf(wall string) string {
	return wall[strings.LastIndexAny(wall, " T")+1:]
}
