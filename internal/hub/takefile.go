package hub

import (
	"errors"
	"slices"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/merge"
	"hobside/internal/store"
)

// takeFile adds an offered revision to the log, merged with the newest one where
// the offer was not made from that. It returns why the offer is refused, "" when
// it is not.
func (in *intake) takeFile(tx *store.Tx, o Offer) (why string, err error) {
	known, err := tx.FindOffer(o.ID)
	if err != nil && !errors.Is(err, store.ErrDamaged) {
		return "", err
	}
	if _, err := tx.RepairText(o.Text); err != nil { // the phone has the text that the disk changed
		return "", err
	}
	if known, err = tx.FindOffer(o.ID); err != nil {
		return "", err
	}
	if known.Seq != 0 && !in.imports {
		if known.File.Name != o.Name || known.File.Text != o.Text {
			return whyOther, nil
		}
		in.beside, err = tx.Waits(o.Name, known.File.Revision)
		in.noteBeside(o)
		return "", err
	}
	revision := dinner.Revision(o.Text)
	if in.by.Role == string(Helper) {
		if tx.Has(o.Name, revision) {
			return "", nil // sent back, and here already
		}
		return whyHelperFile, nil
	}
	newest, err := newestOf(tx, o.Name)
	if err != nil {
		return "", err
	}
	// The times of one file's revisions always increase, because a phone sends
	// them to a new data file in the order of their times.
	offered := store.File{ID: o.ID, Name: o.Name, Base: o.Base, Text: o.Text, Device: in.device(), At: max(in.now, newest.At+1), Settles: o.Settles}
	if known.Seq != 0 {
		offered.ID = "" // a folder may have a text again that it had before
	}
	in.beside = false
	switch {
	case in.imports:
		err = in.takeImport(tx, offered, newest)
	case strings.HasPrefix(o.ID, returnedPrefix) && !in.keep:
		offered.Beside = o.Beside
		err = in.takeBack(tx, offered, newest)
	default:
		err = in.takeEdit(tx, offered, newest)
	}
	in.noteBeside(o)
	return "", err
}

// noteBeside notes an offer that was put beside the newest revision of its file.
func (in *intake) noteBeside(o Offer) {
	if in.beside {
		in.clashed = append(in.clashed, o.ID)
	}
}

// takeEdit takes a text that somebody has just saved.
func (in *intake) takeEdit(tx *store.Tx, offered, newest store.File) error {
	revision := dinner.Revision(offered.Text)
	switch {
	case newest.Name == "":
		_, err := tx.AppendFile(offered)
		return err
	case newest.Revision == revision && len(offered.Settles) > 0 && !in.keep:
		offered.Base = newest.Base // a revision is not made from itself
		offered.Settles = union(newest.Settles, offered.Settles)
		_, err := tx.AppendFile(offered)
		return err
	case newest.Revision == revision, in.keep && tx.Has(offered.Name, revision):
		return tx.Alias(offered.ID, offered.Name, revision)
	case in.keep:
		return in.keepEarlier(tx, offered, newest)
	case newest.Revision == offered.Base:
		_, err := tx.AppendFile(offered)
		return err
	}
	return in.merge(tx, offered, newest)
}

// takeBack takes a text that a phone sends back, after a restore for instance. It is not
// an edit: a text that others were made from stays an earlier one.
func (in *intake) takeBack(tx *store.Tx, offered, newest store.File) error {
	revision := dinner.Revision(offered.Text)
	switch {
	case newest.Name == "":
		offered.Beside, offered.Awaits = "", offered.Beside
		_, err := tx.AppendFile(offered)
		return err
	case tx.Has(offered.Name, revision):
		return tx.Alias(offered.ID, offered.Name, revision)
	case tx.IsBase(offered.Name, revision):
		return in.keepEarlier(tx, offered, newest)
	case newest.Awaits == revision: // the newest goes beside this one again
		newest.ID, newest.Beside, newest.Awaits, newest.At = "", revision, "", offered.At
		offered.Beside, offered.At = "", offered.At+1
		_, err := tx.AppendFile(newest)
		if err == nil {
			_, err = tx.AppendFile(offered)
		}
		return err
	case slices.Contains(offered.Settles, newest.Revision):
		offered.Beside = ""
		_, err := tx.AppendFile(offered)
		return err
	case offered.Beside != "":
		return in.putBeside(tx, offered, newest)
	case newest.Revision == offered.Base, merge.Holds(offered.Text, newest.Text) && !merge.Holds(newest.Text, offered.Text):
		_, err := tx.AppendFile(offered)
		return err
	case merge.Holds(newest.Text, offered.Text):
		return in.keepEarlier(tx, offered, newest)
	}
	return in.merge(tx, offered, newest)
}

