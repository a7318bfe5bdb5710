package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"
	"time"

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
	if err = cmp.Or(err, known("format", *format, "text", "json", "csv")); err != nil {
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
	noPlan := ""
	if made, err := planIn(e, d, in, time.Now()); err != nil {
		noPlan = err.Error()
	} else if len(made.view.Blocked) > 0 {
		noPlan = made.view.Blocked[0]
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
	default:
		err = printOrder(out, d, &list, noPlan)
	}
	if err != nil {
		return err
	}
	return told(d.Problems, *format == "csv", "the list may be wrong")
}

// printOrder writes the list for a terminal or a printer, with a box to tick: by delivery
// where there is a plan, and by section of the shop.
func printOrder(w io.Writer, d *engine.DinnerView, list *dinner.OrderList, noPlan string) error {
	fmt.Fprintf(w, "%s: what to buy for %d covers\n", d.Title, d.Covers)
	if !list.Planned {
		fmt.Fprintf(w, "No day is said for any of it, because there is no plan: %s\n", noPlan)
	}
	if len(list.Spares) > 0 {
		fmt.Fprintf(w, "With spares: %s.\n", strings.Join(list.Spares, "; "))
	}
	listed := map[string]bool{}
	for _, delivery := range list.Deliveries {
		fmt.Fprintf(w, "\nFOR %s\n", strings.ToUpper(weekday(delivery.Day)))
		if err := printSections(w, list, func(l *dinner.OrderLine) bool { return slices.Contains(delivery.Keys, l.Key) }); err != nil {
			return err
		}
		for _, key := range delivery.Keys {
			listed[key] = true
		}
	}
	if len(list.Deliveries) > 0 && slices.ContainsFunc(list.Sections, func(s dinner.OrderSection) bool {
		return slices.ContainsFunc(s.Lines, func(l dinner.OrderLine) bool { return !listed[l.Key] })
	}) {
		fmt.Fprintln(w, "\nON ANY DAY")
	}
	if err := printSections(w, list, func(l *dinner.OrderLine) bool { return !listed[l.Key] }); err != nil {
		return err
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

// printSections writes those lines of the list that are in, by section of the shop.
func printSections(w io.Writer, list *dinner.OrderList, in func(*dinner.OrderLine) bool) error {
	for _, s := range list.Sections {
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
		first := true
		for i := range s.Lines {
			l := &s.Lines[i]
			if !in(l) {
				continue
			}
			if first {
				fmt.Fprintf(w, "\n%s\n", s.Name)
				first = false
			}
			name := l.Name
			if l.Stale {
				name += " (does not keep until its last use)"
			}
			fmt.Fprintf(t, "[ ] %s\t%s\t%s\t%s\n", l.Buy, name, l.Cost, strings.Join(l.For, "; "))
		}
		if err := t.Flush(); err != nil {
			return err
		}
	}
	return nil
}

// weekday returns "Friday 11 June 2027" of a date.
func weekday(date string) string {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	return day.Format("Monday 2 January 2006")
}

// printOrderCSV writes the list as CSV (RFC 4180), a row for each line.
func printOrderCSV(w io.Writer, list *dinner.OrderList) error {
	out := monitor.CSVRow("section", "item", "buy", "need", "buy by", "cost", "for", "note")
	for _, s := range list.Sections {
		for _, l := range s.Lines {
			out += monitor.CSVRow(s.Name, l.Name, l.Buy, l.Need, l.BuyBy, l.Cost, strings.Join(l.For, "; "), l.Note)
		}
	}
	_, err := io.WriteString(w, out)
	return err
}
