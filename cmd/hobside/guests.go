package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/engine"
	"hobside/internal/larder"
)

// guests is `hobside guests`: what guests' words are understood as, or what the guests of
// a menu clash with.
func guests(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("guests", flag.ContinueOnError)
	menuFile := flags.String("menu", "", "the menu's file")
	cards := flags.String("cards", "", "the folder of the cards; without it, the menu's own and those below it")
	own := flags.String("foods", "", "the file of the kitchen's own foods, for words without a menu")
	format := flags.String("format", "text", "text or json")
	words, err := parse(flags, args)
	switch err = cmp.Or(err, known("format", *format, "text", "json")); {
	case err != nil:
		return err
	case *menuFile != "" && len(words) > 0:
		return usage("name a menu or some words, not both")
	case *menuFile == "" && len(words) == 0:
		return usage(`say what guests can't have, like "nut allergy", or name a menu: --menu FILE`)
	case *menuFile == "":
		foods, err := readFoods(*own)
		if err != nil {
			return err
		}
		return guestWords(out, foods, strings.Join(words, " "), *format)
	case *own != "":
		return usage("the foods of a menu are those beside its cards: leave --foods out")
	}
	folder := *cards
	if folder == "" {
		folder = filepath.Dir(*menuFile)
	}
	d, err := openMenu(engine.New(), dinnerFlags{menu: *menuFile, folder: folder})
	if err != nil {
		return err
	}
	if *format == "json" {
		err = printJSON(out, struct {
			Guests any `json:"guests"`
		}{d.Guests})
	} else {
		printGuests(out, d)
	}
	if err != nil {
		return err
	}
	return told(d.Problems, *format == "json", "the guests may not be checked whole")
}

// printGuests writes each group of guests: what is not checked first, then the clashes,
// then what may be one, then what nobody has assessed.
func printGuests(out io.Writer, d *engine.DinnerView) {
	fmt.Fprintf(out, "%s: %d covers\n", d.Title, d.Covers)
	for _, g := range d.Guests {
		who := strconv.Itoa(g.Covers) + " cover"
		if g.Covers != 1 {
			who += "s"
		}
		if len(g.Exclude) > 0 {
			var words []string
			for _, word := range g.Exclude {
				words = append(words, larder.Excluding(word))
			}
			who += ": " + strings.Join(words, ", ")
		}
		if g.Note != "" {
			who += " (" + g.Note + ")"
		}
		fmt.Fprintf(out, "\n%s\n", who)
		for _, part := range []struct {
			title string
			in    func(dinner.GroupClash) bool
		}{
			{"NOT CHECKED", func(c dinner.GroupClash) bool { return c.NotChecked }},
			{"CLASH", func(c dinner.GroupClash) bool { return c.Sure }},
			{"may contain it", func(c dinner.GroupClash) bool { return c.May }},
			{"not assessed", func(c dinner.GroupClash) bool { return !c.NotChecked && !c.Sure && !c.May }},
		} {
			for _, c := range g.Clashes {
				if !part.in(c) {
					continue
				}
				text := c.Word + ": " + strings.Join(c.Via, " › ")
				if c.NotChecked {
					text = c.Word
					if c.Plate != c.Word {
						text += ", on " + c.Plate
					}
					if c.DidYouMean != "" {
						text += "; did you mean " + strconv.Quote(c.DidYouMean) + "?"
					}
				}
				fmt.Fprintf(out, "  %s: %s: %s\n", part.title, c.Course, text)
			}
		}
		if len(g.Clashes) == 0 {
			fmt.Fprintln(out, "  no clash found among the items that the food table knows")
		}
	}
	fmt.Fprintln(out, "\nNot checked: labels of what was bought, traces, shared boards and oil. Read the labels and ask the guest.")
}

// understood is the answer for words.
type understood struct {
	Words   string   `json:"words"`
	EU      []string `json:"eu"`
	US      []string `json:"us"`
	Animals []string `json:"animals"`
	Heats   []string `json:"raw"`
	Foods   []string `json:"foods"`
	// NotChecked is what of the words no table tells.
	NotChecked string `json:"not_checked,omitempty"`
}

// guestWords prints what some words are understood as, by a kitchen's own foods (nil for
// none); it fails when they are not.
func guestWords(out io.Writer, foods *larder.Foods, text, format string) error {
	a, unknown := foods.UnderstandList(text)
	if unknown != "" {
		hint := `; say an allergen ("nuts"), a diet ("vegan") or a food`
		if why := foods.WhyUnchecked(unknown); why != "" {
			hint = "; " + why
		} else if near := foods.Suggest(unknown); near != "" {
			hint = "; did you mean " + strconv.Quote(near) + "?"
		}
		return fmt.Errorf("not understood: %q%s", unknown, hint)
	}
	u := understood{Words: a.Words, EU: []string{}, US: []string{}, Animals: []string{}, Heats: []string{}, Foods: append([]string{}, a.Foods...), NotChecked: a.Unchecked}
	for _, c := range a.Allergens {
		if c.List == larder.EU {
			u.EU = append(u.EU, c.Code)
		} else {
			u.US = append(u.US, c.Code)
		}
	}
	for _, animal := range a.Animals {
		u.Animals = append(u.Animals, string(animal))
	}
	for _, h := range a.Heats {
		u.Heats = append(u.Heats, string(h))
	}
	if format == "json" {
		return printJSON(out, u)
	}
	fmt.Fprintf(out, "understood as: %s\n", u.Words)
	for _, l := range []struct {
		name string
		of   []string
	}{{"EU allergens", u.EU}, {"US allergens", u.US}, {"animals", u.Animals}, {"raw", u.Heats}, {"foods, and what is made of them", u.Foods}} {
		if len(l.of) > 0 {
			fmt.Fprintf(out, "  %s: %s\n", l.name, strings.Join(l.of, ", "))
		}
	}
	if u.NotChecked != "" {
		fmt.Fprintf(out, "  NOT CHECKED: %s; ask the guest\n", u.NotChecked)
	}
	return nil
}
