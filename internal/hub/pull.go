package hub

import (
	"errors"
	"slices"
	"strconv"

	"hobside/internal/store"
)

// pull adds the records that follow the phone's cursor to the reply, up to a number of
// bytes.
func (h *Hub) pull(tx *store.Tx, req Request, bytes int, reply *Reply) {
	h.mu.Lock()
	end := h.at.Seq
	h.mu.Unlock()
	after, err := strconv.ParseUint(req.After, 10, 64)
	if req.After == "" {
		after, err = 0, nil
	}
	// A cursor of another epoch is not valid here. A data file that was copied back by
	// hand keeps its epoch: there a cursor beyond the end is of a longer log, and one with
	// another chain is of a log that went on in another way.
	chain, ok := tx.Chain(after)
	ok = ok && (after == 0 || req.Chain == nil || *req.Chain == chain.String())
	if sure := req.Sure; sure != nil && sure.Epoch == reply.Epoch {
		chain, known := tx.Chain(sure.Seq)
		ok = ok && known && sure.Seq <= end && sure.Chain == chain.String()
	}
	if req.Epoch != reply.Epoch && (req.Epoch != "" || after != 0) || err != nil || after > end || !ok {
		reply.Reset, after = true, 0
	}
	page := h.since(tx, after, bytes)
	next, _ := tx.Chain(page.Next)
	for _, r := range page.Records {
		if r.Event != nil {
			reply.Events = append(reply.Events, *r.Event)
		} else {
			reply.Files = append(reply.Files, fileRecord(*r.File))
		}
	}
	reply.Next, reply.Chain = strconv.FormatUint(page.Next, 10), next.String()
	reply.More, reply.Damaged = page.More, page.Damaged
	if page.More {
		last, _ := tx.Chain(tx.Seq())
		reply.End = &Position{Epoch: reply.Epoch, Seq: tx.Seq(), Chain: last.String()}
	}
}

// since returns a page of the log, from memory where that has it.
func (h *Hub) since(tx *store.Tx, after uint64, bytes int) store.Page {
	h.mu.Lock()
	records, ok := h.tail.since(after, bytes)
	h.mu.Unlock()
	if ok {
		return store.Page{Records: records, Next: after + uint64(len(records))}
	}
	return tx.Since(after, MaxRecords, bytes)
}

// heads returns the newest revision of each offered file. An offer may have brought
// nothing new, and the phone may have read past the newest revision while its own edit
// was waiting: no later page would bring it that revision. A damaged revision is left
// out; the page that has it names it. Where a revision does not fit into the reply, its
// offers are not acknowledged, so that the phone sends them again.
func (h *Hub) heads(tx *store.Tx, in *intake, reply *Reply) (heads []FileRecord, err error) {
	fits := map[string]bool{} // by name
	for _, o := range in.offers {
		fit, done := fits[o.Name]
		if !done {
			fit = true
			f, err := newestOf(tx, o.Name)
			switch {
			case f.Name == "" && err == nil, errors.Is(err, store.ErrDamaged):
			case err != nil:
				return nil, err
			default:
				if fit = in.space.take(fileSize(f)); fit {
					heads = append(heads, fileRecord(f))
				}
			}
			fits[o.Name] = fit
		}
		if !fit {
			reply.Acked = slices.DeleteFunc(reply.Acked, func(id string) bool { return id == o.ID })
		}
	}
	return heads, nil
}

// newestOf returns the newest record of a file, the zero File when there is none.
func newestOf(tx *store.Tx, name string) (store.File, error) {
	head, err := tx.Head(name)
	if head == "" || err != nil {
		return store.File{}, err
	}
	return tx.File(name, head)
}

// fileRecord returns a stored file in its form on the wire.
func fileRecord(f store.File) FileRecord {
	return FileRecord{Name: f.Name, Revision: f.Revision, Base: f.Base, Text: f.Text, Device: f.Device, At: f.At, Clash: f.Clash, Beside: f.Beside, Awaits: f.Awaits, Settles: f.Settles}
}
