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
	problems, checked, err := problemsOf(flags.Args())
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
		fmt.Fprintf(out, "%d files, %d errors, %d warnings\n", checked, errors, len(problems)-errors)
	}
	if errors > 0 {
		return errProblems
	}
	return nil
}

// problemsOf checks the named files and those of named folders, together. A file that is
// named by itself is checked with those beside it, and so are the files that a menu needs;
// checked counts them. The problems name each file by its path as given.
func problemsOf(args []string) (problems []document.Problem, checked int, err error) {
	var named, near []string
	for _, arg := range args {
		found, err := markdownIn(arg)
		if err != nil {
			return nil, 0, err
		}
		if len(found) == 0 {
			return nil, 0, fmt.Errorf("%s holds no .md file", arg)
		}
		named = append(named, found...)
	}
	files, err := sources(named)
	if err != nil {
		return nil, 0, err
	}
	for _, arg := range args {
		if info, err := os.Stat(arg); err != nil || info.IsDir() {
			continue
		}
		paths, err := beside(arg)
		if err != nil {
			return nil, 0, err
		}
		near = append(near, paths...)
	}
	others, err := sources(without(near, named))
	if err != nil {
		return nil, 0, err
	}
	problems, of := dinner.Check(files, others)
	return problems, len(of), nil
}

// sources reads files, under their paths as given.
func sources(paths []string) ([]library.Source, error) {
	var out []library.Source
	for _, path := range paths {
		text, err := folder.ReadFile(path)
		if err != nil {
			return nil, err
		}
		out = append(out, library.Source{Name: filepath.ToSlash(path), Text: text})
	}
	return out, nil
}

// without returns paths, each once, without those of the files that others name.
func without(paths, others []string) []string {
	have := map[string]bool{}
	whole := func(path string) string {
		if full, err := filepath.Abs(path); err == nil {
			return full
		}
		return filepath.Clean(path)
	}
	for _, path := range others {
		have[whole(path)] = true
	}
	var out []string
	for _, path := range paths {
		if full := whole(path); !have[full] {
			have[full] = true
			out = append(out, path)
		}
	}
	return out
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
		if d.IsDir() || !isMarkdown(d.Name()) {
			return nil
		}
		found = append(found, p)
		return folder.CheckPlain(p, d.Type())
	})
	return found, err
}
