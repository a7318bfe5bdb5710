// Package dinner is the live state of one dinner: what was ticked, started,
// measured and noted, by whom, on which phone.
//
// Everything that happens is an [Event]; state is [Fold] over events. The fold
// gives the same answer whatever the order events arrive in, however often, and
// it runs on the server and on the phone. A [Clock] makes the stamps that put
// events in order without anybody's clock being trusted.
//
// The package may import quantity. It holds no clock: callers say what time
// their device thinks it is.
package dinner
