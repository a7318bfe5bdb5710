package main

import (
	"context"
	"io"
)

// serve builds what changed and serves the demo dinner from a data file of its
// own in bin/; flags given here go to hobside serve and win.
func serve(ctx context.Context, out io.Writer, flags []string) error {
	if err := build(ctx, out); err != nil {
		return err
	}
	return command(ctx, out, binaryPath, append([]string{"serve", "--data", "bin/demo.db"}, flags...)...).Run()
}
