package engine

import (
	"hobside/internal/dinner"
	"hobside/internal/document"
)

// DinnerView is everything the phone shows of one dinner that does not change
// with a tick: amounts, steps, lists. It is written again when covers, ways, left
// out items, measures or pinned files change.
type DinnerView struct {
	Dinner   string                  `json:"dinner"`
	Title    string                  `json:"title"`
	Intro    string                  `json:"intro"`
	Covers   int                     `json:"covers"`
	Serve    string                  `json:"serve"` // wall clock "2006-01-02T15:04"
	Kitchen  string                  `json:"kitchen"`
	Zone     string                  `json:"zone"` // IANA name of the kitchen's time zone, else that of the phone that made the dinner; "" for neither
	Courses  []Course                `json:"courses"`
	Cards    []CardView              `json:"cards"` // in the order to make them: what others need first
	Guests   []dinner.ExclusionGroup `json:"guests"`
	Sheet    []dinner.PlateSheet     `json:"sheet"`          // allergens, plate by plate
	Cost     *CostView               `json:"cost,omitempty"` // of all batches, Each for a cover; missing where the kitchen has no prices
	Problems []document.Problem      `json:"problems"`       // of the pinned files and of the dinner
}

// Course is one course with its plates.
type Course struct {
	Name   string      `json:"name"`
	At     string      `json:"at"` // wall clock
	Plates []PlateView `json:"plates"`
}

// PlateView is one line of a course.
type PlateView struct {
	Card   string `json:"card"`
	Name   string `json:"name"`
	Covers int    `json:"covers"`
	For    string `json:"for"`   // for whom it is where it is not for everybody: "for vegans"
	Spare  string `json:"spare"` // made more than there are covers: "2 plates"; "" for none
	Each   string `json:"each"`  // for one cover, when that is not one plate: "90 g"

	Service []FactView          `json:"service"`        // serving temperature, portion tool, station: what the card says of its service
	Picture PictureView         `json:"picture"`        // of the finished plate
	Build   []UseView           `json:"build"`          // what goes on one plate; empty when the card makes no plates
	Keys    []string            `json:"keys"`           // dinner.PlateKey of each cover's plate, menu.MaxCovers at most
	Clashes []dinner.PlateClash `json:"clashes"`        // guests who get this plate and exclude something on it
	Cost    *CostView           `json:"cost,omitempty"` // of what one cover gets; missing where the kitchen has no prices
}

// CardView is one card of the dinner with its batches.
type CardView struct {
	ID       string        `json:"id"`
	Title    string        `json:"title"`
	Intro    string        `json:"intro"`
	Plate    bool          `json:"plate"`
	Courses  []string      `json:"courses"` // names of the courses it ends up in
	Makes    string        `json:"makes"`   // by the formula as typed
	Keeps    []string      `json:"keeps"`
	Ways     []string      `json:"ways"`
	Way      int           `json:"way"`      // 1 + index of the one chosen, 0 when there is none to choose
	GoesInto []string      `json:"goesInto"` // where it goes: "Soup: 1.2 kg"
	Saves    []string      `json:"saves"`    // "chicken fat, 160 g"
	Batches  []BatchView   `json:"batches"`
	Means    *dinner.Means `json:"means"` // null while everything is as planned
}

// BatchView is one batch: its amounts, mise and steps.
type BatchView struct {
	Tested string     `json:"tested"`         // when and at which size the card was tested, and a word where this batch is far from it; "" when not said
	Key    string     `json:"key"`            // dinner.BatchKey
	Make   string     `json:"make"`           // "2.25 kg"
	Unit   string     `json:"unit"`           // what to ask a weight of it in: "kg", "piece"
	Exact  string     `json:"exact"`          // the factor, "9/4"
	Got    string     `json:"got"`            // as measured, else ""
	Cost   *CostView  `json:"cost,omitempty"` // its components included; missing where the kitchen has no prices
	Mise   []MiseView `json:"mise"`
	Steps  []StepView `json:"steps"` // of the way chosen, in order
}

