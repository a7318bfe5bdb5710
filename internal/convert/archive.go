package convert

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// A File is a file by its name.
type File struct {
	Name string
	Data []byte
}

// Bounds of an archive: how many files, and how many bytes in all once they are unpacked.
const (
	maxFiles    = 1000
	maxUnpacked = 64 << 20
)

var errArchive = errors.New("the zip is not whole: make it again, or bring its files one by one")

// Files returns a file, or the files in it where it is a zip. What is no recipe's kind of
// file, and what a zip program puts beside the files, is left out.
func Files(name string, data []byte) ([]File, error) {
	if !bytes.HasPrefix(data, []byte("PK\x03\x04")) && !bytes.HasPrefix(data, []byte("PK\x05\x06")) {
		return []File{{name, data}}, nil
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, errArchive
	}
	if len(z.File) > maxFiles {
		return nil, fmt.Errorf("the zip has more than %d files: part it", maxFiles)
	}
	var out []File
	left := int64(maxUnpacked)
	for _, f := range z.File {
		if f.Name == "[Content_Types].xml" || f.Name == "mimetype" || f.Name == "META-INF/manifest.xml" {
			return nil, errOffice
		}
		if !f.Mode().IsRegular() || !IsReadable(f.Name) {
			continue
		}
		r, err := f.Open()
		if err != nil {
			return nil, errArchive
		}
		one, err := io.ReadAll(io.LimitReader(r, min(left, MaxBytes)+1))
		r.Close()
		if err != nil {
			return nil, errArchive
		}
		if left -= int64(len(one)); left < 0 {
			return nil, errors.New("the zip holds more than 64 MB: part it")
		}
		out = append(out, File{path.Join(name, f.Name), one})
	}
	if len(out) == 0 {
		return nil, errors.New("the zip holds no web page, text or Markdown file")
	}
	return out, nil
}

// IsReadable reports whether a file of a folder is of a kind that recipes come in, by its name.
func IsReadable(name string) bool {
	base := path.Base(name)
	if strings.HasPrefix(base, ".") || strings.HasPrefix(base, "__") || strings.Contains(name, "__MACOSX/") {
		return false
	}
	switch strings.ToLower(path.Ext(base)) {
	case ".html", ".htm", ".xhtml", ".txt", ".text", ".md", ".markdown", ".eml", ".csv", ".tsv", ".json", ".jsonld":
		return true
	}
	return false
}
