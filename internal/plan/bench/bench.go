// Package bench measures plans of dinners: [Run] plans a menu and prints in one line
// how well its plan can be followed. Unlike the planner it reads files and a clock.
package bench

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/library"
	"hobside/internal/plan"
)

// runs is how often a menu is planned; the shortest time counts.
const runs = 3

// Run plans the menu in a file and prints one line to out:
//
//	menu=boathouse-supper steps=130 handovers=8 card_changes=60 longest_stretch_min=150 last_hour_share_pct=50 odd_starts=0 late_min=0 ms=60
//
// Its cards and its kitchen are the other Markdown files of the menu's folder and
// the folders below it. Figures says what each figure counts; ms is the time to
// plan it, in milliseconds. Run returns an error when a file can't be read or has
// an error, and when there is no plan.
func Run(menu string, out io.Writer) error {
	in, err := Read(menu)
	if err != nil {
		return err
	}
	var p *plan.Plan
	least := time.Duration(0)
	for i := range runs {
		begin := time.Now()
		if p, err = plan.Make(in); err != nil {
			return fmt.Errorf("%s: there is no plan: %w", menu, err)
		}
		if took := time.Since(begin); i == 0 || took < least {
			least = took
		}
	}
	f := Measure(p, len(in.Kitchen.Cooks))
	f.Menu = strings.TrimSuffix(filepath.Base(menu), ".md")
	_, err = fmt.Fprintf(out, "%s ms=%d\n", f, least.Milliseconds())
	return err
}

// Read returns the dinner of a menu's file. It fails when a file can't be read,
// when one has an error, and when the menu's kitchen is not there.
func Read(menu string) (plan.Input, error) {
	in := plan.Input{Dinner: demand.Input{Cards: map[string]*card.Card{}}}
	folder := filepath.Dir(menu)
	set := library.Set{}
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".md" || d.Name() == "README.md" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f := library.Compile(d.Name(), string(text))
		for _, p := range f.Problems {
			if p.Severity == document.Error {
				return errors.New(p.Error())
			}
		}
		set[d.Name()] = f
		if f.Card != nil {
			in.Dinner.Cards[f.Card.ID] = f.Card
		}
		return nil
	})
	if err != nil {
		return in, fmt.Errorf("%s: %w", menu, err)
	}
	f := set[filepath.Base(menu)]
	if f == nil || f.Menu == nil {
		return in, fmt.Errorf("%s is not a menu: give its front matter \"covers: 12\" and \"serve: 2027-06-12 19:30\"", menu)
	}
	in.Dinner.Menu, in.Serve = f.Menu, f.Menu.Serve
	if in.Kitchen = set.Kitchen(set.KitchenOf(f.Menu)); in.Kitchen == nil {
		return in, fmt.Errorf("%s: its kitchen is not in %s: name one, \"kitchen: my-kitchen.md\"", menu, folder)
	}
	return in, nil
}
