package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"hobside/internal/folder"
	"hobside/internal/library"
)

// beside returns the Markdown files that belong with a named file: those of its folder
// and the folders below it, or, where none of them is a kitchen and the folder above has
// a kitchen or a menu, those of the folder above. README.md files and folders that may
// not be read are left out. It fails when one of the files is a link or not a regular file.
func beside(file string) ([]string, error) {
	dir := filepath.Dir(file)
	paths, err := readable(dir)
	if err != nil {
		return nil, err
	}
	up := filepath.Join(dir, "..")
	if hasKind(paths, library.KindKitchen) {
		return paths, nil
	}
	above, err := markdownOf(up)
	if err != nil {
		return paths, nil
	}
	if hasKind(above, library.KindKitchen, library.KindMenu) {
		return readable(up)
	}
	return paths, nil
}

// markdownOf returns the Markdown files of a folder, without those below it.
func markdownOf(dir string) (paths []string, err error) {
	entries, err := os.ReadDir(dir)
	for _, d := range entries {
		if d.Type().IsRegular() && isMarkdown(d.Name()) {
			paths = append(paths, filepath.Join(dir, d.Name()))
		}
	}
	return paths, err
}

// readable returns the Markdown files at or below a folder, without those of the folders
// below it that may not be read.
func readable(dir string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		switch {
		case errors.Is(err, fs.ErrPermission) && p != dir:
			return fs.SkipDir
		case err != nil:
			return err
		case d.IsDir() || !isMarkdown(d.Name()):
			return nil
		}
		found = append(found, p)
		return folder.CheckPlain(p, d.Type())
	})
	return found, err
}

// isMarkdown reports whether a name is that of a card, a menu or a kitchen: README.md
// describes a folder.
func isMarkdown(name string) bool { return strings.HasSuffix(name, ".md") && name != "README.md" }

// hasKind reports whether one of several files is of one of the kinds. A file that can't
// be read is of none.
func hasKind(paths []string, kinds ...library.Kind) bool {
	for _, path := range paths {
		text, err := folder.ReadFile(path)
		if err != nil {
			continue
		}
		is := library.KindOf([]byte(text))
		for _, kind := range kinds {
			if is == kind {
				return true
			}
		}
	}
	return false
}
