package engine

import (
	"encoding"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// calls are what crosses the border, call by call.
var calls = map[string][2]any{
	"load": {LoadCall{}, LibraryView{}}, "find": {FindCall{}, FindView{}}, "read": {ReadCall{}, PageView{}}, "open": {OpenCall{}, Sheet{}}, "apply": {ApplyCall{}, Sheet{}},
	"prefs": {Prefs{}, Sheet{}}, "order": {DinnerCall{}, OrderView{}}, "plan": {PlanCall{}, PlanView{}},
	"watch": {WatchCall{}, WatchView{}}, "controls": {ClockCall{}, ControlsView{}}, "labels": {ClockCall{}, LabelsView{}}, "stamp": {StampCall{}, StampView{}}, "revision": {TextCall{}, RevisionView{}},
}

// TestPageTypes holds static/app/engine.d.ts to the Go types: every type that
// crosses the border, every field's name, whether it may be missing, its type.
func TestPageTypes(t *testing.T) {
	page := readPageTypes(t)
	all := map[string]reflect.Type{}
	for _, pair := range calls {
		reach(reflect.TypeOf(pair[0]), all)
		reach(reflect.TypeOf(pair[1]), all)
	}
	reach(reflect.TypeOf(Failure{}), all)
	for name, typ := range all {
		fields, ok := page[name]
		if !assert.True(t, ok, "engine.d.ts has no %s", name) {
			continue
		}
		assert.Equal(t, ours(typ), fields, "interface %s", name)
	}
	assert.Equal(t, []string{"qty", "to?", "unit?", "toTaste?", "about?"}, amountFields(t), "quantity.Amount writes its own JSON")
	var names []string
	for _, f := range page["Amount"] {
		name, _, _ := strings.Cut(f, ":")
		names = append(names, strings.TrimSuffix(name, "?"))
	}
	assert.ElementsMatch(t, []string{"qty", "to", "unit", "toTaste", "about"}, names)
	for name := range page {
		assert.True(t, name == "Calls" || name == "Amount" || all[name] != nil, "engine.d.ts has %s, which nothing here sends", name)
	}
	var want []string
	for method, pair := range calls {
		want = append(want, method+": ["+reflect.TypeOf(pair[0]).Name()+", "+reflect.TypeOf(pair[1]).Name()+"]")
	}
	slices.Sort(want)
	assert.Equal(t, want, page["Calls"])
	assert.ElementsMatch(t, kinds(t), pageKinds(t), "the kinds of events")
}

// TestCallsAreThoseOfTheEngine: no call is missing from the table above.
func TestCallsAreThoseOfTheEngine(t *testing.T) {
	src, err := os.ReadFile("engine.go")
	require.NoError(t, err)
	var got []string
	for _, m := range regexp.MustCompile(`(?m)^\tcase "(\w+)":$`).FindAllStringSubmatch(string(src), -1) {
		got = append(got, m[1])
	}
	var want []string
	for method := range calls {
		want = append(want, method)
	}
	assert.ElementsMatch(t, want, got)
	assert.ElementsMatch(t, methods, got, "the fuzz target makes every call")
}

var comments = regexp.MustCompile(`(?s)/\*.*?\*/|//[^\n]*`)

// readPageTypes reads the interfaces of engine.d.ts: "name?: type" by interface,
// sorted.
func readPageTypes(t *testing.T) map[string][]string {
	t.Helper()
	src := comments.ReplaceAllString(pageSource(t), "")
	out := map[string][]string{}
	for _, m := range regexp.MustCompile(`(?s)export interface (\w+) \{(.*?)\}`).FindAllStringSubmatch(src, -1) {
		fields := []string{}
		for _, f := range strings.Split(m[2], ";") {
			if f = strings.Join(strings.Fields(f), " "); f != "" {
				fields = append(fields, f)
			}
		}
		slices.Sort(fields)
		out[m[1]] = fields
	}
	require.Greater(t, len(out), 30)
	return out
}

func pageSource(t *testing.T) string {
	t.Helper()
	src, err := os.ReadFile("../../static/app/engine.d.ts")
	require.NoError(t, err)
	return string(src)
}

var textMarshaler = reflect.TypeFor[encoding.TextMarshaler]()

// reach gathers every struct type that JSON of a type may hold.
func reach(t reflect.Type, all map[string]reflect.Type) {
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice:
		reach(t.Elem(), all)
	case reflect.Map:
		reach(t.Elem(), all)
	case reflect.Struct:
		if t == reflect.TypeFor[quantity.Amount]() || t.Implements(textMarshaler) || all[t.Name()] != nil {
			return
		}
		all[t.Name()] = t
		for i := range t.NumField() {
			reach(t.Field(i).Type, all)
		}
	}
}

// ours writes a struct's fields as engine.d.ts should have them.
func ours(t reflect.Type) []string {
	var out []string
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || name == "-" {
			continue
		}
		typ, may := f.Type, strings.Contains(options, "omit")
		if may && typ.Kind() == reflect.Pointer {
			typ = typ.Elem() // missing, never null
		}
		if may {
			name += "?"
		}
		out = append(out, name+": "+pageType(typ))
	}
	slices.Sort(out)
	return out
}

