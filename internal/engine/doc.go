// Package engine is one face over the rooms below it: JSON in, JSON out. The
// phone calls it through cmd/engine (WebAssembly, in a worker), the server and
// the command line call it directly; all three run these same lines.
//
// Enter by [New] and [Engine.Call]. An Engine is a value with a library of
// files and the dinners it was asked to open; it keeps no other state, has no
// clock and reads no files. It is not for use by two goroutines at once.
//
// The shapes that cross the border are the types of view.go and call.go; the
// page's types (static/app/engine.d.ts) say the same and a test compares them.
package engine
