package engine

import "strings"

// controlsCSV writes a log down, RFC 4180: a row an entry, and one for a control
// point where nobody has written anything. Written here and not with
// encoding/csv, which brings a buffered writer to every phone.
func controlsCSV(v *ControlsView) string {
	var b strings.Builder
	row := func(cells ...string) {
		for i, c := range cells {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(cell(c))
		}
		b.WriteString("\r\n")
	}
	row("time", "who", "card", "batch", "step", "control point", "written", "taken back", "asked about", "limits as they stand", "state", "still to write")
	for _, p := range v.Points {
		var limits []string
		for _, l := range p.Limits {
			text := l.Text
			if l.Source != "" {
				text += " [" + l.Source + "]"
			}
			limits = append(limits, text)
		}
		all := strings.Join(limits, "; ")
		if len(p.Entries) == 0 {
			row("", "", p.Title, p.Batch, itoa(p.Number), p.What, "", "", "", all, p.State, p.Say)
		}
		for _, en := range p.Entries {
			row(en.Time, en.Who, p.Title, p.Batch, itoa(p.Number), p.What, en.Text, en.Back, en.Doubt, all, p.State, p.Say)
		}
	}
	return b.String()
}

// cell quotes where it must. What a spreadsheet would take for a formula is
// made words: a note may come from anybody's phone.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		s = "'" + s
	}
	if strings.ContainsAny(s, ",\"\r\n") {
		return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}
