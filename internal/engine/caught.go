package engine

import "encoding/json"

// mistake is the answer to a call at which the engine itself made a mistake. What it
// was tells a cook nothing.
const mistake = "the engine made a mistake of its own: reload the page, nothing is lost"

// Caught is Call for the page, where a panic would end a program that could never be
// called again: it becomes a Failure. Report gets what panicked, on the stack that did.
func (e *Engine) Caught(method string, in []byte, report func(cause any)) (answer []byte) {
	defer func() {
		if cause := recover(); cause != nil {
			report(cause)
			answer, _ = json.Marshal(Failure{Error: mistake}) // a text has a JSON form
		}
	}()
	return e.Call(method, in)
}
