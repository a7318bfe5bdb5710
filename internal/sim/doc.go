// Package sim is a simulation of a whole kitchen, for tests: a server, its command line
// and three to five phones, with a clock that the simulation sets. Faults are drawn at
// random from one seed: the server is killed at any write of its data file, replies are
// lost, requests come twice or late, clocks jump, the disk is full, a bit of the file
// changes, an old file comes back, a phone is revoked in the middle of its request.
//
// Everything is in its test files. Enter by TestSimulation, which makes many runs, and
// prints for one that fails how to make exactly that one again. faults_test.go has the
// faults, each with a switch; properties_test.go has what must be true whatever happens.
//
// The server is the real one, from the data file up to the HTTP handlers; only its
// listeners are left out. A phone is a Go model of what static/app does, held to the same
// wire; TestPageInTheSimulation runs the page's own modules under Node instead.
package sim
