package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/folder"
	"hobside/internal/library"
)

// check is `hobside check FILE|DIR…`: it prints every problem of the files.
func check(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("check", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	asJSON := flags.Bool("json", false, "print problems as one JSON array")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	if flags.NArg() == 0 {
		return usage("name at least one file or folder")
	}
	var paths []string
	for _, arg := range flags.Args() {
		found, err := markdownIn(arg)
		if err != nil {
			return err
		}
		if len(found) == 0 {
			return fmt.Errorf("%s holds no .md file", arg)
		}
		paths = append(paths, found...)
	}
	problems, err := problemsOf(paths)
	if err != nil {
		return err
	}
	errors := 0
	for _, f := range problems {
		if f.Severity == document.Error {
			errors++
		}
	}
	if *asJSON {
		enc := json.NewEncoder(out)
		enc.SetIndent("", "  ")
		if err := enc.Encode(problems); err != nil {
			return err
		}
	} else {
		for _, f := range problems {
			fmt.Fprintln(out, f.Error())
		}
		fmt.Fprintf(out, "%d files, %d errors, %d warnings\n", len(paths), errors, len(problems)-errors)
	}
	if errors > 0 {
		return errProblems
	}
	return nil
}

// problemsOf checks files together. The problems name each file by its path as
// given.
func problemsOf(paths []string) ([]document.Problem, error) {
	var files []library.Source
	for _, path := range paths {
		text, err := folder.ReadFile(path)
		if err != nil {
			return nil, err
		}
		files = append(files, library.Source{Name: filepath.ToSlash(path), Text: text})
	}
	return dinner.Check(files), nil
}

// markdownIn returns the Markdown files at or below a path. README.md files
// describe a folder and are left out, unless the path names one. It fails when one
// of the folder's Markdown files is a link or not a regular file.
func markdownIn(path string) ([]string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, err)
	}
	if !info.IsDir() {
		return []string{path}, nil
	}
	var found []string
	err = filepath.WalkDir(path, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() || !strings.HasSuffix(d.Name(), ".md") || d.Name() == "README.md" {
			return nil
		}
		found = append(found, p)
		return folder.CheckPlain(p, d.Type())
	})
	return found, err
}
