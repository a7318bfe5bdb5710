// Package pagetypes writes the TypeScript declarations of what crosses between
// the page and the engine, from the Go source of internal/engine and of the
// packages whose types it holds. Generate returns the text of
// static/app/engine.d.ts; `go run ./cmd/dev types` writes it.
package pagetypes

import (
	"errors"
	"fmt"
	"go/ast"
	"path/filepath"
)

// Path is where the declarations are kept, below the module's root.
const Path = "static/app/engine.d.ts"

const enginePackage = "hobside/internal/engine"

// A call is one method of the engine with the types it takes and answers.
type call struct {
	method  string
	in, out ref
}

// Generate returns the declarations for the module whose root folder is given.
// It fails where a type has no counterpart in TypeScript, or where two types of
// one name are reached.
func Generate(root string) ([]byte, error) {
	src := &source{root: root, packages: map[string]*pkg{}}
	engine, err := src.load(enginePackage)
	if err != nil {
		return nil, err
	}
	w := &writer{src: src, written: map[string]ref{}}
	calls, err := src.findCalls(engine)
	if err != nil {
		return nil, err
	}
	for _, c := range calls {
		w.want(c.in.pkg, c.in.name)
		w.want(c.out.pkg, c.out.name)
	}
	w.want(engine, "Failure")
	for len(w.queue) > 0 {
		next := w.queue[0]
		w.queue = w.queue[1:]
		if err := w.declare(next); err != nil {
			return nil, err
		}
	}
	return w.text(calls), nil
}

// findCalls reads the switch of (*Engine).Call: each case names a method and
// hands it to do(in, f), whose types are those of f.
func (s *source) findCalls(engine *pkg) ([]call, error) {
	entry := engine.funcs["Call"]
	if entry == nil {
		return nil, errors.New("internal/engine has no function Call")
	}
	var calls []call
	var err error
	ast.Inspect(entry, func(n ast.Node) bool {
		clause, ok := n.(*ast.CaseClause)
		if !ok || len(clause.List) != 1 {
			return true
		}
		method, ok := stringValue(clause.List[0])
		if !ok {
			return true
		}
		name := handler(clause)
		f := engine.funcs[name]
		if f == nil || len(f.Type.Params.List) != 1 || f.Type.Results == nil {
			err = errors.Join(err, fmt.Errorf("%s: call %q is not do(in, f) with a function f of one argument", engine.where(clause), method))
			return false
		}
		in, wrongIn := s.resolve(engine, engine.files[f], f.Type.Params.List[0].Type)
		out, wrongOut := s.resolve(engine, engine.files[f], f.Type.Results.List[0].Type)
		err = errors.Join(err, wrongIn, wrongOut)
		calls = append(calls, call{method, in, out})
		return false
	})
	if err == nil && len(calls) == 0 {
		err = fmt.Errorf("%s: no calls found in Call", filepath.Join("internal", "engine"))
	}
	return calls, err
}

// handler returns the name of f in a case's do(in, f), "" when there is none.
func handler(clause *ast.CaseClause) (name string) {
	ast.Inspect(clause, func(n ast.Node) bool {
		c, ok := n.(*ast.CallExpr)
		if !ok || typeName(c.Fun) != "do" || len(c.Args) != 2 {
			return true
		}
		name = typeName(c.Args[1])
		return false
	})
	return name
}

// typeName returns the last identifier of an expression such as T, *T or x.f,
// "" when it is none of these.
func typeName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.StarExpr:
		return typeName(e.X)
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}
