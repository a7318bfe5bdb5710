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

// devices is `hobside devices`: who is let in, and letting in and out.
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
		words = append(words, "helper") // the lesser right is the default
	}
	switch {
	case !ok:
		return usage("%q is none of list, code, revoke, cook, helper", words[0])
	case len(words) != n:
		return usage("give %s", map[string]string{"list": "nothing more", "code": "cook or helper", "revoke": "the device's id", "cook": "the device's id", "helper": "the device's id"}[words[0]])
	case strings.ContainsAny(words[len(words)-1], "/?#%"):
		return usage("%q is no id", words[len(words)-1])
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
		fmt.Fprintln(out, "it is let in no more; what it keeps on itself it keeps")
		return nil
	case "cook", "helper":
		if err := h.SetRole(words[1], words[0]); err != nil {
			return fmt.Errorf("%w: `hobside devices` lists them", err)
		}
		fmt.Fprintf(out, "it is a %s's now\n", words[0])
		return nil
	}
	all, err := h.Devices()
	if err != nil {
		return err
	}
	if len(all) == 0 {
		fmt.Fprintln(out, "no device is let in from the network; `hobside devices code helper` makes a code for one while `hobside serve --lan` runs")
		return nil
	}
	w := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "id\tname\trole\tlet in\tlast here")
	for _, d := range all {
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\n", d.ID, d.Name, d.Role, day(d.Paired), day(d.Seen))
	}
	return w.Flush()
}

func day(ms int64) string { return time.UnixMilli(ms).Format("2006-01-02 15:04") }

// spaced writes a code so that it can be read out.
func spaced(code string) string { return code[:len(code)/2] + " " + code[len(code)/2:] }

// printQR draws an address so that a phone's camera reads it, two rows of squares
// to a line, with the quiet zone that a reader needs (ISO/IEC 18004 asks for
// four squares; from memory).
func printQR(out io.Writer, text string) error {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return err
	}
	const quiet = 4
	var b strings.Builder
	for y := -quiet; y < code.Size+quiet; y += 2 {
		for x := -quiet; x < code.Size+quiet; x++ {
			// Light squares are drawn, so that it is right on a dark terminal and,
			// as readers take both, on a light one.
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
