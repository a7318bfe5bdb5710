package convert

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// MaxBytes is the size of the longest file that is read: a saved web page has a few
// megabytes at most.
const MaxBytes = 8 << 20

// MaxZip is the size of the largest zip that is opened, before it is unpacked.
const MaxZip = 32 << 20

// What a file can be that holds no recipe to read, each with what to do.
var (
	// ErrLarge says that a file is too large to be a recipe's.
	ErrLarge   = errors.New("the file is larger than 8 MB: open it, select the recipe, and paste that")
	errPDF     = errors.New("this is a PDF, and its text can't be read: open it, select the recipe, and paste that")
	errPicture = errors.New("this is a picture, and there is no text in it: type the recipe, or paste what your phone reads from the picture")
	errOffice  = errors.New("this is a word processor's file: open it, select the recipe, and paste that")
	errBinary  = errors.New("this is no text: bring a web page, a text or a Markdown file, or paste the recipe")
	errEmpty   = errors.New("there is nothing in it: paste the recipe, or choose another file")
	errSignIn  = errors.New("this page asks for a sign-in and has no recipe: sign in, open the recipe there, select it, and paste that")
	errNone    = errors.New("no recipe was found: select the title, the ingredients and the steps, and paste them as text")
	errLong    = errors.New("the recipe is longer than a card may be (256 kB): paste only its ingredients and steps")
)

// magic are the first bytes of files that are no text.
var magic = []struct {
	begins string
	is     error
}{
	{"%PDF-", errPDF}, {"\x89PNG", errPicture}, {"\xff\xd8\xff", errPicture}, {"GIF8", errPicture}, {"II*\x00", errPicture}, {"MM\x00*", errPicture},
	{"\xd0\xcf\x11\xe0", errOffice}, {"{\\rtf", errOffice},
}

// text returns a file's bytes as UTF-8, or the error that says why it can't be read.
func text(data []byte) (string, error) {
	if len(data) > MaxBytes {
		return "", ErrLarge
	}
	for _, m := range magic {
		if bytes.HasPrefix(data, []byte(m.begins)) {
			return "", m.is
		}
	}
	if len(data) > 12 && (string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP" || string(data[4:8]) == "ftyp") {
		return "", errPicture
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		if utf8Text, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder().Bytes(data); err == nil {
			data = utf8Text
		}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.IndexByte(data, 0) >= 0 {
		return "", errBinary
	}
	if !utf8.Valid(data) { // old pages and e-mails
		data, _ = charmap.Windows1252.NewDecoder().Bytes(data)
	}
	s := strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n", "\v", "\n", "\f", "\n", "\u200b", "", "\ufeff", "").Replace(string(data))
	if strings.TrimSpace(s) == "" {
		return "", errEmpty
	}
	return s, nil
}
