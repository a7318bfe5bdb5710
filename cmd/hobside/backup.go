package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"hobside/internal/control"
	"hobside/internal/store"
)

// dataFlag reads the flags of a command that works on the data file. It returns
// the file and the other arguments, of which there must be as many as words; what
// names them for the error.
func dataFlag(name string, args []string, words int, what string) (data string, rest []string, err error) {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.StringVar(&data, "data", "hobside.db", "data file")
	if err := flags.Parse(args); err != nil {
		return "", nil, usage("%v", err)
	}
	if flags.NArg() != words {
		return "", nil, usage("give %s", what)
	}
	return data, flags.Args(), nil
}

// backup is `hobside backup FILE`. The copy gets its name only after it was
// written and checked; an existing file is never overwritten.
func backup(ctx context.Context, args []string, out io.Writer) error {
	data, words, err := dataFlag("backup", args, 1, "the file to write")
	if err != nil {
		return err
	}
	to := words[0]
	if err := store.CheckNoLink(to); err != nil {
		return err
	}
	if _, err := os.Stat(to); err == nil {
		return fmt.Errorf("%s is there already: choose a new name, or remove it first", to)
	}
	h, err := control.Open(data, false)
	if err != nil {
		return err
	}
	defer h.Close()
	store.Sweep(to)
	aside, err := store.Aside(to, "part")
	if err != nil {
		return fmt.Errorf("cannot write there: %w", err)
	}
	defer store.Discard(aside)
	if err := errors.Join(h.Backup(aside), aside.Sync(), aside.Close()); err != nil {
		return err
	}
	counts, err := store.Verify(ctx, aside.Name(), store.Options{})
	if err != nil {
		return fmt.Errorf("the backup is damaged and was removed: %w", err)
	}
	err = store.Publish(aside.Name(), to, store.Options{})
	if errors.Is(err, os.ErrExist) {
		return fmt.Errorf("%s is there already: choose a new name, or remove it first", to)
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s: %s, read back and whole\n", to, inWords(counts))
	return nil
}

// restore is `hobside restore FILE`.
func restore(ctx context.Context, args []string, out io.Writer) error {
	data, words, err := dataFlag("restore", args, 1, "the backup to put back")
	if err != nil {
		return err
	}
	if err := errors.Join(store.CheckNoLink(words[0]), store.CheckNoLink(data)); err != nil {
		return err
	}
	if r, err := control.Find(data); err == nil && r != nil {
		return fmt.Errorf("a server runs on %s: stop it first; the phones keep all they have and hand back what the backup lacks", data)
	}
	counts, err := store.Verify(ctx, words[0], store.Options{})
	if err != nil {
		return fmt.Errorf("nothing was changed: %w", err)
	}
	done, err := store.Restore(ctx, words[0], data, time.Now(), store.Options{})
	if err != nil {
		return err
	}
	if done.NobodyIn != nil {
		counts.Devices = 0
	}
	fmt.Fprintf(out, "%s is now as in the backup: %s\n", data, inWords(counts))
	if done.Kept != "" {
		fmt.Fprintf(out, "what was there is kept in %s\n", done.Kept)
	}
	if done.NobodyIn != nil {
		fmt.Fprintf(out, "what was there can't be read (%v), so nothing tells which phones were revoked: no phone is let in; pair each again\n", done.NobodyIn)
	}
	fmt.Fprintln(out, "phones that know more than the backup hand it back when they next reach the server")
	return nil
}

// verify is `hobside verify [FILE]`: it checks every page, record and index.
func verify(ctx context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("verify", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	data := flags.String("data", "hobside.db", "data file")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	var counts store.Counts
	var err error
	name := *data
	switch flags.NArg() {
	case 0:
		if _, err := os.Stat(*data); err != nil {
			return fmt.Errorf("there is no data file %s: name another with --data", *data)
		}
		var r control.Service
		if r, err = control.Find(*data); err == nil && r != nil {
			counts, err = r.Verify(ctx)
		} else if err == nil {
			counts, err = store.Verify(ctx, *data, store.Options{})
		}
	case 1:
		name = flags.Arg(0)
		counts, err = store.Verify(ctx, name, store.Options{})
	default:
		return usage("give one backup, or none for the data file itself")
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s is whole: every page, every record against its checksum, every index: %s\n", name, inWords(counts))
	return nil
}

// inWords lists what a data file holds.
func inWords(c store.Counts) string {
	return fmt.Sprintf("%s of %s, %s, %s let in",
		plural(c.Events, "event"), plural(c.Dinners, "dinner"), plural(c.Files, "card, menu or kitchen", "cards, menus and kitchens"), plural(c.Devices, "device"))
}

// plural writes a count with its noun. Many is the plural where adding "s" to one
// is wrong.
func plural(n int, one string, many ...string) string {
	switch {
	case n == 1:
		return "1 " + one
	case len(many) > 0:
		return fmt.Sprintf("%d %s", n, many[0])
	}
	return fmt.Sprintf("%d %ss", n, one)
}
