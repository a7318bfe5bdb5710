package engine

import (
	"hobside/internal/dinner"
	"hobside/internal/menu"
)

// validate checks events from outside the phone, such as those of a backup
// file, by the server's rule.
func validate(in ValidateCall) (*ValidateView, error) {
	view := &ValidateView{Refused: []RefusedView{}}
	for _, ev := range in.Events {
		if err := dinner.Validate(ev); err != nil {
			view.Refused = append(view.Refused, RefusedView{ID: ev.ID, Why: err.Error()})
		}
	}
	return view, nil
}

// revision returns the name of a text's revision. The page asks the engine,
// because the browser's own hash is not there on a plain connection.
func revision(in TextCall) (*RevisionView, error) {
	return &RevisionView{Revision: dinner.Revision(in.Text)}, nil
}

// guestLines writes the rows of a form as the lines of an event.
func guestLines(in GuestsCall) (*GuestsView, error) {
	rows := make([]menu.GuestRow, len(in.Rows))
	for i, r := range in.Rows {
		rows[i] = menu.GuestRow(r)
	}
	return &GuestsView{Text: menu.GuestLines(rows)}, nil
}
