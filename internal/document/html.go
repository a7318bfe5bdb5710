package document

import "bytes"

// HTML renders Markdown as HTML: a menu, a kitchen, a card's notes. Front
// matter, raw HTML and links that run a script are left out.
func HTML(src []byte) string {
	f := &File{src: src[:min(len(src), MaxBytes)]}
	f.readFront()
	if _, what, _ := tooMuch(f.body); what != "" {
		return "<p>This can't be shown: " + what + ".</p>"
	}
	var out bytes.Buffer
	if err := markdown.Convert(f.body, &out); err != nil {
		return "<p>This can't be shown.</p>" // never for a bytes.Buffer: goldmark returns only the writer's errors
	}
	return out.String()
}
