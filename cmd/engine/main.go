//go:build js && wasm

// Command engine hands internal/engine to the page as self.hobside.call(method,
// json) and does nothing else. It is built by `go run ./cmd/dev build` and runs
// in a worker, so that a long call never blocks the screen.
package main

import (
	"encoding/json"
	"fmt"
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

// call must not block: the worker's only thread is waiting for it. A panic
// becomes an answer and not the end of the program, which could never be
// called again.
func call(e *engine.Engine, args []js.Value) (answer string) {
	defer func() {
		if r := recover(); r != nil {
			b, _ := json.Marshal(engine.Failure{Error: fmt.Sprintf("the engine stumbled: %v; reload the page, nothing is lost", r), Meant: []string{}})
			answer = string(b)
		}
	}()
	if len(args) != 2 {
		return `{"error":"call takes a method and its JSON"}`
	}
	return string(e.Call(args[0].String(), []byte(args[1].String())))
}
