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
// Buckets:
//
//	meta       "format", "epoch", "newest" (the latest final stamp)
//	log        sequence number (8 bytes, big endian) -> checksum and JSON of a record
//	byid       id of an event or of an offered file -> sequence number
//	heads      file name -> its newest revision
//	revisions  file name, NUL, revision -> sequence number of its newest record
//	bases      file name, NUL, revision that another was made from -> nothing
//	texts      revision -> text
//	devices    SHA-256 of a device's secret -> JSON of a [Device]
package store
