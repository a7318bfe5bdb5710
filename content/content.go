// Package content is the demo dinner, the boathouse supper: its cards, menu and
// kitchen, and the grammar they are written in (README.md).
package content

import "embed"

// Files holds the Markdown files of this folder: cards/*.md, menu and kitchen.
//
//go:embed *.md cards/*.md
var Files embed.FS
