package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"rsc.io/qr"

	"hobside/internal/control"
)

// devices is `hobside devices`: it lists the paired devices, makes pairing codes,
// revokes devices and changes their roles.
func devices(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("devices", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	data := flags.String("data", "hobside.db", "data file")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	words := flags.Args()
	if len(words) == 0 {
		words = []string{"list"}
	}
	wants := map[string]int{"list": 1, "code": 2, "revoke": 2, "cook": 2, "helper": 2}
	n, ok := wants[words[0]]
	if words[0] == "code" && len(words) == 1 {
		words = append(words, "helper") // the role with fewer rights is the default
	}
	switch {
	case !ok:
		return usage("unknown action %q: list, code, revoke, cook or helper", words[0])
	case len(words) != n:
		return usage("give %s", map[string]string{"list": "nothing more", "code": "cook or helper", "revoke": "the device's id", "cook": "the device's id", "helper": "the device's id"}[words[0]])
	case strings.ContainsAny(words[len(words)-1], "/?#%"):
		return usage("%q is not an id", words[len(words)-1])
	}
	h, err := control.Open(*data, false)
	if err != nil {
		return err
	}
	defer h.Close()
	switch words[0] {
	case "code":
		c, err := h.NewCode(words[1])
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "the code for one %s is %s, good until %s\nopen the server's address on the new phone and type it there\n",
			c.Role, spaced(c.Code), time.UnixMilli(c.Until).Format("15:04"))
		return nil
	case "revoke":
		if err := h.Revoke(words[1]); err != nil {
			return fmt.Errorf("%w: `hobside devices` lists them", err)
		}
		fmt.Fprintln(out, "the device is revoked; what it stored stays on it")
		return nil
	case "cook", "helper":
		if err := h.SetRole(words[1], words[0]); err != nil {
			return fmt.Errorf("%w: `hobside devices` lists them", err)
		}
		fmt.Fprintf(out, "its role is now %s\n", words[0])
		return nil
	}
	all, err := h.Devices()
	if err != nil {
		return err
	}
	if len(all) == 0 {
		fmt.Fprintln(out, "no device is paired; while `hobside serve --lan` runs, `hobside devices code helper` makes a code for one")
		return nil
	}
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "id\tname\trole\tpaired\tlast seen")
	for _, d := range all {
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", d.ID, d.Name, d.Role, day(d.Paired), day(d.Seen))
	}
	return w.Flush()
}

func day(ms int64) string { return time.UnixMilli(ms).Format("2006-01-02 15:04") }

// spaced writes a code in two halves, easier to read out.
func spaced(code string) string { return code[:len(code)/2] + " " + code[len(code)/2:] }

// printQR prints text as a QR code, two rows of modules in a line of characters,
// with the quiet zone of four modules that ISO/IEC 18004 asks for (from memory).
func printQR(out io.Writer, text string) error {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return err
	}
	const quiet = 4
	var b strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		for x := -quiet; x < code.Size+quiet; x++ {
			// The light modules are drawn: right on a dark terminal, and readers
			// take an inverted code on a light one.
			switch top, bottom := code.Black(x, y), code.Black(x, y+1); {
			case !top && !bottom:
				b.WriteRune('█')
			case !top:
				b.WriteRune('▀')
			case !bottom:
				b.WriteRune('▄')
			default:
				b.WriteByte(' ')
			}
		}
		b.WriteByte('\n')
	}
	_, err = io.WriteString(out, b.String())
	return err
}
