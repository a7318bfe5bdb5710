package dinner

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"
	"unicode/utf8"

	"hobside/internal/quantity"
)

// Bounds of what an event may hold.
const (
	MaxText  = 4000 // bytes of a note or a name
	MaxFiles = 500  // files one dinner pins
	MaxSteps = 3000 // steps one plan holds
	maxWall  = 8_640_000_000_000_000
	maxName  = 128
	maxWho   = 80 // bytes of a person's name
)

// WallForm is how a wall-clock time of the kitchen is written.
const WallForm = "2006-01-02T15:04"

// Validate returns what is wrong with an event from outside, in words for the
// cook who made it, or nil. It looks at the event alone: it does not know whether
// the card or the event that it names exists.
func Validate(e Event) error {
	switch {
	case !isWord(e.ID, 8):
		return fmt.Errorf("its id %q is not 8 to 64 letters, digits, - or _", clip(e.ID))
	case !isWord(e.Dinner, 1):
		return fmt.Errorf("its dinner %q is not 1 to 64 letters, digits, - or _", clip(e.Dinner))
	case !isWord(e.Device, 1):
		return fmt.Errorf("its device %q is not 1 to 64 letters, digits, - or _", clip(e.Device))
	case e.Stamp.Wall == 0: // no clock says so: the field is missing
		return errors.New("its stamp is missing")
	case !isTime(e.Stamp.Wall) || e.Stamp.Count < 0 || e.Stamp.Count > maxCount:
		return errors.New("its stamp is outside the calendar")
	case !isTime(e.Start) || !isTime(e.End):
		return errors.New("its time is outside the calendar")
	case len(e.Text) > MaxText:
		return fmt.Errorf("its text has %d bytes, over the %d that fit: make two of it", len(e.Text), MaxText)
	case len(e.Who) > maxWho || !utf8.ValidString(e.Who):
		return fmt.Errorf("its name %q is over %d bytes, or not UTF-8", clip(e.Who), maxWho)
	case !utf8.ValidString(e.Text):
		return errors.New("its text is not UTF-8")
	}
	check, ok := checks[e.Kind]
	if !ok {
		return fmt.Errorf("its kind %q is not known here: the phone may be of a newer release than the server", clip(string(e.Kind)))
	}
	if k, ok := ParseKey(e.On); !check.takes(e.On, k, ok) {
		return fmt.Errorf("%s on %q: it should be on %s", e.Kind, clip(e.On), check.where)
	}
	if err := checkFields(e, check.has); err != nil {
		return err
	}
	if check.rest == nil {
		return nil
	}
	return check.rest(e)
}

// check is what one kind of event must keep to: which keys it may be on, which
// fields it may have, and what else must be true of them.
type check struct {
	on    func(Key) bool // the keys it may be on; nil: none
	where string
	has   field
	rest  func(Event) error
}

// takes says whether the kind may be on a key. Ok says whether it is a key.
func (c check) takes(on string, k Key, ok bool) bool {
	switch {
	case c.on == nil:
		return on == ""
	case on == "":
		return c.on(Key{}) // a note may be on the dinner as a whole, too
	}
	return ok && c.on(k)
}

func anyKey(Key) bool    { return true }
func onStep(k Key) bool  { return k.Step > 0 }
func onCard(k Key) bool  { return k.Card != "" && k == Key{Card: k.Card} }
func onItem(k Key) bool  { return k.Item > 0 }
func onOrder(k Key) bool { return k.Order != "" }
func onDone(k Key) bool  { return k.Mise > 0 || k.Step > 0 || k.Order != "" || k.Cover > 0 }
func onMade(k Key) bool  { return k.Batch > 0 && k.Mise == 0 }

var checks = map[Kind]check{
	KindOpen:        {where: "nothing", has: hasText | hasOpen, rest: checkOpen},
	KindPin:         {where: "nothing", has: hasOpen, rest: checkPin},
	KindTick:        {on: onDone, where: "a mise item, a step, an order line or a plate", has: hasDone | hasStart},
	KindStart:       {on: onStep, where: "a step", has: hasStart},
	KindFinish:      {on: onStep, where: "a step", has: hasStart},
	KindMeasure:     {on: onMade, where: "a batch or a step", has: hasAmount | hasStart, rest: checkMeasure},
	KindTemperature: {on: onStep, where: "a step", has: hasTempC | hasStart, rest: checkTemperature},
	KindTimer:       {on: onStep, where: "a step", has: hasStart | hasEnd, rest: checkTimer},
	KindCovers:      {where: "nothing", has: hasNumber, rest: checkCovers},
	KindGuests:      {where: "nothing", has: hasText},
	KindServe:       {where: "nothing", has: hasText, rest: func(e Event) error { return checkWall(e.Text) }},
	KindWay:         {on: onCard, where: "a card", has: hasNumber, rest: checkWay},
	KindLeave:       {on: onItem, where: "an item of a card", has: hasDone},
	KindPortion:     {on: onCard, where: "a card", has: hasAmount, rest: checkPortion},
	KindAgain:       {on: onCard, where: "a card", has: hasDone},
	KindHave:        {on: onOrder, where: "an order line", has: hasAmount, rest: checkMeasure},
	KindDelay:       {on: onStep, where: "a step", has: hasNumber | hasDone, rest: checkDelay},
	KindPlan:        {where: "nothing", has: hasPlan, rest: checkPlan},
	KindNote:        {on: anyKey, where: "a key of the dinner, or nothing", has: hasText | hasStart, rest: checkNote},
	KindUndo:        {where: "nothing", has: hasUndo, rest: checkUndo},
}

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
			return fmt.Errorf("it plans %q, which is no step", clip(key))
		}
		if start < -most || start > most {
			return fmt.Errorf("it starts %s %d minutes from the serving time: 60 days are the most", key, start)
		}
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
		return fmt.Errorf("it takes back %q, which is no event's id", clip(e.Undo))
	}
	return nil
}

func checkWall(s string) error {
	if !isWall(s) {
		return fmt.Errorf("the time %q is not written as 2026-03-14T19:30", clip(s))
	}
	return nil
}

// isWall says whether s has [WallForm] and is a day and a time that exist.
func isWall(s string) bool {
	_, err := time.Parse(WallForm, s)
	return err == nil && len(s) == len(WallForm) // Parse takes "9:30" as well as "09:30"
}

// IsFileName says whether a word can be the name of a card, menu or kitchen:
// one file in one folder, ending in .md.
func IsFileName(s string) bool {
	return len(s) <= maxName && len(s) > len(".md") && strings.HasSuffix(s, ".md") && s[0] != '.' && isName(s)
}

// isWord says whether s has from min to 64 letters, digits, - or _.
func isWord(s string, min int) bool {
	if len(s) < min || len(s) > 64 {
		return false
	}
	for _, c := range []byte(s) {
		if (c < '0' || c > '9') && (c < 'A' || c > 'Z') && (c < 'a' || c > 'z') && c != '-' && c != '_' {
			return false
		}
	}
	return true
}

// isTime says whether n milliseconds are within the years that a browser's Date
// knows (ECMA-262, "Time Values and Time Range": ±8.64e15).
func isTime(n int64) bool { return n >= -maxWall && n <= maxWall }

// clip shortens what came from outside before it goes into an error.
func clip(s string) string {
	if len(s) > 80 {
		return strings.ToValidUTF8(s[:80], "") + "…"
	}
	return s
}