// MiseView is one line of the mise en place.
type MiseView struct {
	Key      string `json:"key"`    // dinner.MiseKey
	Item     int    `json:"item"`   // 1 + index in the formula
	Amount   string `json:"amount"` // "340 g"
	Aside    string `json:"aside"`  // "crack 4", "2.7 leaves", "68 %"
	Name     string `json:"name"`
	Prep     string `json:"prep"`
	Optional bool   `json:"optional"`
	Left     bool   `json:"left"` // left out
	Card     string `json:"card"` // made here: the card's ID, else ""
	Group    string `json:"group"`
}

// StepView is one step as the stove shows it.
type StepView struct {
	Key      string           `json:"key"` // dinner.StepKey
	At       dinner.StepPlace `json:"at"`
	Number   int              `json:"number"` // as shown
	Runs     []RunView        `json:"runs"`
	Uses     []UseView        `json:"uses"`   // the amounts of this step, in order, for large type
	Facts    []FactView       `json:"facts"`  // those of the service too, on the last step
	Faults   []FaultView      `json:"faults"` // what commonly goes wrong here
	Cautions []string         `json:"cautions"`
	Until    string           `json:"until"`   // sign of done, in words with scaled amount; "" when none
	Heat     string           `json:"heat"`    // "oven 220 °C, 2 shelves"; "" when none
	Hands    string           `json:"hands"`   // "10 min"
	Wait     string           `json:"wait"`    // "at least 4 h"
	Loads    string           `json:"loads"`   // "18 pieces, 4 at a time: 5 loads"; "" when all at once
	WaitLow  int              `json:"waitLow"` // seconds, what a timer starts with; 0 for none
	Timer    string           `json:"timer"`   // the same as text, "3 min 30 s"; "" for none
	WaitHigh int              `json:"waitHigh"`
	AtLeast  bool             `json:"atLeast"` // "at least": the timer asks the cook to look, it doesn't say done
	Serve    bool             `json:"serve"`   // at the pass
	Weigh    string           `json:"weigh"`   // unit to ask a weight in, when until is an amount: "kg"
	Probe    bool             `json:"probe"`   // a core temperature is asked for
	Saves    []string         `json:"saves"`   // "chicken fat, 160 g"
}

// RunView is a piece of a step's sentence.
type RunView struct {
	Text   string `json:"text"`
	Amount string `json:"amount"` // scaled, for an item; else ""
	Item   int    `json:"item"`   // 1 + index in the formula, 0 for plain words
	Strong bool   `json:"strong"`
	Card   string `json:"card"` // the component's card, else ""
}

// UseView is one amount of a step, for the large list.
type UseView struct {
	Amount string `json:"amount"`
	Aside  string `json:"aside"`
	Name   string `json:"name"`
	Prep   string `json:"prep"`
	Card   string `json:"card"`
}

// FactView is a fact shown as word and value.
type FactView struct {
	Word  string `json:"word"`
	Value string `json:"value"`
}

// FaultView is what commonly goes wrong, and what rescues it.
type FaultView struct {
	Words  string `json:"words"`
	Rescue string `json:"rescue"`
}

// PictureView is the picture of a plate.
type PictureView struct {
	Source string `json:"source"` // the image itself, as a data: address; "" for none
	Words  string `json:"words"`  // what it shows
}

// Sheet is what open and apply answer: the state always, the dinner when it
// changed.
type Sheet struct {
	Dinner *DinnerView   `json:"dinner,omitempty"`
	State  *dinner.State `json:"state,omitempty"` // missing when no dinner was named

	Damaged []string          `json:"damaged"` // revisions that were left out, because their texts are not what they name
	Written map[string]string `json:"written"` // by event: what was weighed or read, "1.62 kg", "64 °C"
}
