// Package control connects the command line to a running server. A server locks
// its data file, so `hobside backup` and the other commands that need the data
// ask the server instead: it listens on a second loopback port, the control
// endpoint, and writes the port and a secret token to a note beside the data file
// that only its user can read.
//
// [Listen] opens the endpoint. [Open] gives a command what it needs: the running
// server where there is one, else the data file itself.
package control
