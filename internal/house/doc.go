// Package house holds no code, only the tests of the structure: which rooms
// there are, on which floor each is, which are pure, and what they may import.
//
// A room is a package below internal. Arrows only go down: a room imports
// rooms of lower floors, never one of its own floor or above. The rooms from
// quantity up to engine are pure: no clock, no files, no network, no goroutine,
// no state of the whole program. They run in the server, in the command line
// and, compiled to WebAssembly, on the phone, and give the same answer there.
//
// Enter by floors in walls_test.go. A new room gets a line in it.
package house
