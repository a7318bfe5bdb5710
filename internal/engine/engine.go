package engine

import (
	"encoding/json"
	"errors"
	"fmt"
	"reflect"

	"hobside/internal/dinner"
	"hobside/internal/larder"
	"hobside/internal/library"
	"hobside/internal/quantity"
)

// Engine is a library of files and the dinners it follows.
type Engine struct {
	cache    library.Cache             // every text that came, compiled
	library  library.Set               // the cook's files
	foods    *larder.Foods             // the kitchen's own, of those files; nil for none
	index    *library.Index            // of the same, to be searched
	count    func(dinner.Work)         // told of costly work, for tests; nil for nobody
	dinners  map[string]*followed      // by dinner ID
	cautions map[cautionKey][][]string // of the steps of a card
	show     quantity.Prefs            // how amounts are shown

	compositions larder.Compositions // of foods; none until they are set
}

// SetCompositions says what foods consist of. Without it no card has a nutrition.
func (e *Engine) SetCompositions(c larder.Compositions) { e.compositions = c }

// New returns an engine with an empty library that shows metric amounts to the
// gram.
func New() *Engine {
	return &Engine{
		library:  library.Set{},
		index:    library.NewIndex(nil),
		dinners:  map[string]*followed{},
		cautions: map[cautionKey][][]string{},
		show:     quantity.Prefs{System: quantity.Metric, Scale: quantity.Int(1)},
	}
}

// Call does one of the calls of call.go. It always answers with JSON: the
// call's answer, or a Failure in words a cook can act on.
func (e *Engine) Call(method string, in []byte) []byte {
	var answer any
	var err error
	switch method {
	case "load":
		answer, err = do(in, e.load)
	case "find":
		answer, err = do(in, e.find)
	case "read":
		answer, err = do(in, e.read)
	case "open":
		answer, err = do(in, e.open)
	case "apply":
		answer, err = do(in, e.apply)
	case "prefs":
		answer, err = do(in, e.prefs)
	case "dinners":
		answer, err = do(in, dinnerLines)
	case "order":
		answer, err = do(in, e.order)
	case "prep":
		answer, err = do(in, e.prep)
	case "plan":
		answer, err = do(in, e.plan)
	case "change":
		answer, err = do(in, e.change)
	case "scene":
		answer, err = do(in, e.scene)
	case "watch":
		answer, err = do(in, e.watch)
	case "controls":
		answer, err = do(in, e.controls)
	case "labels":
		answer, err = do(in, e.labels)
	case "validate":
		answer, err = do(in, validate)
	case "revision":
		answer, err = do(in, revision)
	case "guests":
		answer, err = do(in, guestLines)
	case "figure":
		answer, err = do(in, e.figure)
	case "sheet":
		answer, err = do(in, e.sheet)
	case "food":
		answer, err = do(in, e.food)
	case "compositions":
		answer, err = do(in, e.setCompositions)
	default:
		err = fmt.Errorf("the engine has no call %q: the page and the engine are of two releases; reload the page", method)
	}
	if err != nil {
		answer = failure(err)
	}
	out, err := json.Marshal(answer)
	if err != nil {
		out, _ = json.Marshal(failure(fmt.Errorf("cannot write the answer: %w", err)))
	}
	return out
}

// failure returns the answer for an error.
func failure(err error) Failure {
	out := Failure{Error: err.Error(), Meant: []string{}}
	var doubt *quantity.AmountError
	if errors.As(err, &doubt) {
		for _, a := range doubt.Readings {
			out.Meant = append(out.Meant, quantity.Written(a))
		}
	}
	return out
}

// do decodes a call, makes it, and returns its answer. Every list and map in the
// answer that is nil becomes empty, so that the page never gets null for a list.
// It fails for JSON that is not the call's, and when the call itself fails.
func do[In, Out any](in []byte, f func(In) (Out, error)) (any, error) {
	var call In
	if err := json.Unmarshal(in, &call); err != nil {
		return nil, fmt.Errorf("cannot read the call: %w", err)
	}
	out, err := f(call)
	fillLists(reflect.ValueOf(&out).Elem())
	return out, err
}
