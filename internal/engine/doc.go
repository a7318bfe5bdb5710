// Package engine is one face over the rooms below it: JSON in, JSON out. The
// phone calls it through cmd/engine (WebAssembly, in a worker); the server and
// the command line call it directly. All three run the same code.
//
// Enter by [New] and [Engine.Call]. An Engine is a value with a library of files
// and the dinners it was asked to open; it has no clock and reads no files. It is
// not for use by two goroutines at once.
//
// A call is decoded, a room below is asked, and the answer is written as a view
// for one cook's units. There is no kitchen logic here. The types of calls and
// views are in call.go and the files named after what they view; the page's types
// (static/app/engine.d.ts) are generated from them.
package engine
