package main

import (
	"context"
	"flag"
	"fmt"
	"io"

	"hobside/internal/control"
	"hobside/internal/folder"
)

// importDir is `hobside import DIR`: a folder that export wrote, or any folder of
// cards. It is safe to repeat. A card that was edited on one side only, here or in the
// app, is as it was edited; where both changed other lines, it has both changes. Where
// both changed the same lines, the two versions are kept beside each other, the command
// names the card and ends with 1.
func importDir(ctx context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("import", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	data := flags.String("data", "hobside.db", "data file")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	if flags.NArg() != 1 {
		return usage("give the folder to read")
	}
	dir := flags.Arg(0)
	var service control.Service
	taken, err := folder.Import(ctx, dir, func() (s folder.Syncer, err error) {
		service, err = control.Open(*data, true)
		return service, err
	})
	if service != nil {
		defer service.Close()
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: %s and %s taken, or here already\n", dir, plural(taken.Files, "text"), plural(taken.Events, "event"))
	for _, r := range taken.Refused {
		fmt.Fprintf(out, "refused %s: %s\n", r.ID, r.Why)
	}
	for _, name := range taken.Clashed {
		fmt.Fprintf(out, "%s was changed here and in the app: both versions are kept; choose one on a phone, under Cards\n", name)
	}
	if len(taken.Refused)+len(taken.Clashed) > 0 {
		return errProblems
	}
	return nil
}
