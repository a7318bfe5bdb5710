package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/engine"
	"hobside/internal/monitor"
)

// order is `hobside order --menu FILE`: what to buy.
func order(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("order", flag.ContinueOnError)
	of := newMenuFlags(flags)
	format := flags.String("format", "text", "text, json or csv")
	reading := readings(flags)
	in, err := of.read(flags, args)
	if err != nil {
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
	var list dinner.OrderList
	if err := ask(e, "order", engine.DinnerCall{Dinner: d.Dinner}, &list); err != nil {
		return err
	}
	switch *format {
	case "json":
		err = printJSON(out, struct {
			dinner.OrderList
			Problems []document.Problem `json:"problems"`
		}{list, d.Problems})
	case "csv":
		err = printOrderCSV(out, &list)
	case "text":
		err = printOrder(out, d, &list)
	default:
		return usage("unknown format %q: text, json or csv", *format)
	}
	if err != nil {
		return err
	}
	return told(d.Problems, *format == "csv", "the list may be wrong")
}

// printOrder writes the list for a terminal or a printer, with a box to tick.
func printOrder(w io.Writer, d *engine.DinnerView, list *dinner.OrderList) error {
	fmt.Fprintf(w, "%s: what to buy for %d covers\n", d.Title, d.Covers)
	for _, s := range list.Sections {
		fmt.Fprintf(w, "\n%s\n", s.Name)
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
		for _, l := range s.Lines {
			name := l.Name
			if l.LastDay {
				name += " (on the last day)"
			}
			fmt.Fprintf(t, "[ ] %s\t%s\t%s\t%s\n", l.Buy, name, l.Cost, strings.Join(l.For, "; "))
		}
		if err := t.Flush(); err != nil {
			return err
		}
	}
	if list.Cost != "" {
		fmt.Fprintf(w, "\n%s, %s a cover", list.Cost, list.PerCover)
		if list.Unpriced > 0 {
			fmt.Fprintf(w, "; %d lines have no price and are not in it", list.Unpriced)
		}
		fmt.Fprintln(w)
	}
	section(w, "Problems", problemLines(d.Problems))
	return nil
}

// printOrderCSV writes the list as CSV (RFC 4180), a row for each line.
func printOrderCSV(w io.Writer, list *dinner.OrderList) error {
	out := monitor.CSVRow("section", "item", "buy", "need", "last day", "cost", "for", "note")
	for _, s := range list.Sections {
		for _, l := range s.Lines {
			last := ""
			if l.LastDay {
				last = "yes"
			}
			out += monitor.CSVRow(s.Name, l.Name, l.Buy, l.Need, last, l.Cost, strings.Join(l.For, "; "), l.Note)
		}
	}
	_, err := io.WriteString(w, out)
	return err
}
