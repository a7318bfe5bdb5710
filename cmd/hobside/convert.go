package main

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"hobside/internal/convert"
	"hobside/internal/document"
	"hobside/internal/folder"
)

// convertFiles is `hobside convert`: cards of other people's recipes.
func convertFiles(_ context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("convert", flag.ContinueOnError)
	format := flags.String("format", "card", "card or json")
	dir := flags.String("out", "", "the folder to write a file for each recipe in")
	names, err := parse(flags, args)
	switch err = cmp.Or(err, known("format", *format, "card", "json")); {
	case err != nil:
		return err
	case len(names) == 0:
		return usage("name a file, a folder or a zip, or - for what is piped in")
	}
	report := &toldError{}
	var recipes []*convert.Recipe
	for _, name := range names {
		found, err := convertible(name)
		if err != nil {
			report.refuse(name, err)
		}
		for _, f := range found {
			read, err := convert.Read(f.Name, f.Data)
			if err != nil {
				report.refuse(f.Name, err)
			}
			recipes = append(recipes, read...)
		}
	}
	cards := make([]string, len(recipes))
	for i, r := range recipes {
		cards[i] = r.Card()
		report.lines = append(report.lines, r.Report()...)
	}
	if err := printRecipes(out, recipes, cards, *format, *dir); err != nil {
		report.failed = err
	}
	return report
}

// refuse adds a file that holds no recipe.
func (e *toldError) refuse(name string, err error) {
	e.lines = append(e.lines, name+": "+err.Error())
	e.failed = errProblems
}

// convertible returns the files that a name stands for: itself, those of a folder, those in a zip.
func convertible(name string) ([]convert.File, error) {
	if name == "-" {
		data, err := io.ReadAll(io.LimitReader(os.Stdin, convert.MaxBytes+1))
		if err != nil {
			return nil, err
		}
		return convert.Files("-", data)
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return unpacked(name)
	}
	var out []convert.File
	var failed error
	err = filepath.WalkDir(name, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() || !convert.IsReadable(filepath.ToSlash(path)) {
			return err
		}
		found, err := unpacked(path)
		if err != nil { // the others of the folder are read all the same
			failed = errors.Join(failed, fmt.Errorf("%s: %w", path, err))
		}
		out = append(out, found...)
		return nil
	})
	if err = errors.Join(err, failed); err == nil && len(out) == 0 {
		err = errors.New("there is no web page, text or Markdown file in it")
	}
	return out, err
}

// unpacked reads a file, and the files in it where it is a zip.
func unpacked(name string) ([]convert.File, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.Size() > convert.MaxZip {
		return nil, convert.ErrLarge
	}
	data, err := folder.ReadUpTo(name, convert.MaxZip)
	if err != nil {
		return nil, err
	}
	return convert.Files(filepath.ToSlash(name), data)
}

// printRecipes prints the recipes, or writes a file for each where a folder is named.
func printRecipes(out io.Writer, recipes []*convert.Recipe, cards []string, format, dir string) error {
	switch {
	case len(recipes) == 0:
		return errProblems
	case dir != "":
		return writeRecipes(out, recipes, cards, format, dir)
	case format == "json" && len(recipes) == 1:
		return printJSON(out, recipes[0])
	case format == "json":
		return printJSON(out, recipes)
	case len(recipes) > 1:
		return fmt.Errorf("there are %d recipes: name a folder for their cards, --out DIR", len(recipes))
	}
	_, err := io.WriteString(out, cards[0])
	return err
}

// writeRecipes writes a file for each recipe and prints their names. A file that is there
// already is never replaced.
func writeRecipes(out io.Writer, recipes []*convert.Recipe, cards []string, format, dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for i, r := range recipes {
		text, ending := []byte(cards[i]), ".md"
		if format == "json" {
			b, err := json.Marshal(r)
			if err != nil {
				return err
			}
			var pretty bytes.Buffer
			if err := json.Indent(&pretty, b, "", "  "); err != nil {
				return err
			}
			text, ending = append(pretty.Bytes(), '\n'), ".json"
		}
		name, err := writeNew(dir, cmp.Or(document.Slug(r.Title), "recipe"), ending, text)
		if err != nil {
			return err
		}
		fmt.Fprintln(out, name)
	}
	return nil
}

// writeNew writes a file under a name that no other has: leek-tart.md, leek-tart-2.md.
func writeNew(dir, slug, ending string, text []byte) (name string, err error) {
	slug = string([]rune(slug)[:min(len([]rune(slug)), 80)])
	for n := 1; n < 10_000; n++ {
		name = filepath.Join(dir, slug+ending)
		if n > 1 {
			name = filepath.Join(dir, fmt.Sprintf("%s-%d%s", slug, n, ending))
		}
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return "", err
		}
		_, err = f.Write(text)
		return name, errors.Join(err, f.Close())
	}
	return "", fmt.Errorf("%s has too many files named %s", dir, slug)
}
