package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A pkg is one package of the module: its files without the tests.
type pkg struct {
	dir   string // below the module's root, slashes: "internal/card"
	fset  *token.FileSet
	files []*ast.File
}

// room is the room a package belongs to, "" outside internal.
func (p *pkg) room() string {
	rest, ok := strings.CutPrefix(p.dir, "internal/")
	if !ok {
		return ""
	}
	room, _, _ := strings.Cut(rest, "/")
	return room
}

func (p *pkg) imports() []string {
	var out []string
	for _, f := range p.files {
		for _, i := range f.Imports {
			name, _ := strconv.Unquote(i.Path.Value)
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// readFiles parses one folder's files; ok is false where there is no package.
func readFiles(t testing.TB, dir string, sources map[string]string) *pkg {
	t.Helper()
	p := &pkg{dir: dir, fset: token.NewFileSet()}
	for _, name := range slices.Sorted(maps.Keys(sources)) {
		f, err := parser.ParseFile(p.fset, path.Join(dir, name), sources[name], parser.ParseComments)
		require.NoError(t, err)
		p.files = append(p.files, f)
	}
	return p
}

const module = "hobside"

// packages reads every package of the module, whatever system its files are for.
func packages(t testing.TB) []*pkg {
	t.Helper()
	root := os.DirFS("../..")
	sources := map[string]map[string]string{}
	err := fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name := d.Name()
		if d.IsDir() {
			if p != "." && (strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_") || name == "testdata" || name == "vendor") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		text, err := fs.ReadFile(root, p)
		dir := path.Dir(p)
		if sources[dir] == nil {
			sources[dir] = map[string]string{}
		}
		sources[dir][name] = string(text)
		return err
	})
	require.NoError(t, err)
	var out []*pkg
	for dir, files := range sources {
		out = append(out, readFiles(t, dir, files))
	}
	slices.SortFunc(out, func(a, b *pkg) int { return strings.Compare(a.dir, b.dir) })
	require.Greater(t, len(out), 10, "the walk found too little: is this still the module's root?")
	return out
}

// localName is what a file calls an import, "" when it has none.
func localName(f *ast.File, importPath string) string {
	for _, i := range f.Imports {
		if i.Path.Value != strconv.Quote(importPath) {
			continue
		}
		if i.Name != nil {
			return i.Name.Name
		}
		return path.Base(importPath)
	}
	return ""
}

// globals are the names of a package's variables.
func (p *pkg) globals() map[string]bool {
	names := map[string]bool{}
	for _, f := range p.files {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.VAR {
				continue
			}
			for _, s := range g.Specs {
				for _, id := range s.(*ast.ValueSpec).Names {
					names[id.Name] = id.Name != "_"
				}
			}
		}
	}
	return names
}

// assigned lists the package's variables that a function writes to, elements
// and fields of them included. The parser has resolved local names: what it
// left open, or found at the top of the file, is the package's.
func assigned(body ast.Node, f *ast.File, globals map[string]bool) []*ast.Ident {
	var out []*ast.Ident
	check := func(e ast.Expr) {
		for {
			switch x := e.(type) {
			case *ast.IndexExpr:
				e = x.X
			case *ast.SelectorExpr:
				e = x.X
			case *ast.StarExpr:
				e = x.X
			case *ast.ParenExpr:
				e = x.X
			case *ast.Ident:
				if globals[x.Name] && (x.Obj == nil || f.Scope.Lookup(x.Name) == x.Obj) {
					out = append(out, x)
				}
				return
			default:
				return
			}
		}
	}
	ast.Inspect(body, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.AssignStmt:
			if n.Tok != token.DEFINE {
				for _, e := range n.Lhs {
					check(e)
				}
			}
		case *ast.IncDecStmt:
			check(n.X)
		case *ast.CallExpr:
			if fun, ok := n.Fun.(*ast.Ident); ok && (fun.Name == "delete" || fun.Name == "clear") && len(n.Args) > 0 {
				check(n.Args[0])
			}
		}
		return true
	})
	return out
}
