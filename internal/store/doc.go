// Package store keeps everything the kitchen writes on disk: one log of records
// in one bbolt file. A record is an event of a dinner or a revision of a file.
//
// Enter by [Open]. Read with [Store.View], write with [Store.Update], and learn
// of what was written with [Store.Follow]. When Update returns nil, what was
// written is on disk; when it returns an error, nothing of it is. Writes that
// arrive together share one transaction, so that two hundred phones do not each
// wait for a disk sync of their own.
//
// A record's sequence number is its place in the log, and the cursor by which
// phones read. The epoch identifies one run of sequence numbers: a new data file
// has a new one, and so has a backup, because a phone's cursor is not valid in
// either.
//
// The hub decides which records are valid. This package stores what it is given
// and reports when the disk returns something else. It may import dinner and
// nothing above it.
//
// Every record carries a hash that is chained over the log, the [Chain]. A phone
// compares the one at its cursor, and so notices a data file that went back in time
// and was written to since. A log shorter than the cursor it notices by the number.
//
// Nothing that the disk changed is returned: a record and an entry of an index have a
// checksum over key and value, and a text is compared with its revision. Errors of a
// damaged file wrap [ErrDamaged], and [Store.Damage] keeps the first.
//
// Buckets:
//
//	meta       "format" as text; "epoch", "newest" (the latest final stamp), sealed
//	log        sequence number (8 bytes, big endian) -> checksum, chain and JSON of a record
//	texts      revision -> text, or its difference from another text; see delta.go
//
// and those whose values are sealed, see seal.go:
//
//	byid       "e/" and the id of an event, or "f/" and the id of an offered file -> sequence number
//	heads      file name -> its newest revision
//	revisions  file name, NUL, revision -> sequence number of its newest record
//	bases      file name, NUL, revision that another was made from -> nothing
//	imports    file name -> the revision that the last import brought
//	devices    SHA-256 of a device's secret -> JSON of a [Device]
//	volumes    id of a device -> how many bytes it has written
package store
