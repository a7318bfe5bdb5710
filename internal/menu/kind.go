package menu

import (
	"hobside/internal/document"
)

// Kind says what a file is.
type Kind string

const (
	KindCard    Kind = "card"
	KindMenu    Kind = "menu"
	KindKitchen Kind = "kitchen"
)

// KindOf tells the three kinds of file apart by their front matter: covers or
// serve make it a menu, cooks (or hands) a kitchen; anything else is a card.
func KindOf(src []byte) Kind {
	for _, f := range document.FrontMatter(src) {
		switch f.Word {
		case "covers", "serve":
			return KindMenu
		case "cooks", "hands":
			return KindKitchen
		}
	}
	return KindCard
}
