package store

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"hobside/internal/dinner"
)

// Head returns the newest revision of a file, "" when there is no such file. It fails
// with [ErrDamaged] when the index has no newest revision of a file that has one.
func (tx *Tx) Head(name string) (string, error) {
	head, err := tx.get(bucketHeads, []byte(name))
	if head != nil || err != nil {
		return string(head), err
	}
	first := revisionKey(name, "")
	if k, _ := tx.tx.Bucket(bucketRevisions).Cursor().Seek(first); bytes.HasPrefix(k, first) {
		return "", tx.store.note(fmt.Errorf("%w: the newest revision of %s is missing", ErrDamaged, name))
	}
	return "", nil
}

// Has reports whether a file has a revision, as its newest or an earlier one.
func (tx *Tx) Has(name, revision string) bool {
	return tx.has(bucketRevisions, revisionKey(name, revision))
}

// IsBase reports whether some revision of a file was made from this one. This
// one itself need not be in the store.
func (tx *Tx) IsBase(name, revision string) bool {
	return tx.has(bucketBases, revisionKey(name, revision))
}

// Waits reports whether a revision of a file is beside the newest one and waits for
// somebody to choose.
func (tx *Tx) Waits(name, revision string) (bool, error) {
	if !tx.Has(name, revision) || tx.IsBase(name, revision) {
		return false, nil
	}
	f, err := tx.File(name, revision)
	return f.Beside != "", err
}

// File returns the newest record of one revision of a file. It fails when the
// file has no such revision.
func (tx *Tx) File(name, revision string) (File, error) {
	seq, err := tx.get(bucketRevisions, revisionKey(name, revision))
	if err != nil {
		return File{}, err
	}
	if seq == nil {
		return File{}, fmt.Errorf("%s has no revision %s", name, revision)
	}
	r, err := tx.record(unkey(seq))
	if err != nil {
		return File{}, err
	}
	if r.File == nil || r.File.Name != name || r.File.Revision != revision {
		return File{}, tx.store.note(fmt.Errorf("%w: record %d is not revision %s of %s", ErrDamaged, r.Seq, revision, name))
	}
	return *r.File, nil
}

// SeqOf returns the sequence number of the newest record of a revision of a file, 0 when
// the file has no such revision.
func (tx *Tx) SeqOf(name, revision string) (uint64, error) {
	seq, err := tx.get(bucketRevisions, revisionKey(name, revision))
	return unkey(seq), err
}

// Knows reports whether the text of a revision is in the store, under any file
// name.
func (tx *Tx) Knows(revision string) bool {
	return revision != "" && tx.tx.Bucket(bucketTexts).Get([]byte(revision)) != nil
}

// Text returns the text of a revision. A revision is the hash of its text: Text
// fails with [ErrDamaged] when the text is missing or has changed on the disk.
func (tx *Tx) Text(revision string) (string, error) {
	b := tx.tx.Bucket(bucketTexts).Get([]byte(revision))
	if b == nil {
		return "", fmt.Errorf("%w: the text of revision %s is missing", ErrDamaged, revision)
	}
	text, ok := tx.readText(revision, b)
	if !ok {
		return "", fmt.Errorf("%w: the text of revision %s has changed", ErrDamaged, revision)
	}
	return text, nil
}

// RepairText stores a text again where the disk has changed it. It returns whether it
// did. It does nothing when the store does not have the text.
func (tx *Tx) RepairText(text string) (repaired bool, err error) {
	revision := dinner.Revision(text)
	if !tx.Knows(revision) {
		return false, nil
	}
	if _, err := tx.Text(revision); err == nil {
		return false, nil
	}
	tx.dirty = true // whole, because other texts may be stored as differences from it
	return true, tx.tx.Bucket(bucketTexts).Put([]byte(revision), append([]byte{wholeText}, text...))
}

// AppendFile adds a revision of a file to the log and makes it the file's
// newest. It returns the file with its Revision, which it works out from the
// Text. A revision neither settles itself nor is made from itself, though a cook who
// chose a text as it is offers it so: its own name is left out of Settles, and its Base
// is that of its earlier record. It fails when the log has an offered file with this id.
func (tx *Tx) AppendFile(f File) (File, error) {
	f.Revision = dinner.Revision(f.Text)
	f.Settles = slices.DeleteFunc(slices.Clone(f.Settles), func(r string) bool { return r == f.Revision })
	if f.Base == f.Revision {
		f.Base = ""
		if tx.Has(f.Name, f.Revision) {
			earlier, err := tx.File(f.Name, f.Revision)
			if err != nil {
				return f, err
			}
			f.Base = earlier.Base
		}
	}
	if err := tx.append(Record{File: &f}); err != nil {
		return f, err
	}
	var err error
	for _, from := range append([]string{f.Base}, f.Settles...) {
		if from != "" {
			err = errors.Join(err, tx.put(bucketBases, revisionKey(f.Name, from), nil))
		}
	}
	if _, rerr := tx.RepairText(f.Text); rerr != nil {
		err = errors.Join(err, rerr)
	} else if !tx.Knows(f.Revision) {
		err = errors.Join(err, tx.tx.Bucket(bucketTexts).Put([]byte(f.Revision), tx.storeText(f)))
	}
	return f, errors.Join(err,
		tx.put(bucketHeads, []byte(f.Name), []byte(f.Revision)),
		tx.put(bucketRevisions, revisionKey(f.Name, f.Revision), key(tx.Seq())),
	)
}

// Alias notes that an offer with this id brought a revision that the file has
// already, so that FindOffer returns the revision's record. It fails when the file
// has no such revision.
func (tx *Tx) Alias(id, name, revision string) error {
	seq, err := tx.get(bucketRevisions, revisionKey(name, revision))
	if err != nil {
		return err
	}
	if seq == nil {
		return fmt.Errorf("%s has no revision %s", name, revision)
	}
	return tx.put(bucketByID, []byte(offerID+id), seq)
}

// Imported returns the revision of a file that the last import brought, "" when none
// did.
func (tx *Tx) Imported(name string) (string, error) {
	revision, err := tx.get(bucketImports, []byte(name))
	return string(revision), err
}

// SetImported notes the revision of a file that an import brought.
func (tx *Tx) SetImported(name, revision string) error {
	if was, err := tx.Imported(name); err == nil && was == revision {
		return nil
	}
	return tx.put(bucketImports, []byte(name), []byte(revision))
}

// revisionKey joins a file name and a revision with a byte that no name has.
func revisionKey(name, revision string) []byte { return []byte(name + "\x00" + revision) }
