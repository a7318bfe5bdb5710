package engine

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/cmd/dev/pagetypes"
)

const moduleRoot = "../.."

// TestPageTypesAreUpToDate fails when a type that crosses to the page was
// changed and its TypeScript was not generated again.
func TestPageTypesAreUpToDate(t *testing.T) {
	want, err := pagetypes.Generate(moduleRoot)
	require.NoError(t, err)
	if string(want) != pageSource(t) {
		t.Errorf("%s is stale: go run ./cmd/dev types", pagetypes.Path)
	}
	form, err := os.ReadFile(filepath.Join(moduleRoot, pagetypes.FormPath))
	require.NoError(t, err)
	if string(form) != string(pagetypes.Form(want)) {
		t.Errorf("%s is stale: go run ./cmd/dev types", pagetypes.FormPath)
	}
}

// TestFuzzMakesEveryCall fails when a call is missing from those of the fuzz
// target.
func TestFuzzMakesEveryCall(t *testing.T) {
	_, body, ok := strings.Cut(pageSource(t), "export interface Calls {\n")
	require.True(t, ok)
	body, _, _ = strings.Cut(body, "}")
	var got []string
	for _, m := range regexp.MustCompile(`(?m)^  (\w+): \[`).FindAllStringSubmatch(body, -1) {
		got = append(got, m[1])
	}
	assert.ElementsMatch(t, methods, got)
}

func pageSource(t *testing.T) string {
	t.Helper()
	src, err := os.ReadFile(filepath.Join(moduleRoot, pagetypes.Path))
	require.NoError(t, err)
	return string(src)
}

// TestListsAreNeverNull: where the page's types say list or map, it gets one, be it
// empty. Only what they call "| null" may be null.
func TestListsAreNeverNull(t *testing.T) {
	may := mayBeNull(t)
	p, d := demo(t)
	small := small(t)
	answers := map[string][]byte{
		"the demo":                          p.e.Call("prefs", []byte(`{"dinner":"`+p.dinner+`"}`)),
		"its list":                          p.e.Call("order", []byte(`{"dinner":"`+p.dinner+`"}`)),
		"its plan":                          p.e.Call("plan", mustJSON(t, PlanCall{Dinner: p.dinner, ServeAt: serveAt, Now: serveAt - 1e10, ClockChanges: []ClockChangeView{}, Full: true})),
		"its library":                       p.e.Call("load", mustJSON(t, LoadCall{Files: demoFiles(t)})),
		"no library":                        small.Call("load", []byte(`{}`)),
		"no events":                         small.Call("open", []byte(`{"dinner":"x"}`)),
		"its order":                         small.Call("order", []byte(`{"dinner":"x"}`)),
		"no files":                          small.Call("open", []byte(`{"dinner":"y","events":[{"id":"event-0001","dinner":"y","device":"d","kind":"open","open":{"menu":"m.md"}}]}`)),
		"a page":                            small.Call("read", []byte(`{"name":"soup.md","text":"# Soup"}`)),
		"guests without \"no\" in a menu":   small.Call("load", []byte(`{"files":[{"name":"m.md","text":"---\ncovers: 2\n---\n\n# M\n\n## Guests\n\n- 1 cover: vegan\n"}]}`)),
		"guests without \"no\" in an event": small.Call("apply", []byte(`{"dinner":"s","events":[{"id":"event-0009","dinner":"s","device":"d","stamp":{"wall":9},"kind":"guests","text":"1 cover: vegan"}]}`)),
		"no events to validate":             small.Call("validate", []byte(`{"events":[]}`)),
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

// mayBeNull is the fields that the page's types call "| null".
func mayBeNull(t *testing.T) map[string]bool {
	t.Helper()
	may := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^  (\w+)\??: .*\| null;$`).FindAllStringSubmatch(pageSource(t), -1) {
		may[m[1]] = true
	}
	require.NotEmpty(t, may)
	return may
}

func mustJSON(t *testing.T, v any) []byte {
	t.Helper()
	b, err := json.Marshal(v)
	require.NoError(t, err)
	return b
}

// nulls lists the paths in a JSON value that are null.
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
