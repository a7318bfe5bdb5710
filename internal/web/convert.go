package web

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"

	"hobside/internal/convert"
)

// maxRecipe is the size in bytes of a file that the server reads recipes in. Its request is
// a third longer, because a file is sent in base64. A page of this size takes at most about
// 100 MB while it is read, and one is read at a time.
const maxRecipe = 2 << 20

var errTooLong = errors.New("the file is over 2 MB: open it, select the recipe, and paste that")

// A foundRecipe is one recipe as the app shows it beside its source.
type foundRecipe struct {
	Title   string         `json:"title"`
	Lines   []convert.Line `json:"lines"`   // the card; joined by line breaks it compiles
	Source  []string       `json:"source"`  // what was read, in the source's words
	NotRead []string       `json:"notRead"` // what could not be placed
	Doubts  []string       `json:"doubts"`  // what to look at
}

// helpersRead answers a helper's phone, which may not write cards.
const helpersRead = "this phone is a helper's: it may tick, weigh and note, but not bring recipes in; the cook can make it a cook's under Settings"

// convert is POST /api/convert: it reads the recipes of a file or of a pasted text and keeps
// nothing. A file that holds none is answered 422 with what it is and what to do.
func (s *Server) convert(w http.ResponseWriter, r *http.Request) {
	if !visitorOf(r).mayManage() {
		turnAway(w, r, http.StatusForbidden, helpersRead)
		return
	}
	if !isJSON(r) {
		fail(w, r, http.StatusUnsupportedMediaType, "send application/json")
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxRecipe*4/3+1000))
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
		fail(w, r, http.StatusRequestEntityTooLarge, errTooLong.Error())
		return
	}
	if err != nil {
		fail(w, r, http.StatusBadRequest, "the request broke off")
		return
	}
	var file struct {
		Name string `json:"name"`
		Data []byte `json:"data"`
	}
	if json.Unmarshal(body, &file) != nil {
		fail(w, r, http.StatusBadRequest, "cannot read the request: send a name and the file's bytes")
		return
	}
	end := s.reading.take(r.Context(), "convert")
	if end == nil {
		fail(w, r, http.StatusTooManyRequests, "the server reads other recipes: try again in a moment")
		return
	}
	defer end()
	found, err := readRecipes(file.Name, file.Data)
	if err != nil {
		fail(w, r, http.StatusUnprocessableEntity, err.Error())
		return
	}
	sendCompressed(w, r, http.StatusOK, map[string]any{"recipes": found})
}

// readRecipes reads a file, or those in a zip. The error is that of the first where none
// holds a recipe.
func readRecipes(name string, data []byte) ([]foundRecipe, error) {
	files, err := convert.Files(name, data)
	if err != nil {
		return nil, err
	}
	var out []foundRecipe
	var first error
	for _, f := range files {
		var read []*convert.Recipe
		err := errTooLong
		if len(f.Data) <= maxRecipe {
			read, err = convert.Read(f.Name, f.Data)
		}
		if err != nil && first == nil {
			first = err
		}
		for _, r := range read {
			one := foundRecipe{Title: r.Title, Lines: r.Lines(), Source: r.Words(), NotRead: []string{}, Doubts: []string{}}
			one.NotRead, one.Doubts = append(one.NotRead, r.NotRead...), append(one.Doubts, r.ToLookAt()...)
			out = append(out, one)
		}
	}
	if len(out) == 0 {
		return nil, first
	}
	return out, nil
}
