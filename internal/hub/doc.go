// Package hub is the sync: phones hand in what they did and fetch what others
// did, by one log with one cursor.
//
// Enter by [New] and [Hub.Sync], which does both in one exchange and is safe to
// repeat; [Hub.Watch] says when there is something to fetch. A reply names only
// what is on disk. What can't be taken is named with its reason and never kept
// in half.
//
// An event's stamp is final once it is here: one too far ahead of the server is
// given another, see dinner.Final. Files edited on two devices are merged line
// by line, see package merge; where lines clash both are kept.
//
// The package may import merge, dinner and store. It holds no clock: the one it is
// given says what time it is.
package hub
