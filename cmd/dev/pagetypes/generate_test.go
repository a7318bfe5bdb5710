package pagetypes

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small is an engine with one call that takes In and answers Out.
const small = `package engine

import (
	"hobside/internal/card"
	named "hobside/internal/dinner"
)

type Engine struct{}

func (e *Engine) Call(method string, in []byte) (answer any, err error) {
	switch method {
	case "look":
		answer, err = do(in, e.look)
	}
	return answer, err
}

func (e *Engine) look(in In) (*Out, error) { return nil, nil }

// Failure says why.
type Failure struct {
	Error string ` + "`json:\"error\"`" + `
}

type In struct {
	hidden int
	Skip   int ` + "`json:\"-\"`" + `
`

// generate writes a module of which the engine ends with rest, and generates
// its declarations.
func generate(t *testing.T, rest string) (string, error) {
	t.Helper()
	root := t.TempDir()
	for name, text := range map[string]string{
		"engine/engine.go": small + rest,
		"card/card.go":     "package card\n\n// Severity sorts problems.\ntype Severity string\n\nconst (\n\tError Severity = \"error\"\n\tWarning Severity = \"warning\"\n)\n\ntype Twice struct {\n\tN int `json:\"n\"`\n}\n",
		"dinner/dinner.go": "package dinner\n\ntype Number struct{ n int }\n\nfunc (x Number) MarshalText() ([]byte, error) { return nil, nil }\n\n" +
			"type Amount struct{ n int }\n\ntype form struct {\n\tQty Number `json:\"qty\"` // exact\n}\n\nfunc (a Amount) MarshalJSON() ([]byte, error) {\n\tout := form{}\n\t_ = out\n\treturn nil, nil\n}\n\n" +
			"type Alias = Amount\n\ntype Twice struct{}\n\ntype Kind string\n\nconst A Kind = \"a\" // first\n",
	} {
		path := filepath.Join(root, "internal", filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	out, err := Generate(root)
	return string(out), err
}

func TestFieldsInTypeScript(t *testing.T) {
	for _, tt := range []struct{ name, field, want string }{
		{"a text", "A string `json:\"a\"`", "  a: string;"},
		{"a number that may be missing", "A int64 `json:\"a,omitempty\"`", "  a?: number;"},
		{"a list", "A []string `json:\"a\"`", "  a: string[];"},
		{"a map of lists", "A map[string][]int `json:\"a\"`", "  a: Record<string, number[]>;"},
		{"a pointer may be null", "A *float64 `json:\"a\"`", "  a: number | null;"},
		{"a pointer that may be missing is never null", "A *float64 `json:\"a,omitempty\"`", "  a?: number;"},
		{"a zero value that may be missing", "A bool `json:\"a,omitzero\"`", "  a?: boolean;"},
		{"an enumeration of another package", "A card.Severity `json:\"a\"`", "  a: Severity;"},
		{"its values", "A card.Severity `json:\"a\"`", "/** Severity sorts problems. */\nexport type Severity = 'error' | 'warning';"},
		{"values with comments", "A named.Kind `json:\"a\"`", "export type Kind =\n  | 'a'; // first\n"},
		{"a value that writes itself as text", "A named.Number `json:\"a\"`", "  a: string;"},
		{"a struct that writes its own JSON has the fields of the form it writes", "A *named.Amount `json:\"a\"`", "export interface Amount {\n  /** exact */\n  qty: string;\n}"},
		{"an alias is what it stands for", "A named.Alias `json:\"a\"`", "  a: Amount;"},
		{"an embedded struct's fields", "card.Twice", "  n: number;"},
		{"a comment", "A int `json:\"a\"` // in\n\t// minutes", "  /** in */\n  a: number;"},
		{"a comment above", "// A is\n\t// in minutes.\n\tA int `json:\"a\"`", "  /** A is in minutes. */\n  a: number;"},
		{"a struct that holds itself", "A []In `json:\"a\"`", "  a: In[];"},
		{"the call", "", "  look: [In, Out];"},
		{"the failure", "", "/** Failure says why. */\nexport interface Failure {\n  error: string;\n}"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, err := generate(t, "\t"+tt.field+"\n}\n\ntype Out struct{}\n")
			require.NoError(t, err)
			assert.Contains(t, got, tt.want)
			assert.NotContains(t, got, "hidden")
			assert.NotContains(t, got, "Skip")
		})
	}
}

func TestAnswerOfAnotherPackageIsNamedByItsOwnName(t *testing.T) {
	got, err := generate(t, "}\n\ntype Out = card.Twice\n")
	require.NoError(t, err)
	assert.Contains(t, got, "  look: [In, Twice];")
	assert.Contains(t, got, "export interface Twice {\n  n: number;\n}")
}

func TestTypesThePageHasNoWordForAreRefused(t *testing.T) {
	for _, tt := range []struct{ name, rest, want string }{
		{"a function", "\tA func() `json:\"a\"`\n}\n\ntype Out struct{}\n", "engine.go:28:4: the page has no word for this type"},
		{"a type of the standard library", "\tA time.Time `json:\"a\"`\n}\n\ntype Out struct{}\n", "the page has no word for this type"},
		{"two types of one name", "\tA card.Twice `json:\"a\"`\n\tB named.Twice `json:\"b\"`\n}\n\ntype Out struct{}\n", "both have a type Twice"},
		{"an answer that is no struct", "}\n\ntype Out int\n", "Out is neither a struct nor an enumeration"},
		{"no answer's type", "}\n", "the page has no word for this type"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := generate(t, tt.rest)
			assert.ErrorContains(t, err, tt.want)
		})
	}
}

func TestLongCommentIsWrapped(t *testing.T) {
	got := jsdoc("  ", "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen */")
	assert.Equal(t, "  /**\n   * one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen\n   * sixteen seventeen * /\n   */\n", got)
}

func TestFormChangesWithAFieldAndNotWithAComment(t *testing.T) {
	form := func(types string) string { return string(Form([]byte(types))) }
	was := form("/** A. */\nexport interface A {\n  /** in g */\n  a: string;\n}\n")
	assert.Equal(t, was, form("export interface A {\n  a: string;\n}\n"))
	assert.NotEqual(t, was, form("export interface A {\n  a: number;\n}\n"))
}
