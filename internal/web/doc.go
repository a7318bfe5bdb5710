// Package web is the server's face: routes, the app's files, the sync by HTTP,
// and who may talk to it at all.
//
// Enter by [New], [Server.Listen] and [Server.Serve]; a test starts the same
// server on a port of its own. All routes are in routes.go, all headers and
// refusals in guard.go.
//
// It listens on this machine only, and answers only to this machine's names: a
// page from elsewhere that gets its own name to point here is turned away.
//
// The package may import hub, and store for its errors. It is given the app's
// files and never reads the disk.
package web
