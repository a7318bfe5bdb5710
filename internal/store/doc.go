// Package store keeps what the house knows on disk: one log of records, in one
// bbolt file. A record is an event of a dinner or a revision of a file.
//
// Enter by [Open]; read with [Store.View], write with [Store.Update]. When
// Update returns nil, what was written is on disk; when it returns an error,
// nothing of it is. Writes that come together share one transaction, so two
// hundred phones do not each wait for a disk of their own.
//
// A record's place in the log is its sequence number, which is also the cursor
// phones read by. The epoch names this run of numbers: a new data file has a
// new one and so has a backup, because after either a phone's cursor means
// nothing.
//
// What must be true of a record is for the hub to say; this room stores what it
// is given, and notices when the disk gives something else back. It may import
// dinner and nothing above it.
//
// Buckets:
//
//	meta       "format", "epoch", "newest" (the latest final stamp)
//	log        sequence number (8 bytes, big endian) -> checksum and JSON of a record
//	byid       id of an event or of a file's offer -> sequence number
//	heads      file name -> its newest revision
//	revisions  file name, NUL, revision -> sequence number of its newest record
//	bases      file name, NUL, revision that another was made from -> nothing
//	texts      revision -> text
//	devices    SHA-256 of a device's secret -> JSON of a [Device]
package store
