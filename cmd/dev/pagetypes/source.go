package pagetypes

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
)

const module = "hobside/"

// A source holds the packages read so far, by import path.
type source struct {
	root     string
	packages map[string]*pkg
}

// A pkg is the parsed source of one package, without its tests.
type pkg struct {
	path   string
	fset   *token.FileSet
	types  map[string]*typeDecl
	funcs  map[string]*ast.FuncDecl // functions and methods, by their own name
	files  map[*ast.FuncDecl]*ast.File
	method map[string]*ast.FuncDecl // methods, by "Type.Method"
	values map[string][]constant    // string constants, by the name of their type
}

// A typeDecl is a type with its comment and the file that declares it.
type typeDecl struct {
	spec *ast.TypeSpec
	doc  string
	file *ast.File
}

// A constant is one value of an enumeration with its comment.
type constant struct{ value, doc string }

// A ref names a type of a package.
type ref struct {
	pkg  *pkg
	name string
}

// load parses a package of the module; each is parsed once.
func (s *source) load(importPath string) (*pkg, error) {
	if p := s.packages[importPath]; p != nil {
		return p, nil
	}
	p := &pkg{path: importPath, fset: token.NewFileSet(), types: map[string]*typeDecl{}, funcs: map[string]*ast.FuncDecl{}, files: map[*ast.FuncDecl]*ast.File{},
		method: map[string]*ast.FuncDecl{}, values: map[string][]constant{}}
	dir := filepath.Join(s.root, filepath.FromSlash(strings.TrimPrefix(importPath, module)))
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("reading package %s: %w", importPath, err)
	}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		f, err := parser.ParseFile(p.fset, filepath.Join(dir, e.Name()), nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		for _, d := range f.Decls {
			p.add(f, d)
		}
	}
	s.packages[importPath] = p
	return p, nil
}

// add files a top-level declaration under its names.
func (p *pkg) add(f *ast.File, d ast.Decl) {
	switch d := d.(type) {
	case *ast.FuncDecl:
		p.funcs[d.Name.Name], p.files[d] = d, f
		if d.Recv != nil {
			p.method[typeName(d.Recv.List[0].Type)+"."+d.Name.Name] = d
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				p.types[s.Name.Name] = &typeDecl{spec: s, doc: comment(s.Doc, d.Doc), file: f}
			case *ast.ValueSpec:
				if d.Tok == token.CONST && s.Type != nil && len(s.Values) == 1 {
					if v, ok := stringValue(s.Values[0]); ok {
						name := typeName(s.Type)
						p.values[name] = append(p.values[name], constant{v, comment(s.Doc, s.Comment)})
					}
				}
			}
		}
	}
}

// where returns the place of a node, for an error.
func (p *pkg) where(n ast.Node) string { return p.fset.Position(n.Pos()).String() }

// resolve returns the type that an expression of file f names: T of the same
// package, or pkg.T of an imported one, or a pointer to one. It follows aliases.
func (s *source) resolve(p *pkg, f *ast.File, e ast.Expr) (ref, error) {
	switch e := e.(type) {
	case *ast.StarExpr:
		return s.resolve(p, f, e.X)
	case *ast.Ident:
		d := p.types[e.Name]
		if d != nil && d.spec.Assign.IsValid() {
			return s.resolve(p, d.file, d.spec.Type)
		}
		if d != nil {
			return ref{p, e.Name}, nil
		}
	case *ast.SelectorExpr:
		importPath := imported(f, typeName(e.X))
		if !strings.HasPrefix(importPath, module) {
			break
		}
		other, err := s.load(importPath)
		if err != nil {
			return ref{}, err
		}
		return s.resolve(other, nil, e.Sel)
	}
	return ref{}, fmt.Errorf("%s: the page has no word for this type", p.where(e))
}

// imported returns the path of the package that a file calls name.
func imported(f *ast.File, name string) string {
	for _, i := range f.Imports {
		importPath, _ := strconv.Unquote(i.Path.Value)
		if i.Name != nil && i.Name.Name == name || i.Name == nil && path.Base(importPath) == name {
			return importPath
		}
	}
	return ""
}

// stringValue returns the value of a string literal.
func stringValue(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	v, err := strconv.Unquote(lit.Value)
	return v, err == nil
}

// comment returns the text of the first of these comments that is not empty.
func comment(groups ...*ast.CommentGroup) string {
	for _, g := range groups {
		if text := strings.TrimSpace(g.Text()); text != "" {
			return text
		}
	}
	return ""
}
