package card

import "strconv"

// Bounds on what one card may have. They are far above what a cook writes. Parts
// of a card are compared with each other, so that without bounds a file of some
// kilobytes could keep a phone busy for minutes.
const (
	maxItems = 500
	maxSteps = 1000
	maxSaves = 200
	maxLines = 200 // of the faults, of the corrective actions
	maxWays  = 20
)

// room reports whether a card that has n of something may have one more. The
// first one too many gets a problem at offset at; the rest is not read.
func (p *parser) room(n, most int, things string, at int) bool {
	if n < most {
		return true
	}
	if !p.crowded[things] {
		if p.crowded == nil {
			p.crowded = map[string]bool{}
		}
		p.crowded[things] = true
		p.Err(at, "the card has more than "+strconv.Itoa(most)+" "+things+"; those from here on are not read", "", "write several cards")
	}
	return false
}
