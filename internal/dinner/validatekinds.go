package dinner

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"hobside/internal/quantity"
)

// The checks of the kinds of events: what must be true of an event beyond its key
// and its fields.

func checkOpen(e Event) error {
	o := e.Open
	switch {
	case o == nil:
		return errors.New("it opens a dinner but names no menu")
	case !IsFileName(o.Menu):
		return fmt.Errorf("it opens a dinner of %q, which is not a file name", clip(o.Menu))
	case o.Kitchen != "" && !IsFileName(o.Kitchen):
		return fmt.Errorf("its kitchen %q is not a file name", clip(o.Kitchen))
	case o.Covers < 0 || o.Covers > maxPlace:
		return fmt.Errorf("%d covers: give a number from 0 to %d", o.Covers, maxPlace)
	case len(o.Zone) > 64:
		return errors.New("its time zone's name is too long")
	}
	if o.Serve != "" {
		if err := checkWall(o.Serve); err != nil {
			return err
		}
	}
	return checkFiles(o.Files)
}

func checkPin(e Event) error {
	if e.Open == nil || len(e.Open.Files) == 0 {
		return errors.New("it takes a newer file but names none")
	}
	return checkFiles(e.Open.Files)
}

func checkFiles(files map[string]string) error {
	if len(files) > MaxFiles {
		return fmt.Errorf("it pins %d files, over the %d that fit", len(files), MaxFiles)
	}
	for name, rev := range files {
		if !IsFileName(name) {
			return fmt.Errorf("it pins %q, which is not a file name", clip(name))
		}
		if !IsRevision(rev) {
			return fmt.Errorf("it pins %s to %q, which is not a revision", name, clip(rev))
		}
	}
	return nil
}

func checkMeasure(e Event) error {
	if e.Amount == nil || e.Amount.Unit == nil || e.Amount.ToTaste || e.Amount.Qty.Sign() < 0 || e.Amount.To.Sign() < 0 {
		return errors.New("a weight or measure needs a figure, 0 or more, and a unit")
	}
	return nil
}

func checkTemperature(e Event) error {
	if e.TempC == nil || math.IsNaN(*e.TempC) || *e.TempC < -273.15 || *e.TempC > 2000 {
		return errors.New("a temperature needs a figure between −273.15 and 2000 °C")
	}
	return nil
}

func checkTimer(e Event) error {
	if e.End != 0 && e.End < e.Start {
		return errors.New("a timer ends before it starts")
	}
	return nil
}

func checkCovers(e Event) error {
	if e.Number < 0 || e.Number > maxPlace {
		return fmt.Errorf("%d covers: give a number from 0 to %d", e.Number, maxPlace)
	}
	return nil
}

func checkWay(e Event) error {
	if e.Number < 0 || e.Number > 100 {
		return fmt.Errorf("way %d: no card has it", e.Number)
	}
	return nil
}

func checkPlate(e Event) error {
	if e.Number < 0 || e.Number > 1000 {
		return fmt.Errorf("plate %d: no course has it", e.Number)
	}
	return nil
}

func checkPortion(e Event) error {
	if e.Amount == nil || e.Amount.Qty.Sign() <= 0 || e.Amount.Qty.Cmp(quantity.Int(1000)) > 0 {
		return errors.New("a portion needs a factor above 0 and at most 1000")
	}
	return nil
}

func checkDelay(e Event) error {
	if e.Number < -7*24*60 || e.Number > 7*24*60 {
		return fmt.Errorf("a delay of %d minutes: give a week at most", e.Number)
	}
	return nil
}

func checkPlan(e Event) error {
	const most = 60 * 24 * 60 // minutes either side of the serving time
	if len(e.Plan) == 0 || len(e.Plan) > MaxSteps {
		return fmt.Errorf("a plan of %d steps: from 1 to %d fit", len(e.Plan), MaxSteps)
	}
	for key, start := range e.Plan {
		if k, ok := ParseKey(key); !ok || k.Step == 0 {
			return fmt.Errorf("it plans %q, which is not a step", clip(key))
		}
		if start < -most || start > most {
			return fmt.Errorf("it starts %s %d minutes from the serving time: 60 days are the most", key, start)
		}
	}
	return nil
}

func checkShelve(e Event) error {
	if e.Number < Listed || e.Number > Deleted {
		return fmt.Errorf("a dinner can't be put at %d: 0 lists it, 1 puts it away, 2 deletes it", e.Number)
	}
	return nil
}

func checkNote(e Event) error {
	if strings.TrimSpace(e.Text) == "" {
		return errors.New("a note without words")
	}
	return nil
}

func checkUndo(e Event) error {
	if !isWord(e.Undo, 8) || e.Undo == e.ID {
		return fmt.Errorf("it takes back %q, which is not an event's id", clip(e.Undo))
	}
	return nil
}

func checkWall(s string) error {
	if !isWall(s) {
		return fmt.Errorf("the time %q is not written as 2026-03-14T19:30", clip(s))
	}
	return nil
}
