package dinner

import (
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// An Event is one thing that happened, made once on a device and never changed.
type Event struct {
	ID     string `json:"id"`     // made on the device: 26 characters of Crockford base 32 or any unique word of [0-9A-Za-z_-]{8,64}
	Dinner string `json:"dinner"` // the dinner it belongs to
	Device string `json:"device"`
	Stamp  Stamp  `json:"stamp"`
	Kind   Kind   `json:"kind"`
	Who    string `json:"who,omitempty"` // the name that the phone's owner gave; allowed for any kind

	// On is what the event is about: "" for the dinner as a whole, else a key of
	// [Key]'s form, "card#batch/step/3".
	On string `json:"on,omitempty"`

	Done   bool             `json:"done,omitempty"`   // tick: on or off
	Amount *quantity.Amount `json:"amount,omitempty"` // measure, have, portion
	TempC  *float64         `json:"tempC,omitempty"`  // temperature
	Start  int64            `json:"start,omitempty"`  // timer, start, finish: Unix milliseconds by the device's corrected clock
	End    int64            `json:"end,omitempty"`    // timer: Unix milliseconds
	Number int              `json:"number,omitempty"` // covers, way, plate, extra minutes
	Text   string           `json:"text,omitempty"`   // note; name of the dinner; guests; exclusions
	Undo   string           `json:"undo,omitempty"`   // undo: the event meant
	Open   *Open            `json:"open,omitempty"`   // open
	Plan   map[string]int   `json:"plan,omitempty"`   // plan: start by step, minutes after the menu's serving time
	Do     []plan.Deed      `json:"do,omitempty"`     // change: what is other than the kitchen and the menu say, all of it together
}

// Kind says what happened.
type Kind string

const (
	KindOpen        Kind = "open"        // the dinner was made
	KindTick        Kind = "tick"        // On a mise item, a step, an order line, a plate: Done
	KindStart       Kind = "start"       // On a step: begun at Start
	KindFinish      Kind = "finish"      // On a step: done at Start
	KindMeasure     Kind = "measure"     // On a batch or a step: Amount
	KindTemperature Kind = "temperature" // On a step: TempC, at Start
	KindTimer       Kind = "timer"       // On a step: Start to End; End 0 stops it
	KindCovers      Kind = "covers"      // Number of covers from now on
	KindGuests      Kind = "guests"      // who can't have what, from now on: Text, as the lines of a menu's guests; "" for nobody
	KindServe       Kind = "serve"       // serving time moved: Text "2006-01-02T15:04"
	KindWay         Kind = "way"         // On a card: Number of the way chosen
	KindLeave       Kind = "leave"       // On an optional item: Done means left out
	KindPlate       Kind = "plate"       // On a course: guests who avoid Text, joined by ", ", get plate Number of it; 0: as the menu says
	KindPortion     Kind = "portion"     // On a card: Amount.Qty is the portion factor
	KindAgain       Kind = "again"       // On a card: Done means that its shortage is made again
	KindHave        Kind = "have"        // On an order line: Amount is in the house already
	KindDelay       Kind = "delay"       // On a step: it takes Number minutes longer; with Done: not now, again in Number minutes
	KindPlan        Kind = "plan"        // the plan the cooks go by from now on: Plan
	KindChange      Kind = "change"      // cooks, equipment, hours or courses are other than the kitchen and the menu say: Do
	KindNote        Kind = "note"        // On anything: Text; notes are kept, never replaced
	KindShelve      Kind = "shelve"      // Number: 0 the dinner is in the list of dinners, 1 put away, 2 deleted
	KindPin         Kind = "pin"         // a newer revision of a file was taken: Open.Files holds just it
	KindUndo        Kind = "undo"        // takes back the event named by Undo
)

// Open is what a dinner starts from. Files pins each card, the menu and the
// kitchen to a revision.
type Open struct {
	Menu    string            `json:"menu"`    // file name
	Kitchen string            `json:"kitchen"` // file name
	Covers  int               `json:"covers"`
	Serve   string            `json:"serve"` // wall clock of the kitchen, "2006-01-02T15:04"
	Zone    string            `json:"zone,omitempty"`
	Files   map[string]string `json:"files"` // file name -> revision
}

// A Stamp is a hybrid logical clock reading. Stamps order all events the same
// way on every device: by Wall, then Count, then the event's Device and ID.
type Stamp struct {
	Wall  int64 `json:"wall"`  // Unix milliseconds
	Count int   `json:"count"` // breaks ties within one millisecond
}
