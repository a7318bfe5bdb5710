package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/engine"
	"hobside/internal/folder"
	"hobside/internal/kitchen"
	"hobside/internal/library"
)

// planned is a plan and what printing it needs.
type planned struct {
	dinner *engine.DinnerView
	view   *dinner.Schedule
	serve  time.Time // in the kitchen's zone
	made   time.Time
}

// at returns a minute of the plan, counted from the serving time, as a time.
func (p *planned) at(minute int) time.Time {
	return p.serve.Add(time.Duration(minute) * time.Minute)
}

// planCommand is `hobside plan --menu FILE`: when each step starts.
func planCommand(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("plan", flag.ContinueOnError)
	of := newMenuFlags(flags)
	kitchen := flags.String("kitchen", "", "the kitchen's file, instead of the one the menu names")
	serve := flags.String("serve", "", "when the first course is served, \"2027-06-12 19:30\", instead of the menu's own time")
	format := flags.String("format", "text", "text, json or ics")
	in, err := of.read(flags, args)
	if err = cmp.Or(err, known("format", *format, "text", "json", "ics")); err != nil {
		return err
	}
	in.kitchen = *kitchen
	if *serve != "" {
		w, what := document.ParseWhen(*serve)
		if what == "" && !w.HasDate() {
			what = "\"" + *serve + "\" has no date"
		}
		if what != "" {
			return usage("--serve: %s: write it like \"2027-06-12 19:30\"", what)
		}
		in.serve = w.String()
	}
	p, err := planOf(in, time.Now())
	if err != nil {
		return err
	}
	switch *format {
	case "json":
		err = printJSON(out, struct {
			*dinner.Schedule
			Problems []document.Problem `json:"problems"`
		}{p.view, p.dinner.Problems})
	case "ics":
		if len(p.view.Blocked) == 0 {
			err = printPlanICS(out, p)
		}
	default:
		err = printPlan(out, p)
	}
	if err != nil {
		return err
	}
	if len(p.view.Blocked) > 0 {
		return fmt.Errorf("there is no plan: %s", p.view.Blocked[0])
	}
	return told(p.dinner.Problems, *format == "ics", "the plan may be wrong")
}

// planOf plans a dinner that has not begun, in the time zone of its kitchen.
func planOf(in dinnerFlags, now time.Time) (*planned, error) {
	e := engine.New()
	d, err := openMenu(e, in)
	if err != nil {
		return nil, err
	}
	return planIn(e, d, in, now)
}

// planIn plans a dinner that is open in an engine.
func planIn(e *engine.Engine, d *engine.DinnerView, in dinnerFlags, now time.Time) (*planned, error) {
	zone, err := kitchenZone(in, d)
	if err != nil {
		return nil, err
	}
	p := &planned{dinner: d, view: &dinner.Schedule{}, made: now}
	if d.Serve == "" {
		return nil, fmt.Errorf("%s does not say when the first course goes out: add \"serve: 2027-06-12 19:30\" at its top, or give --serve", in.menu)
	}
	if p.serve, err = time.ParseInLocation(wallForm, d.Serve, zone); err != nil {
		return nil, fmt.Errorf("%s: its serving time %q has no date: write it like \"2027-06-12 19:30\", or give --serve", in.menu, d.Serve)
	}
	call := engine.PlanCall{Dinner: d.Dinner, ServeAt: p.serve.UnixMilli(), Now: p.serve.Add(-365 * 24 * time.Hour).UnixMilli(),
		ClockChanges: clockChanges(p.serve, zone), Fresh: true, Full: true}
	return p, ask(e, "plan", call, p.view)
}

// kitchenZone returns the time zone of a dinner's kitchen, this machine's where the
// kitchen names none.
func kitchenZone(in dinnerFlags, d *engine.DinnerView) (*time.Location, error) {
	paths, err := markdownIn(in.folder)
	if err != nil {
		return nil, err
	}
	if in.kitchen != "" {
		paths = append([]string{in.kitchen}, paths...)
	}
	for _, path := range paths {
		text, err := folder.ReadFile(path)
		if err != nil {
			return nil, err
		}
		if library.KindOf([]byte(text)) != library.KindKitchen {
			continue
		}
		if k, _ := kitchen.Parse(path, []byte(text)); k.Title == d.Kitchen {
			return zoneOf(k.Zone)
		}
	}
	return time.Local, nil
}
