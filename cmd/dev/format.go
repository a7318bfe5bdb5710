package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"
)

// goFolders hold the Go code.
var goFolders = []string{"cmd", "internal", "static", "content"}

// pageFolders hold what Prettier formats; .prettierignore leaves parts of them out.
var pageFolders = []string{"static", "cmd/dev/htm.mjs", "cmd/dev/live"}

// longestLine is the most characters a line of the page's code may have.
// Prettier breaks at 100; comments and long texts are broken by hand.
const longestLine = 120

// format formats the Go code and the page's JavaScript, CSS and HTML.
func format(ctx context.Context, out io.Writer) error {
	if err := needPackages(ctx, out); err != nil {
		return err
	}
	if err := command(ctx, out, "gofmt", append([]string{"-w"}, goFolders...)...).Run(); err != nil {
		return err
	}
	return prettier(ctx, out, "--write")
}

// checkFormat says what [format] would change, and which lines are too long.
func checkFormat(ctx context.Context, out io.Writer) error {
	var files bytes.Buffer
	c := command(ctx, out, "gofmt", append([]string{"-l"}, goFolders...)...)
	c.Stdout = &files
	if err := c.Run(); err != nil {
		return err
	}
	if files.Len() > 0 {
		return fmt.Errorf("not formatted, run `go run ./cmd/dev format`:\n%s", files.String())
	}
	if err := prettier(ctx, out, "--check"); err != nil {
		return fmt.Errorf("not formatted, run `go run ./cmd/dev format`: %w", err)
	}
	long, err := longLines(os.DirFS("."))
	if err != nil {
		return err
	}
	if len(long) > 0 {
		return fmt.Errorf("lines of more than %d characters; break them by hand:\n  %s", longestLine, strings.Join(long, "\n  "))
	}
	return nil
}

func prettier(ctx context.Context, out io.Writer, mode string) error {
	args := []string{mode, "--log-level", "warn", "--plugin", "./" + npmFolder + "/htm.mjs", "--embedded-language-formatting", "auto"}
	return command(ctx, out, npmBin("prettier"), append(args, pageFolders...)...).Run()
}

// longLines lists the lines of the page's own code that are too long, as file:line.
func longLines(root fs.FS) ([]string, error) {
	var long []string
	err := fs.WalkDir(root, "static", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && d.Name() == "vendor":
			return fs.SkipDir
		case !slices.Contains([]string{".js", ".css", ".html", ".ts", ".mjs"}, filepath.Ext(path)), path == "static/wasm_exec.js":
			return nil
		}
		text, err := fs.ReadFile(root, path)
		if err != nil {
			return err
		}
		n := 0
		for line := range strings.Lines(string(text)) {
			n++
			if utf8.RuneCountInString(strings.TrimRight(line, "\r\n")) > longestLine {
				long = append(long, fmt.Sprintf("%s:%d", path, n))
			}
		}
		return nil
	})
	return long, err
}
