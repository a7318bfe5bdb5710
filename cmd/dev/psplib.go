package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	solver "hobside/internal/plan/rcpsp/bench"
)

// instanceSets are the folders of public instances in testdata, with and
// without maximum lags.
var instanceSets = []string{"testdata/psplib/j30", "testdata/psplib/j60", "testdata/rcpspmax/j20", "testdata/rcpspmax/ubo20"}

// psplib measures the planner's solver on the instances in the folder
// PSPLIB_DIR, in one line; without it on each of our own sets, a line each. The
// names of the folders go to notes, so that out holds the figures alone.
func psplib(args []string, out, notes io.Writer) error {
	flags := flag.NewFlagSet("bench psplib", flag.ContinueOnError)
	flags.SetOutput(notes)
	schedules := flags.Int("schedules", 5000, "how many schedules may be generated for each instance")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return nil
		}
		return err
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("bench psplib takes no %q: the folder is named by PSPLIB_DIR", flags.Arg(0))
	}
	if *schedules < 1 {
		return fmt.Errorf("--schedules %d: at least 1", *schedules)
	}
	if dir := os.Getenv("PSPLIB_DIR"); dir != "" {
		return solver.Run(dir, *schedules, out)
	}
	for _, dir := range instanceSets {
		fmt.Fprintln(notes, dir)
		if err := solver.Run(dir, *schedules, out); err != nil {
			return err
		}
	}
	return nil
}
