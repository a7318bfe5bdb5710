package web

import (
	"bytes"
	"fmt"
	"io/fs"
	"path"
)

const (
	styleFolder = "style"
	styleFirst  = "layers.css" // names the cascade layers in their order
	styleURL    = "/app.css"
)

// Style returns the app's style sheet: the files of static's folder style, one
// after the other, so that the page asks for one file before its first paint. The
// first is layers.css, whose order of the cascade layers makes that of the others
// unimportant. It fails when a file can't be read, or when layers.css is missing.
func Style(static fs.FS) ([]byte, error) {
	body, err := fs.ReadFile(static, path.Join(styleFolder, styleFirst))
	if err != nil {
		return nil, fmt.Errorf("the style sheet: %w", err)
	}
	all := bytes.NewBuffer(body)
	names, err := fs.Glob(static, path.Join(styleFolder, "*.css"))
	if err != nil {
		return nil, fmt.Errorf("the style sheet: %w", err)
	}
	for _, name := range names {
		if path.Base(name) == styleFirst {
			continue
		}
		body, err := fs.ReadFile(static, name)
		if err != nil {
			return nil, fmt.Errorf("the style sheet: %w", err)
		}
		all.Write(body)
	}
	return all.Bytes(), nil
}
