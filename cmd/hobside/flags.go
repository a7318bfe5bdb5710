package main

import (
	"flag"
	"io"
	"slices"
	"strings"

	"hobside/internal/engine"
)

// parse reads flags before, between and after the file names, and returns the
// names.
func parse(flags *flag.FlagSet, args []string) (names []string, err error) {
	flags.SetOutput(io.Discard)
	for {
		if err := flags.Parse(args); err != nil {
			return nil, usage("%v", err)
		}
		if flags.NArg() == 0 {
			return names, nil
		}
		names, args = append(names, flags.Arg(0)), flags.Args()[1:]
	}
}

// known refuses the value of a flag that is none of its choices: wrong usage.
func known(flag, value string, choices ...string) error {
	if slices.Contains(choices, value) {
		return nil
	}
	last := len(choices) - 1
	return usage("unknown %s %q: %s or %s", flag, value, strings.Join(choices[:last], ", "), choices[last])
}

// reading holds the flags that say how amounts are shown.
type reading struct{ units, scale *string }

func readings(flags *flag.FlagSet) reading {
	return reading{flags.String("units", "typed", "typed, metric, us or imperial"), flags.String("scale", "1 g", "0.1 g, 1 g or 5 g")}
}

func (r reading) set(e *engine.Engine) error {
	scale := strings.ReplaceAll(*r.scale, " ", "")
	if n, ok := strings.CutSuffix(scale, "g"); ok {
		scale = n + " g"
	}
	var sheet engine.Sheet
	return ask(e, "prefs", engine.Prefs{System: *r.units, Scale: scale}, &sheet)
}
