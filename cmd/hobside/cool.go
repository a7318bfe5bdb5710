package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"hobside/internal/safety"
)

const coolArgs = `"WHAT, HOW MUCH, HOW DEEP, WHERE" [--to 5] [--rules us|uk] [--read "0 85, 30 60"] [--format text|json]`

const coolHelp = `usage: hobside cool ` + coolArgs + `

How long something takes to cool, by conduction and convection, and whether the
stages of a rule set would be met. Say what it is, what it is in and how deep, parts with
commas between, in any order:

  4 kg stock            what, and how much of it: kg, g, L, lb, cups, US quarts, imperial gallons
  thin                  it moves by itself: stock, milk; else thick is assumed
  12 cm deep            mm, cm, m or in
  30 cm across          a round pot; 53 × 33 cm for a tray; a roll, a ball
  in an ice bath        fridge, bench, blast chiller, ice bath, stirred ice bath; "at 2 °C"
  from 85 °C            90 °C when not said

Every word is understood, or the sentence is refused and the word is named.

  --to 5                the temperature it is to reach, 5 °C when not said; 41F for °F
  --rules us|uk         whose stages are compared with, us when not said
  --read "MIN C, …"     what was read: minutes from the start and °C (or 185F); the forecast follows
  --format text|json

What had to be assumed is listed with the answer. Local codes and licensed
practice come first.
`

// cool is `hobside cool WORDS`: how long something takes to cool.
func cool(_ context.Context, args []string, out io.Writer) error {
	if slices.Contains(args, "--help") || slices.Contains(args, "-h") || slices.Contains(args, "-help") {
		_, err := io.WriteString(out, coolHelp)
		return err
	}
	flags := flag.NewFlagSet("cool", flag.ContinueOnError)
	to := flags.String("to", "5", "the temperature to reach")
	rules := flags.String("rules", "us", "us or uk")
	read := flags.String("read", "", "what was read")
	format := flags.String("format", "text", "text or json")
	words, err := parse(flags, args)
	switch err = cmp.Or(err, known("rules", *rules, "us", "uk"), known("format", *format, "text", "json")); {
	case err != nil:
		return err
	case len(words) == 0:
		return usage(`say what cools, like "4 kg stock, thin, 12 cm deep, in an ice bath"`)
	}
	target, err := coolTarget(*to)
	if err != nil {
		return usage("--to %v", err)
	}
	log, err := probeLog(*read)
	if err != nil {
		return usage("--read: %v", err)
	}
	vessel, err := safety.ParseVessel(strings.Join(words, " "))
	if err != nil {
		return usage("%v", err)
	}
	c, err := forecastCooling(vessel, safety.Rules(*rules), target, log)
	if err != nil {
		return usage("%v", err)
	}
	if *format == "json" {
		return printJSON(out, c)
	}
	return c.print(out)
}

// cooling is the answer. Times are minutes from the start; nil means never.
type cooling struct {
	What    string         `json:"what"`
	FromC   float64        `json:"fromC"`
	ToC     float64        `json:"toC"`
	Rules   string         `json:"rules"`
	Until   band           `json:"until"`
	Stages  []coolingStage `json:"stages"`
	Ways    []coolingWay   `json:"ways"` // empty when every stage is met even at the slow end
	Curve   []coolingAt    `json:"curve"`
	Assumed []string       `json:"assumed"`
	Defer   string         `json:"defer"`
}

type band struct {
	Quick *float64 `json:"quick"`
	Mid   *float64 `json:"mid"`
	Slow  *float64 `json:"slow"`
	text  string
}

type coolingStage struct {
	Limit  string `json:"limit"`
	State  string `json:"state"`
	Took   band   `json:"took"`
	Source string `json:"source"`
}

type coolingWay struct {
	Words  string         `json:"words"`
	Meets  bool           `json:"meets"`
	Stages []coolingStage `json:"stages"`
}

type coolingAt struct {
	Minute float64 `json:"minute"`
	QuickC float64 `json:"quickC"`
	MidC   float64 `json:"midC"`
	SlowC  float64 `json:"slowC"`
}

