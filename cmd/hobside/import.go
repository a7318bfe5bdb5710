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
// cards. It is safe to repeat: a card edited in the app meanwhile is merged, not
// overwritten.
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
	if len(taken.Refused) > 0 {
		return errProblems
	}
	return nil
}
