package library

import "hobside/internal/document"

// Kind says what a file is.
type Kind string

const (
	KindCard    Kind = "card"
	KindMenu    Kind = "menu"
	KindKitchen Kind = "kitchen"
)

// KindOf returns what a file is by the words of its front matter: covers or
// serve make it a menu, cooks (or hands) a kitchen, anything else a card.
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
