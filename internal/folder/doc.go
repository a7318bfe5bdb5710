// Package folder writes a cook's whole library and dinners to a folder of plain
// files and reads such a folder, or any folder of cards, back in.
//
// [Export] writes the newest text of each card, menu and kitchen under its own
// name, byte for byte; each dinner as dinners/ID.jsonl, one event a line in the
// order the server took them; and under revisions/ the earlier texts that dinners
// may be pinned to. [Import] sends a folder to a server the way a phone does, so
// that repeating it adds nothing. [Cards] lists the Markdown files of a folder.
package folder
