package engine

import (
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// The calls. Each takes one of these as JSON and answers with the type named
// beside it, or with Failure.
//
//	load     LoadCall      LibraryView   replace the library's files
//	find     FindCall      FindView      the files that hold some words
//	read     ReadCall      PageView      one file as a page, scaled when asked; also for text still being typed
//	open     OpenCall      Sheet         begin to follow a dinner
//	apply    ApplyCall     Sheet         more events of an open dinner
//	prefs    Prefs         Sheet         how to show amounts, for all that follows
//	dinners  DinnersCall   DinnersView   a line for each dinner, as it is now (dinners.go)
//	order    DinnerCall    OrderList     the order list
//	prep     DinnerCall    PrepList      the prep list of the last plan
//	plan     PlanCall      Schedule      when each step starts (plan.go)
//	change   ChangeCall    Preview       what a change would do, before it is taken (plan.go)
//	scene    PlanCall      Scene         who and what is there, for a change (plan.go)
//	watch    WatchCall     WatchView     how the readings of a step stand
//	controls ClockCall     ControlsView  the log of control points
//	labels   ClockCall     LabelsView    a label for each thing that is made
//	validate ValidateCall  ValidateView  which events the server would refuse
//	revision TextCall      RevisionView  the name of a text's revision
//	guests   GuestsCall    GuestsView    the rows of a form as the lines of an event
//	figure   FigureCall    FigureView    what a typed figure says, or both readings of it (figure.go)
//	sheet    DinnerCall    SheetView     allergens, nutrition and cost of every plate (sheet.go)
//	food     FoodCall      FoodView      what is known of an ingredient (food.go)
//	compositions CompositionsCall CompositionsView  what foods consist of, for all that follows (food.go)

// File is one card, menu or kitchen by its file name.
type File struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// LoadCall replaces the library.
type LoadCall struct {
	Files     []File            `json:"files"`
	Revisions map[string]string `json:"revisions,omitempty"` // by file name: what its text should be, where that is known
}

// LibraryView lists the library.
type LibraryView struct {
	Files    []LibraryFile      `json:"files"`
	Problems []document.Problem `json:"problems"` // of each file and of the files together
	Avoid    []string           `json:"avoid"`    // words for what guests can't have, to pick from
	Damaged  []string           `json:"damaged"`  // revisions that were left out, because their texts are not what they name
}

// LibraryFile is one line of the library.
type LibraryFile struct {
	Name     string   `json:"name"`
	ID       string   `json:"id"`
	Kind     string   `json:"kind"` // "card", "menu", "kitchen", "foods": a kitchen's own
	Title    string   `json:"title"`
	Makes    string   `json:"makes"`   // of a card
	Covers   int      `json:"covers"`  // of a menu
	Serve    string   `json:"serve"`   // of a menu, "" when it says none
	Kitchen  string   `json:"kitchen"` // of a menu: file name of the kitchen it names
	Plate    bool     `json:"plate"`
	Errors   int      `json:"errors"`
	Warnings int      `json:"warnings"`
	Needs    []string `json:"needs"` // names of all files a dinner of it must pin, itself included

	Guests []GuestGroup `json:"guests"` // of a menu: who can't have what
}

// GuestGroup is the covers that have the same exclusions.
type GuestGroup struct {
	Covers     int      `json:"covers"`
	Exclude    []string `json:"exclude"`
	Note       string   `json:"note"`
	NotChecked []string `json:"notChecked"` // words that are not understood, as typed
}

// FindCall looks for files of the library. Every word must be in a file's title
// or name or, for a card, in its items. Accents and case make no difference.
type FindCall struct {
	Words string `json:"words"`
	Most  int    `json:"most"` // hits wanted, 0 for all
}

// FindView is what was found, best first.
type FindView struct {
	Total int   `json:"total"`
	Hits  []Hit `json:"hits"`
}

// Hit is one file that holds the words.
type Hit struct {
	Name string `json:"name"`
	Has  string `json:"has"` // the item a word was found in, "" when title and name hold all
}

// ReadCall asks for a page. Text, when not empty, is read instead of the
// library's file: the editor's preview.
type ReadCall struct {
	Name string `json:"name"`
	Text string `json:"text,omitempty"`
	Make string `json:"make,omitempty"` // "2.4 kg", "×3": scale to this
	Line int    `json:"line,omitempty"` // 1 + index of the item that Make is of, instead of the yield

	Hundred []int `json:"hundred,omitempty"` // items that are 100 % in the ratios, 1 + index
}

// PageView is a file as HTML, with its problems.
type PageView struct {
	Title    string             `json:"title"`
	Kind     string             `json:"kind"`
	HTML     string             `json:"html"` // no raw HTML of the author, no javascript: links
	Makes    string             `json:"makes"`
	Problems []document.Problem `json:"problems"`
	Card     *CardPage          `json:"card"` // a card in its parts, null for other files
}

// CardPage is a scaled card in its parts.
type CardPage struct {
	Factor string     `json:"factor"` // exact, "9/4"
	Weighs string     `json:"weighs"` // all items together, as far as their weights are known
	Yield  string     `json:"yield"`  // "17 % of 9.36 kg": what the card makes of that, "" when it can't be said
	Items  []PageItem `json:"items"`
	Steps  []PageStep `json:"steps"`
	Saves  []string   `json:"saves"`
	Asides []string   `json:"asides"` // amounts outside the published working ranges

	Nutrition *NutritionView `json:"nutrition"` // null where the compositions of foods are not loaded
	Cost      *CostView      `json:"cost"`      // of what is made; null where the kitchen has no prices
}

// PageItem is a line of a scaled formula with its ratio.
type PageItem struct {
	Item    int             `json:"item"`
	Group   string          `json:"group"`
	Amount  string          `json:"amount"`
	Exact   quantity.Amount `json:"exact"`
	Aside   string          `json:"aside"`
	Name    string          `json:"name"`
	Prep    string          `json:"prep"`
	Card    string          `json:"card"`
	Percent string          `json:"percent"` // "68 %", "" when its weight is not known
	Hundred bool            `json:"hundred"` // one of those at 100 %
	Basis   string          `json:"basis"`   // the source of its weight, or why there is none
	Trim    string          `json:"trim"`    // share lost in trimming and its source, "" for none
}

// PageStep is a step of a scaled card as text.
type PageStep struct {
	Number int      `json:"number"`
	Way    string   `json:"way"`
	Text   string   `json:"text"`
	Facts  []string `json:"facts"`
}

// OpenCall begins to follow a dinner. Files holds the text of every revision
// its events pin.
type OpenCall struct {
	Dinner string            `json:"dinner"`
	Texts  map[string]string `json:"texts"` // revision -> text
	Events []dinner.Event    `json:"events"`
}

// ApplyCall adds events; Texts holds revisions they newly pin.
type ApplyCall struct {
	Dinner string            `json:"dinner"`
	Texts  map[string]string `json:"texts,omitempty"`
	Events []dinner.Event    `json:"events"`
}

// DinnerCall names an open dinner.
type DinnerCall struct {
	Dinner string `json:"dinner"`
}

// Prefs is how the cook reads amounts.
type Prefs struct {
	Dinner string `json:"dinner,omitempty"` // when set, the answer is its sheet anew
	System string `json:"system"`           // "metric", "us", "imperial", or "typed": each amount as its card has it, US measures down the whole ladder
	Scale  string `json:"scale"`            // what the scale can weigh: "0.1 g", "1 g", "5 g"
}

// ValidateCall asks which of these events the server would refuse.
type ValidateCall struct {
	Events []dinner.Event `json:"events"`
}

// ValidateView lists the events that the server would refuse.
type ValidateView struct {
	Refused []RefusedView `json:"refused"`
}

// RefusedView is an event that the server would refuse.
type RefusedView struct {
	ID  string `json:"id"`
	Why string `json:"why"` // in words for the cook
}

// TextCall holds a text.
type TextCall struct {
	Text string `json:"text"`
}

// RevisionView names a revision: the first 24 hex digits of the text's SHA-256.
type RevisionView struct {
	Revision string `json:"revision"`
}

// GuestsCall holds what a cook filled in of guests who can't have something.
type GuestsCall struct {
	Rows []GuestRow `json:"rows"`
}

// GuestRow is one group of guests as typed.
type GuestRow struct {
	Covers string `json:"covers"`
	No     string `json:"no"` // "fish, gluten"
	Note   string `json:"note"`
}

// GuestsView is the rows as the event of the kind "guests" has them.
type GuestsView struct {
	Text string `json:"text"`
}

// Failure is the answer when a call can't be done: what, and what to do.
type Failure struct {
	Error string   `json:"error"`
	Meant []string `json:"meant"` // the texts of which one is meant, "2500 g" and "2.5 g", where what was typed can be read in two ways
}
