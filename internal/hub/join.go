package hub

import (
	"errors"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/merge"
	"hobside/internal/store"
)

// errJoin means that a transaction needs merges that are not worked out yet.
var errJoin = errors.New("a merge is to be worked out first")

// maxRounds is how many times a request works out its merges. A merge that is still
// not there, because others go on changing the file, is left to people.
const maxRounds = 3

// A joins holds the merges of one request. The zero value is ready.
type joins struct {
	done   map[joinKey]joined
	wanted map[joinKey]joinTexts
	rounds int // of work
}

// A joinKey names a merge by the revisions of its texts.
type joinKey struct{ base, ours, theirs string }

// joinTexts are the texts of a merge; base is nil when it is not known.
type joinTexts struct {
	base         *string
	ours, theirs string
}

// A joined is the outcome of a merge; ok is false when people must choose.
type joined struct {
	text string
	ok   bool
}

// join returns the merge of an offer with the newest text. It fails with [errJoin] when
// the merge is not worked out yet.
func (in *intake) join(tx *store.Tx, offered, newest store.File) (text string, ok bool, err error) {
	key := joinKey{offered.Base, newest.Revision, dinner.Revision(offered.Text)}
	if j, known := in.joins.done[key]; known {
		return j.text, j.ok, nil
	}
	if in.joins.rounds == maxRounds {
		return "", false, nil
	}
	t := joinTexts{ours: newest.Text, theirs: offered.Text}
	if tx.Knows(offered.Base) {
		base, err := tx.Text(offered.Base)
		if err != nil {
			return "", false, err
		}
		t.base = &base
	}
	if in.joins.wanted == nil {
		in.joins.wanted = map[joinKey]joinTexts{}
	}
	in.joins.wanted[key] = t
	return "", false, errJoin
}

// work works out the merges that are wanted.
func (j *joins) work() {
	if j.done == nil {
		j.done = map[joinKey]joined{}
	}
	for key, t := range j.wanted {
		text, ok := merge.Lines(t.base, t.ours, t.theirs)
		ok = ok && len(text) <= MaxText && strings.Count(text, "\n") <= MaxLines
		j.done[key] = joined{text, ok}
	}
	j.wanted = nil
	j.rounds++
}
