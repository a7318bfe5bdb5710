package main

import (
	"encoding/json"
	"errors"
	"io"

	"hobside/internal/engine"
)

// ask calls the engine as the phone does. A Failure comes back as an error.
func ask(e *engine.Engine, method string, in, out any) error {
	b, err := json.Marshal(in)
	if err != nil {
		return err
	}
	answer := e.Call(method, b)
	var failure engine.Failure
	if err := json.Unmarshal(answer, &failure); err == nil && failure.Error != "" {
		return errors.New(failure.Error)
	}
	return json.Unmarshal(answer, out)
}

func printJSON(out io.Writer, v any) error {
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}
