package convert

import (
	"bytes"
	"path"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
)

// Read returns the recipes of a file: a saved web page, an e-mail, a text, a Markdown file
// or a file of comma-separated values. Name is its name or address; a page that was pasted
// has none. The error says in a sentence what the file is and what to do.
func Read(name string, data []byte) ([]*Recipe, error) {
	name = strings.ToValidUTF8(name, "�")
	s, err := text(data)
	if err != nil {
		return nil, err
	}
	if r := ownCard(name, data); r != nil {
		return []*Recipe{r}, nil
	}
	var found []*draft
	switch {
	case isMail(s):
		found, err = readMail(s)
	case looksLikePage(s):
		found, err = readPage(s)
	case looksLikeJSON(s):
		found, err = readData(s)
	case strings.EqualFold(path.Ext(name), ".csv"):
		found = readLines(readCSV(s), "comma-separated values")
	default:
		found = readLines(lines(unquoted(s)), textForm(name, s))
		for _, m := range mdLink.FindAllStringSubmatch(s, -1) {
			if len(found) > 0 && m[2] != "" { // the lines keep a link's words alone
				found[0].notes = append(found[0].notes, "Link: "+m[1]+", "+m[2])
			}
		}
	}
	if err != nil {
		return nil, err
	}
	var out []*Recipe
	for _, d := range found {
		if d.title == "" {
			d.title = nameTitle(name)
		}
		if d.own != nil {
			out = append(out, ownCard(name, d.own))
			continue
		}
		if r := d.recipe(name); r != nil {
			if len(r.write().b.String()) > document.MaxBytes*3/4 {
				return nil, errLong
			}
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		return nil, errNone
	}
	return out, nil
}

// ownCard returns a text that is one of our cards already, nil for others.
func ownCard(name string, data []byte) *Recipe {
	if !bytes.HasPrefix(data, []byte("---")) {
		return nil
	}
	c, problems := card.Parse(path.Base(name), data)
	if broken(problems) || c.Makes.Unit == nil || len(c.Items) == 0 || len(c.Steps) == 0 {
		return nil
	}
	return ofCard(c, name)
}

// readPage reads a web page: its data, else its microdata, else its words.
func readPage(s string) ([]*draft, error) {
	p := parsePage(s)
	found := drafts(p.data, "schema.org data (JSON-LD)")
	if len(found) == 0 {
		found = drafts(microdata(p.root), "schema.org data (microdata)")
	}
	if len(found) == 0 {
		found = readLines(visible(p.root, false), "words of a web page")
	}
	if len(found) == 0 {
		found = readLines(visible(p.root, true), "words of a web page")
	}
	for _, d := range found {
		if d.title == "" {
			d.title = p.title
		}
	}
	switch {
	case len(found) > 0:
		return found, nil
	case p.signIn:
		return nil, errSignIn
	case p.broken != nil:
		return nil, p.broken
	}
	return nil, errNone
}

// looksLikeJSON reports whether a text is JSON alone.
func looksLikeJSON(s string) bool {
	s = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(s), "<!--"))
	if _, after, ok := strings.Cut(s[:min(len(s), 200)], "-->"); ok {
		s = strings.TrimSpace(after)
	}
	if list, ok := strings.CutPrefix(s, "["); ok {
		list = strings.TrimSpace(list)
		return list != "" && strings.ContainsRune(`{["`, rune(list[0])) // "[ ] 2 eggs" is a box to tick
	}
	return strings.HasPrefix(s, "{")
}

// readData reads schema.org data without a page around it.
func readData(s string) ([]*draft, error) {
	v, err := parseJSON(s)
	if err != nil {
		return nil, err
	}
	return drafts([]any{v}, "schema.org data (JSON-LD)"), nil
}

// textForm says what kind of text a file is.
func textForm(name, s string) string {
	if ext := strings.ToLower(path.Ext(name)); ext == ".md" || ext == ".markdown" || strings.HasPrefix(s, "# ") || strings.Contains(s, "\n## ") {
		return "Markdown"
	}
	return "plain text"
}

// nameTitle makes a title of a file's name, for a text that has none.
func nameTitle(name string) string {
	base := path.Base(strings.ReplaceAll(name, `\`, "/"))
	base = strings.TrimSuffix(base, path.Ext(base))
	if base == "." || base == "-" || base == "/" {
		return ""
	}
	return squeeze(strings.NewReplacer("-", " ", "_", " ").Replace(base))
}

// unquoted returns a text without the "> " of a forwarded e-mail.
func unquoted(s string) string {
	rows := strings.Split(s, "\n")
	quoted, filled := 0, 0
	for _, row := range rows {
		if strings.TrimSpace(row) != "" {
			filled++
			if strings.HasPrefix(row, ">") {
				quoted++
			}
		}
	}
	if quoted*2 < filled || quoted == 0 {
		return s
	}
	for i, row := range rows {
		rows[i] = strings.TrimPrefix(strings.TrimPrefix(row, ">"), " ")
	}
	return strings.Join(rows, "\n")
}
