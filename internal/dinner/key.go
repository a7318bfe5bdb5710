package dinner

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Keys name what an event is about. They are strings so that they can be map
// keys in JSON and ids on a page. Batch, step and item count from 1 and refer
// to the pinned card; step is its place in card.Card.Steps, not the number shown.

// CardKey names a card.
func CardKey(card string) string { return card }

// BatchKey names one batch of a card: "stock#1".
func BatchKey(card string, batch int) string { return card + "#" + strconv.Itoa(batch) }

// A StepPlace is the place of a step in a dinner: the parts of its key.
type StepPlace struct {
	Card  string `json:"card"`
	Batch int    `json:"batch"` // 1 + index
	Step  int    `json:"step"`  // 1 + index in card.Card.Steps, not the number shown
}

// StepPlace returns the place of the step that a key is about.
func (k Key) StepPlace() StepPlace { return StepPlace{k.Card, k.Batch, k.Step} }

// StepKey names a step of a batch: "stock#1/step/3".
func StepKey(card string, batch, step int) string {
	return BatchKey(card, batch) + "/step/" + strconv.Itoa(step)
}

// MiseKey names an item got ready for a batch: "stock#1/mise/2".
func MiseKey(card string, batch, item int) string {
	return BatchKey(card, batch) + "/mise/" + strconv.Itoa(item)
}

// HeatKey names the heating up of the equipment of a step: "stock#1/heat/3".
func HeatKey(card string, batch, step int) string {
	return BatchKey(card, batch) + "/heat/" + strconv.Itoa(step)
}

// HoldKey names the turning on of what holds the result of a step or warms its plates:
// "stock#1/hold/3".
func HoldKey(card string, batch, step int) string {
	return BatchKey(card, batch) + "/hold/" + strconv.Itoa(step)
}

// PlatesKey names the plates that are put to warm or to chill for a step: "lamb#1/plates/2".
func PlatesKey(card string, batch, step int) string {
	return BatchKey(card, batch) + "/plates/" + strconv.Itoa(step)
}

// ItemKey names an item of the formula whatever the batch: "stock/item/4".
func ItemKey(card string, item int) string { return card + "/item/" + strconv.Itoa(item) }

// OrderKey names a line of the order list by its item: "order/onions".
func OrderKey(slug string) string { return "order/" + slug }

// PlateKey names one plate at the pass: "pass/2/1/14", course, plate, cover.
func PlateKey(course, plate, cover int) string {
	return "pass/" + strconv.Itoa(course) + "/" + strconv.Itoa(plate) + "/" + strconv.Itoa(cover)
}

// CourseKey names a course: "course/2".
func CourseKey(course int) string { return "course/" + strconv.Itoa(course) }

// A Key is a key taken apart. Which fields are set says what it is about: a
// card; a batch of it; a step or a mise item of that batch, or what is heated up or got
// ready for a step; an item of the formula; a line of the order list; a course; or a plate at the pass. All
// numbers count from 1.
type Key struct {
	Card   string
	Batch  int
	Step   int
	Mise   int
	Heat   int // the step that equipment heats up for
	Hold   int // the step that a hot cupboard is turned on for
	Plates int // the step that plates are warmed or chilled for
	Item   int
	Order  string
	Course int
	Plate  int
	Cover  int
}

// maxPlace bounds the numbers in keys: no dinner has a million plates.
const maxPlace = 1_000_000

// maxKey bounds a key's length in bytes.
const maxKey = 256

// ParseKey takes a key apart; ok is false when it has none of the forms above.
// What it accepts, [Key.String] writes back the same.
func ParseKey(s string) (k Key, ok bool) {
	if len(s) > maxKey {
		return Key{}, false
	}
	sound := true
	place := func(word string) int {
		n, ok := place(word)
		sound = sound && ok
		return n
	}
	part := strings.Split(s, "/")
	card, batch, made := strings.Cut(part[0], "#")
	switch {
	case made && len(part) == 1:
		k = Key{Card: card, Batch: place(batch)}
	case made && len(part) == 3 && part[1] == "step":
		k = Key{Card: card, Batch: place(batch), Step: place(part[2])}
	case made && len(part) == 3 && part[1] == "mise":
		k = Key{Card: card, Batch: place(batch), Mise: place(part[2])}
	case made && len(part) == 3 && part[1] == "heat":
		k = Key{Card: card, Batch: place(batch), Heat: place(part[2])}
	case made && len(part) == 3 && part[1] == "hold":
		k = Key{Card: card, Batch: place(batch), Hold: place(part[2])}
	case made && len(part) == 3 && part[1] == "plates":
		k = Key{Card: card, Batch: place(batch), Plates: place(part[2])}
	case !made && len(part) == 1:
		k = Key{Card: card}
	case !made && len(part) == 2 && card == "order":
		k = Key{Order: part[1]}
	case !made && len(part) == 2 && card == "course":
		k = Key{Course: place(part[1])}
	case !made && len(part) == 3 && part[1] == "item":
		k = Key{Card: card, Item: place(part[2])}
	case !made && len(part) == 4 && card == "pass":
		k = Key{Course: place(part[1]), Plate: place(part[2]), Cover: place(part[3])}
	default:
		return Key{}, false
	}
	if !sound || !isName(k.Card+k.Order) && k.Course == 0 || k.String() != s {
		return Key{}, false // a number that is none, an empty name, or "01"
	}
	return k, true
}

// String writes the key.
func (k Key) String() string {
	switch {
	case k.Course > 0 && k.Plate == 0:
		return CourseKey(k.Course)
	case k.Course > 0:
		return PlateKey(k.Course, k.Plate, k.Cover)
	case k.Order != "":
		return OrderKey(k.Order)
	case k.Item > 0:
		return ItemKey(k.Card, k.Item)
	case k.Step > 0:
		return StepKey(k.Card, k.Batch, k.Step)
	case k.Mise > 0:
		return MiseKey(k.Card, k.Batch, k.Mise)
	case k.Heat > 0:
		return HeatKey(k.Card, k.Batch, k.Heat)
	case k.Hold > 0:
		return HoldKey(k.Card, k.Batch, k.Hold)
	case k.Plates > 0:
		return PlatesKey(k.Card, k.Batch, k.Plates)
	case k.Batch > 0:
		return BatchKey(k.Card, k.Batch)
	}
	return CardKey(k.Card)
}

// isWork reports whether a key is about a batch or a step of it, and not about what is
// got ready before.
func (k Key) isWork() bool {
	return k.Batch > 0 && k.Mise == 0 && k.Heat == 0 && k.Hold == 0 && k.Plates == 0
}

// place reads a number that counts from 1.
func place(s string) (n int, ok bool) {
	n, err := strconv.Atoi(s)
	return n, err == nil && n >= 1 && n <= maxPlace
}

// isName reports whether a word can name a card, a file or an item: text without
// control characters and without the marks that keys are cut at.
func isName(s string) bool {
	if s == "" || !utf8.ValidString(s) || strings.ContainsAny(s, "/#\\") {
		return false
	}
	return !strings.ContainsFunc(s, unicode.IsControl)
}