// pageType is a Go type in TypeScript, as encoding/json writes it. Lists and
// maps are never null: the engine sends empty ones, and TestNothingIsNull
// holds it to that.
func pageType(t reflect.Type) string {
	switch {
	case t == reflect.TypeFor[card.Severity]():
		return "'error' | 'warning'"
	case t == reflect.TypeFor[dinner.Kind]():
		return "Kind"
	case t.Implements(textMarshaler) && t.Kind() == reflect.Struct:
		return "string"
	}
	switch t.Kind() {
	case reflect.String:
		return "string"
	case reflect.Bool:
		return "boolean"
	case reflect.Int, reflect.Int64, reflect.Float64:
		return "number"
	case reflect.Slice:
		return pageType(t.Elem()) + "[]"
	case reflect.Map:
		return "Record<string, " + pageType(t.Elem()) + ">"
	case reflect.Pointer:
		if t.Elem() == reflect.TypeFor[dinner.State]() {
			return "State" // an open dinner always has one
		}
		return pageType(t.Elem()) + " | null"
	case reflect.Struct:
		return t.Name()
	}
	return "a type the page has no word for: " + t.String()
}

// amountFields are the keys an Amount is written with, "?" where it may lack one.
func amountFields(t *testing.T) []string {
	t.Helper()
	unit, _ := quantity.LookupUnit("g")
	full := keysOf(t, quantity.Amount{Qty: quantity.Int(1), To: quantity.Int(2), Unit: unit, ToTaste: true, About: true})
	least := keysOf(t, quantity.Amount{})
	for i, k := range full {
		if !slices.Contains(least, k) {
			full[i] += "?"
		}
	}
	return full
}

// keysOf lists the keys of a value's JSON in their order.
func keysOf(t *testing.T, v any) []string {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	var out []string
	for _, m := range regexp.MustCompile(`[{,]"(\w+)":`).FindAllStringSubmatch(string(b), -1) {
		out = append(out, m[1])
	}
	return out
}

// kinds are the constants of dinner.Kind, from its source.
func kinds(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("../dinner/*.go")
	require.NoError(t, err)
	var out []string
	for _, file := range files {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, s := range g.Specs {
				if v := s.(*ast.ValueSpec); v.Type != nil && len(v.Values) == 1 {
					if id, ok := v.Type.(*ast.Ident); ok && id.Name == "Kind" {
						text, _ := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
						out = append(out, text)
					}
				}
			}
		}
	}
	require.Greater(t, len(out), 10)
	return out
}

func pageKinds(t *testing.T) []string {
	t.Helper()
	m := regexp.MustCompile(`(?s)export type Kind =(.*?);`).FindStringSubmatch(pageSource(t))
	require.NotNil(t, m)
	var out []string
	for _, k := range regexp.MustCompile(`'(\w+)'`).FindAllStringSubmatch(m[1], -1) {
		out = append(out, k[1])
	}
	return out
}

// TestNothingIsNull: where the page's types say list or map, it gets one, be it
// empty. Only what they call "| null" may be null.
func TestNothingIsNull(t *testing.T) {
	may := map[string]bool{}
	for _, fields := range readPageTypes(t) {
		for _, f := range fields {
			if name, typ, _ := strings.Cut(f, ": "); strings.HasSuffix(typ, "| null") {
				may[name] = true
			}
		}
	}
	p, d := demo(t)
	small := small(t)
	answers := map[string][]byte{
		"the demo":    p.e.Call("prefs", []byte(`{"dinner":"`+p.dinner+`"}`)),
		"its list":    p.e.Call("order", []byte(`{"dinner":"`+p.dinner+`"}`)),
		"its plan":    p.e.Call("plan", mustJSON(t, PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: serveAt - 1e10, ClockChanges: []ClockChangeView{}, Full: true})),
		"its library": p.e.Call("load", mustJSON(t, LoadCall{Files: demoFiles(t)})),
		"no library":  small.Call("load", []byte(`{}`)),
		"no events":   small.Call("open", []byte(`{"dinner":"x"}`)),
		"its order":   small.Call("order", []byte(`{"dinner":"x"}`)),
		"no files":    small.Call("open", []byte(`{"dinner":"y","events":[{"id":"event-0001","dinner":"y","device":"d","kind":"open","open":{"menu":"m.md"}}]}`)),
		"a page":      small.Call("read", []byte(`{"name":"soup.md","text":"# Soup"}`)),
		"no stamps":   small.Call("stamp", []byte(`{"events":[]}`)),
	}
	require.NotEmpty(t, d.Cards)
	for name, answer := range answers {
		var v any
		require.NoError(t, json.Unmarshal(answer, &v))
		for _, where := range nulls(v, "") {
			key := where[strings.LastIndexByte(where, '.')+1:]
			assert.True(t, may[key], "%s: null at %s", name, where)
		}
	}
}

func mustJSON(t *testing.T, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return b
}

// nulls lists the paths in a JSON value at which null stands.
func nulls(v any, path string) []string {
	var out []string
	switch v := v.(type) {
	case nil:
		return []string{path}
	case []any:
		for _, x := range v {
			out = append(out, nulls(x, path+"[]")...)
		}
	case map[string]any:
		for k, x := range v {
			out = append(out, nulls(x, path+"."+k)...)
		}
	}
	return out
}
