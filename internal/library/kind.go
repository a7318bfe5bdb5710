package library

import (
	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// Kind says what a file is.
type Kind string

const (
	KindCard    Kind = "card"
	KindMenu    Kind = "menu"
	KindKitchen Kind = "kitchen"
	KindFoods   Kind = "foods"
)

// KindOf returns what a file is: covers or serve in its front matter make it a menu,
// cooks (or hands) a kitchen, makes a card. Else a table headed "food" makes it a
// kitchen's own foods, and anything else is a card.
func KindOf(src []byte) Kind {
	for _, f := range document.FrontMatter(src) {
		switch f.Word {
		case "covers", "serve":
			return KindMenu
		case "cooks", "hands":
			return KindKitchen
		case "makes":
			return KindCard
		}
	}
	if kitchen.IsFoods(src) {
		return KindFoods
	}
	return KindCard
}
