package dinner

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
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

// takes reports whether the kind may be on a key. Ok says whether it is a key.
func (c check) takes(on string, k Key, ok bool) bool {
	switch {
	case c.on == nil:
		return on == ""
	case on == "":
		return c.on(Key{}) // a note may be on the dinner as a whole, too
	}
	return ok && c.on(k)
}

func anyKey(Key) bool     { return true }
func onStep(k Key) bool   { return k.Step > 0 }
func onCard(k Key) bool   { return k.Card != "" && k == Key{Card: k.Card} }
func onItem(k Key) bool   { return k.Item > 0 }
func onCourse(k Key) bool { return k.Course > 0 && k.Plate == 0 }
func onOrder(k Key) bool  { return k.Order != "" }
func onDone(k Key) bool {
	return k.Mise > 0 || k.Heat > 0 || k.Step > 0 || k.Order != "" || k.Cover > 0
}
func onMade(k Key) bool { return k.isWork() }

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
	KindPlate:       {on: onCourse, where: "a course", has: hasNumber | hasText, rest: checkPlate},
	KindPortion:     {on: onCard, where: "a card", has: hasAmount, rest: checkPortion},
	KindAgain:       {on: onCard, where: "a card", has: hasDone},
	KindHave:        {on: onOrder, where: "an order line", has: hasAmount, rest: checkMeasure},
	KindDelay:       {on: onStep, where: "a step", has: hasNumber | hasDone, rest: checkDelay},
	KindPlan:        {where: "nothing", has: hasPlan, rest: checkPlan},
	KindChange:      {where: "nothing", has: hasDo, rest: checkChange},
	KindShelve:      {where: "nothing", has: hasNumber, rest: checkShelve},
	KindNote:        {on: anyKey, where: "a key of the dinner, or nothing", has: hasText | hasStart, rest: checkNote},
	KindUndo:        {where: "nothing", has: hasUndo, rest: checkUndo},
}

// isWall reports whether s is written as [WallForm] and is a day and a time that
// exist. The year 0 does not.
func isWall(s string) bool {
	t, err := time.Parse(WallForm, s)
	return err == nil && t.Year() > 0 && t.Format(WallForm) == s // Parse takes "9:30" as well as "09:30"
}

// IsFileName reports whether a word can be the name of a card, menu or kitchen:
// one file in one folder, ending in .md.
func IsFileName(s string) bool {
	return len(s) <= maxName && len(s) > len(".md") && strings.HasSuffix(s, ".md") && s[0] != '.' && isName(s)
}

// isWord reports whether s has from min to 64 letters, digits, - or _.
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

// isTime reports whether n milliseconds are within the years that a browser's Date
// knows (ECMA-262, "Time Values and Time Range": ±8.64e15).
func isTime(n int64) bool { return n >= -maxWall && n <= maxWall }

// clip shortens what came from outside before it goes into an error.
func clip(s string) string {
	if len(s) > 80 {
		return strings.ToValidUTF8(s[:80], "") + "…"
	}
	return s
}
