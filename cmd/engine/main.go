//go:build js && wasm

// Command engine hands internal/engine to the page as self.hobside.call(method,
// json) and does nothing else. It is built by `go run ./cmd/dev build` and runs
// in a worker, so that a long call never holds up the screen.
package main

import (
	"runtime/debug"
	"syscall/js"

	"hobside/internal/engine"
)

func main() {
	e := engine.New()
	js.Global().Set("hobside", map[string]any{"call": js.FuncOf(func(_ js.Value, args []js.Value) any {
		return call(e, args)
	})})
	select {} // the functions above must outlive main
}

// call must not block: the worker's only thread is waiting for it.
func call(e *engine.Engine, args []js.Value) (answer string) {
	if len(args) != 2 {
		return `{"error":"call takes a method and its JSON"}`
	}
	return string(e.Caught(args[0].String(), []byte(args[1].String()), report))
}

// report writes a panic and its stack to the browser's console.
func report(cause any) {
	text := "the engine panicked"
	if err, ok := cause.(error); ok {
		text = err.Error()
	}
	js.Global().Get("console").Call("error", text, string(debug.Stack()))
}
