// Package rota turns a schedule that keeps every rule into one that people can
// follow: jobs start on marks of the clock, a worker stays with a batch and changes
// cards seldom, nobody works long without a pause, and no hour is crammed while
// another is empty.
//
// Enter by [Improve], which takes a [Problem] and a [Schedule] and returns a better
// schedule. It keeps the time windows, the lags, the hours and the resources, and
// never returns a schedule that costs more.
//
// The search removes a few jobs that belong together and puts each back where it
// costs least (ruin and recreate; G. Schrimpf and others, Journal of Computational
// Physics 159 (2000) 139-171, from memory), and sometimes accepts a dearer schedule
// (threshold accepting; G. Dueck and T. Scheuer, the same journal 90 (1990) 161-175,
// from memory). Effort is counted in trials, never in time: the same input gives
// the same schedule on every machine.
//
// The package knows nothing of kitchens and imports only package rcpsp, for its
// random numbers and cost curves.
package rota
