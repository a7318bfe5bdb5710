package monitor

import (
	"strconv"
	"strings"
)

// CSV writes the log by RFC 4180: a row for each entry, and one for a control
// point where nobody has written anything. The last column is what the card says to do where a
// limit is not met. It does not use encoding/csv, which
// would bring a buffered writer to every phone.
func (l *Log) CSV() string {
	var b strings.Builder
	row := func(cells ...string) { b.WriteString(CSVRow(cells...)) }
	row("time", "who", "card", "batch", "step", "control point", "written", "taken back", "asked about", "limits as they stand", "state", "still to write", "corrective action by the card")
	for i := range l.Points {
		p := &l.Points[i]
		var limits []string
		for _, l := range p.Limits {
			text := l.Text
			if l.Source != "" {
				text += " [" + l.Source + "]"
			}
			limits = append(limits, text)
		}
		all, number := strings.Join(limits, "; "), strconv.Itoa(p.Number)
		if len(p.Entries) == 0 {
			row("", "", p.Title, p.Batch, number, string(p.What), "", "", "", all, string(p.State), p.Say, p.Do)
		}
		for _, en := range p.Entries {
			row(en.Time, en.Who, p.Title, p.Batch, number, string(p.What), en.Text, en.Back, en.Doubt, all, string(p.State), p.Say, p.Do)
		}
	}
	return b.String()
}

// CSVRow returns one row of CSV by RFC 4180, with its line end. Every CSV that
// Hobside writes is made of such rows: no cell of theirs is a formula.
func CSVRow(cells ...string) string {
	var b strings.Builder
	for i, c := range cells {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(cell(c))
	}
	b.WriteString("\r\n")
	return b.String()
}

// cell quotes a cell where it must. A cell that a spreadsheet would take for a
// formula is made text: a note may come from anyone's phone.
func cell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		s = "'" + s
	}
	if strings.ContainsAny(s, ",\"\r\n") {
		return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}
