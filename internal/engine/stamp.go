package engine

import "hobside/internal/dinner"

// stamp gives events made on this device their place in time.
func stamp(in StampCall) (*StampView, error) {
	last := in.Last
	for i := range in.Events {
		last = dinner.Next(in.Now, last)
		in.Events[i].Stamp = last
	}
	return &StampView{Events: in.Events, Last: last}, nil
}

// revision names a text's revision.
func revision(in TextCall) (*RevisionView, error) {
	return &RevisionView{Revision: dinner.Revision(in.Text)}, nil
}