// takeImport takes a file of a folder. It was made from the one that the last import
// brought: where only the folder or only the app has changed it, that change is taken.
func (in *intake) takeImport(tx *store.Tx, offered, newest store.File) error {
	revision := dinner.Revision(offered.Text)
	last, err := tx.Imported(offered.Name)
	if err != nil {
		return err
	}
	switch {
	case newest.Name == "":
		_, err = tx.AppendFile(offered)
	case revision == newest.Revision, revision == last:
		in.beside, err = tx.Waits(offered.Name, revision) // nothing new in the folder
	default:
		err = in.takeChanged(tx, offered, newest, last)
	}
	if err != nil {
		return err
	}
	return tx.SetImported(offered.Name, revision)
}

// takeChanged takes a file of a folder that is not the one that the last import brought.
func (in *intake) takeChanged(tx *store.Tx, offered, newest store.File, last string) (err error) {
	revision := dinner.Revision(offered.Text)
	offered.Base, err = nearest(tx, offered.Name, offered.Base, last, revision)
	switch {
	case err != nil:
		return err
	case offered.Base == revision: // a text that the app had after the last import, and may have changed since
		in.beside, err = tx.Waits(offered.Name, revision)
		return err
	case offered.Base == newest.Revision:
		_, err = tx.AppendFile(offered)
		return err
	case offered.Base == "":
		return in.putBeside(tx, offered, newest)
	}
	return in.merge(tx, offered, newest)
}

// nearest returns the one of several revisions of a file that came last, "" when the
// store has none of them.
func nearest(tx *store.Tx, name string, revisions ...string) (nearest string, err error) {
	var newest uint64
	for _, revision := range revisions {
		seq, err := tx.SeqOf(name, revision)
		if err != nil {
			return "", err
		}
		if seq > newest {
			nearest, newest = revision, seq
		}
	}
	return nearest, nil
}

// merge adds an offer that was not made from the newest text. The offer itself
// becomes a revision, because a dinner may have pinned it; the merged text follows
// it and becomes the newest. Where both changed the same lines, the offer is put beside
// the newest.
func (in *intake) merge(tx *store.Tx, offered, newest store.File) error {
	waits, err := tx.Waits(offered.Name, offered.Base)
	if err != nil {
		return err
	}
	if waits { // an edit of the text beside the newest takes its place
		offered.Settles = []string{offered.Base}
		return in.putBeside(tx, offered, newest)
	}
	text, ok, err := in.join(tx, offered, newest)
	if err != nil {
		return err
	}
	if !ok {
		return in.putBeside(tx, offered, newest)
	}
	if text == newest.Text {
		return in.keepEarlier(tx, offered, newest)
	}
	if _, err := tx.AppendFile(offered); err != nil {
		return err
	}
	in.merged = append(in.merged, offered.Name)
	if text == offered.Text { // the offer has everything; it stays the newest
		return nil
	}
	_, err = tx.AppendFile(store.File{Name: offered.Name, Base: newest.Revision, Text: text, Device: in.device(), At: offered.At + 1})
	return err
}

// putBeside adds an offer beside the newest revision, for somebody to choose.
func (in *intake) putBeside(tx *store.Tx, offered, newest store.File) error {
	in.beside = true
	if offered.Beside == "" {
		offered.Beside = newest.Revision
	}
	return in.keepEarlier(tx, offered, newest)
}

// union returns the words of both lists, each once.
func union(a, b []string) []string {
	all := slices.Concat(a, b)
	slices.Sort(all)
	return slices.Compact(all)
}

// keepEarlier adds an offer and the newest text once more, which stays the newest.
func (in *intake) keepEarlier(tx *store.Tx, offered, newest store.File) error {
	if _, err := tx.AppendFile(offered); err != nil {
		return err
	}
	_, err := tx.AppendFile(store.File{Name: newest.Name, Base: newest.Base, Text: newest.Text, Device: in.device(), At: offered.At + 1, Awaits: newest.Awaits, Settles: newest.Settles})
	return err
}
