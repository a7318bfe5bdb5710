package sitting

import "strconv"

// Keys name what an event is about. They are strings so that they can be map
// keys in JSON and ids on a page. Making, step and item count from 1 and refer
// to the pinned card; step is its place in card.Card.Steps, not the number shown.

// CardKey names a card.
func CardKey(card string) string { return card }

// MakingKey names one making of a card: "stock#1".
func MakingKey(card string, making int) string { return card + "#" + strconv.Itoa(making) }

// StepKey names a step of a making: "stock#1/step/3".
func StepKey(card string, making, step int) string {
	return MakingKey(card, making) + "/step/" + strconv.Itoa(step)
}

// MiseKey names an item got ready for a making: "stock#1/mise/2".
func MiseKey(card string, making, item int) string {
	return MakingKey(card, making) + "/mise/" + strconv.Itoa(item)
}

// ItemKey names an item of the formula whatever the making: "stock/item/4".
func ItemKey(card string, item int) string { return card + "/item/" + strconv.Itoa(item) }

// OrderKey names a line of the order list by its item: "order/onions".
func OrderKey(slug string) string { return "order/" + slug }

// PlateKey names one plate at the pass: "pass/2/1/14", course, plate, cover.
func PlateKey(course, plate, cover int) string {
	return "pass/" + strconv.Itoa(course) + "/" + strconv.Itoa(plate) + "/" + strconv.Itoa(cover)
}
