// Package web serves the app over HTTP: routes, the app's files, the sync and the
// stream, and the checks of who may use them.
//
// Enter by [New], [Server.Listen] and [Server.Serve]; a test starts the same
// server on a free port. Every route is in routes.go, every header and refusal of
// foreign pages in guard.go, every check of devices in access.go and gate.go.
//
// [Server.Listen] takes addresses of this machine only, and the server answers
// only to this machine's names, so that a page from elsewhere whose name points
// here is refused. [Server.ListenLAN] adds the network, over TLS and for paired
// devices only.
//
// The package may import hub, convert, and store for devices and errors. It is given the
// app's files and never reads the disk.
package web
