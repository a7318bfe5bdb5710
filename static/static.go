// Package static is the phone's app as it is sent: the page, its modules, its
// style, its type, and the engine when it has been built. `go run ./cmd/dev
// build` puts engine.wasm and wasm_exec.js here; without them everything still
// compiles and the server says how to build them.
package static

import "embed"

// Files holds this folder. It includes this very file, which the web room
// never serves: only types it has in its table go out.
//
//go:embed *
var Files embed.FS
