package engine

import (
	"path"

	"hobside/internal/card"
)

// Check compiles files together and returns every problem with the file names
// as given, paths and all. Links go by the file's own name, whatever folder it
// stands in.
func Check(files []File) []card.Problem {
	docs := map[string]*document{}
	problems := []card.Problem{}
	for _, f := range files {
		d := compile(f.Name, []byte(f.Text))
		problems = append(problems, d.problems...)
		base := path.Base(f.Name)
		if other, taken := docs[base]; taken {
			problems = append(problems, card.Problem{File: f.Name, Line: 1, Col: 1, Severity: card.Error,
				Msg: "two files of one name: " + other.name + " is called " + base + " too",
				Do:  "rename one; links could mean either"})
			continue
		}
		docs[base] = d
	}
	return append(append(problems, links(docs)...), gaps(docs)...)
}
