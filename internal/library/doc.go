// Package library holds all files of a cook: cards, menus, kitchens and their own foods,
// compiled, linked, checked together and found by words.
//
// Enter by [Cache.Compile], which compiles a file once for each text of it, and
// by [Set], which holds files that belong together: [Set.Check] finds what no
// file shows alone, [Set.Needs] lists what a dinner must pin, and [NewIndex]
// finds files by words. [Check] does it all for files from a folder.
//
// The package may import what compiles a file and package safety, whose rules
// the checks use. It keeps nothing but what its callers hold.
package library
