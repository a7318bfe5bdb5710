package folder

import (
	"fmt"
	"io/fs"
	"path"
)

// A File is one card, menu or kitchen: its name without a folder, and its text.
type File struct{ Name, Text string }

// Cards returns the Markdown files of a folder and the folders below it, in the
// order of their paths. README.md files describe a folder and are left out. Two
// files of one name are an error, because cards link by name alone; so is a link or
// anything else that is not a regular file.
func Cards(fsys fs.FS) ([]File, error) {
	var files []File
	from := map[string]string{}
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(p) != ".md" || d.Name() == "README.md" {
			return err
		}
		if err := CheckPlain(p, d.Type()); err != nil {
			return err
		}
		if other, taken := from[d.Name()]; taken {
			return fmt.Errorf("%s and %s have the same name: rename one", other, p)
		}
		from[d.Name()] = p
		b, err := fs.ReadFile(fsys, p)
		files = append(files, File{Name: d.Name(), Text: string(b)})
		return err
	})
	return files, err
}