func forecastCooling(v safety.Vessel, rules safety.Rules, toC float64, log []safety.Reading) (*cooling, error) {
	if len(log) > 0 && !v.HasFrom {
		v.FromC, v.HasFrom = log[0].TempC, true
	}
	f, err := v.Forecast()
	if err != nil {
		return nil, err
	}
	if len(log) > 0 {
		if err := f.Measure(log); err != nil {
			return nil, err
		}
	}
	limits := safety.CoolingRules(rules)
	c := &cooling{What: v.String(), FromC: f.FromC, ToC: toC, Rules: string(rules), Until: bandOf(f.Cools(toC)), Stages: stagesOf(f.Stages(limits)), Ways: []coolingWay{}, Curve: []coolingAt{},
		Assumed: f.Assumed, Defer: "A forecast, not a measurement: read the probe. Local codes and licensed practice come first."}
	meets := true
	for _, s := range f.Stages(limits) {
		meets = meets && (s.State == safety.Met || s.State == safety.NotJudged)
	}
	if !meets {
		for _, w := range f.Better(limits) {
			c.Ways = append(c.Ways, coolingWay{Words: w.Words, Meets: w.Meets, Stages: stagesOf(w.Stages)})
		}
	}
	end := 360.0
	if s := f.Cools(toC).Slow; !math.IsInf(s, 1) {
		end = math.Max(30, s)
	}
	const rows = 12
	for i := range rows + 1 {
		m := math.Round(end * float64(i) / rows)
		slow, mid, quick := f.At(m)
		c.Curve = append(c.Curve, coolingAt{Minute: m, QuickC: tenth(quick), MidC: tenth(mid), SlowC: tenth(slow)})
	}
	return c, nil
}

func tenth(c float64) float64 { return math.Round(c*10) / 10 }

func bandOf(b safety.Band) band {
	one := func(m float64) *float64 {
		if math.IsInf(m, 0) || math.IsNaN(m) {
			return nil
		}
		m = tenth(m)
		return &m
	}
	return band{Quick: one(b.Quick), Mid: one(b.Mid), Slow: one(b.Slow), text: b.String()}
}

func stagesOf(stages []safety.Stage) []coolingStage {
	out := []coolingStage{}
	for _, s := range stages {
		c := coolingStage{Limit: s.Limit.String(), State: string(s.State), Source: s.Limit.Source.String()}
		if s.State != safety.NotJudged {
			c.Took = bandOf(s.Took)
		}
		out = append(out, c)
	}
	return out
}

// print writes the answer for a terminal.
func (c *cooling) print(w io.Writer) error {
	fmt.Fprintf(w, "%s\nFrom %s to %s: %s\n\n", c.What, safety.Celsius(c.FromC), safety.Celsius(c.ToC), c.Until.text)
	for _, s := range c.Stages {
		took := s.State
		if s.Took.text != "" {
			took += ", " + s.Took.text
		}
		fmt.Fprintf(w, "  %s: %s\n    %s\n", s.Limit, took, s.Source)
	}
	for i, way := range c.Ways {
		if i == 0 {
			fmt.Fprintln(w, "\nWhat would cool it quicker")
		}
		verdict := "still too slow, or near it"
		if way.Meets {
			verdict = "in time"
		}
		fmt.Fprintf(w, "  %s: %s", way.Words, verdict)
		for _, s := range way.Stages {
			if s.Took.text != "" {
				fmt.Fprintf(w, "; %s: %s", s.Limit, s.Took.text)
			}
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintln(w)
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(t, "after\tquick\tmiddle\tslow\t\n")
	for _, p := range c.Curve {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t\n", safety.Span(p.Minute), safety.Celsius(p.QuickC), safety.Celsius(p.MidC), safety.Celsius(p.SlowC))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	fmt.Fprintln(w, "\nIt rests on")
	for _, a := range c.Assumed {
		fmt.Fprintf(w, "- %s\n", a)
	}
	_, err := fmt.Fprintf(w, "\n%s\n", c.Defer)
	return err
}
