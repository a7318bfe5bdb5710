package card

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// A Fault is what commonly goes wrong, and what rescues it: "step 3: lumps: rub it
// through a sieve".
type Fault struct {
	Step   int    // number of the step as the card shows it; 0: any of its steps
	Words  string // what is wrong
	Rescue string // what to do about it
}

// String returns the fault as an author types it.
func (f Fault) String() string {
	words := f.Words
	if f.Step > 0 {
		words = stepWords(f.Step) + ": " + words
	}
	if f.Rescue != "" {
		words += ": " + f.Rescue
	}
	return words
}

func stepWords(n int) string { return "step " + strconv.Itoa(n) }

// FaultsAt returns the faults of a step, by its index in Steps: those that name it, then
// those that name none.
func (c *Card) FaultsAt(step int) []Fault {
	var out, whole []Fault
	for _, f := range c.Faults {
		switch f.Step {
		case c.Steps[step].Number:
			out = append(out, f)
		case 0:
			whole = append(whole, f)
		}
	}
	return append(out, whole...)
}

// line is a line of "## Faults" or "## Corrective action" that names a step or a limit.
type line struct {
	section section
	index   int    // in Card.Faults or Card.Actions
	word    string // the step or the limit, as typed
	at      int
}

// faultsBlock reads one block below "## Faults".
func (p *parser) faultsBlock(n ast.Node) {
	p.eachItem(n, func(_ ast.Node, words string, at int) {
		if !p.room(len(p.card.Faults), maxLines, "faults", at) {
			return
		}
		var f Fault
		if n, rest, ok := cutStepColon(words); ok {
			f.Step = n
			p.lines = append(p.lines, line{section: faults, index: len(p.card.Faults), word: stepWords(n), at: at})
			words = rest
		}
		fault, rescue, _ := strings.Cut(words, ":")
		f.Words, f.Rescue = p.remedy(fault), p.remedy(rescue)
		switch {
		case f.Words == "":
			p.Err(at, "a line that names no fault", "", `write it like "lumps: rub it through a sieve"`)
			return
		case f.Rescue == "":
			p.Warn(at, `"`+document.Clip(f.Words)+`" has nothing that rescues it`, "", `write after a colon what to do: "lumps: rub it through a sieve"`)
		}
		p.unscaled(f.Rescue, at)
		p.card.Faults = append(p.card.Faults, f)
	})
}

// eachItem calls read for each item of a list, with its block, its words on one line and
// their offset, and adds problems for all in the block n that is no such item.
func (p *parser) eachItem(n ast.Node, read func(block ast.Node, words string, at int)) {
	if to, ok := n.(*ast.LinkReferenceDefinition); ok && strings.HasPrefix(string(to.Destination), "data:") {
		return // the picture's long text, at the end of the file
	}
	l, ok := n.(*ast.List)
	if !ok {
		p.NotRead(n)
		return
	}
	for item := l.FirstChild(); item != nil; item = item.NextSibling() {
		first := item.FirstChild()
		if first == nil {
			continue
		}
		words, at := p.Lines(first)
		if at < 0 {
			p.NotRead(item)
			continue
		}
		for i := 1; i < first.Lines().Len(); i++ {
			if s := first.Lines().At(i); p.Body()[s.Start-1] == '\n' {
				p.Err(s.Start, `"`+document.Clip(string(s.Value(p.Body())))+`" is read as a part of the line above it`, "", `begin the line with "- ", or with two spaces where it goes on`)
			}
		}
		for more := first.NextSibling(); more != nil; more = more.NextSibling() {
			p.NotRead(more)
		}
		read(first, words, at)
	}
}

// remedy returns words of a remedy without mark-up and without the space around them.
func (p *parser) remedy(s string) string {
	return p.said(document.Fact{Value: strings.TrimSpace(s)})
}

// cutStepColon cuts "step 3:" off the front of words.
func cutStepColon(words string) (n int, rest string, ok bool) {
	head, rest, ok := strings.Cut(words, ":")
	figure, is := strings.CutPrefix(strings.ToLower(strings.TrimSpace(head)), "step ")
	n, err := strconv.Atoi(strings.TrimSpace(figure))
	if !ok || !is || err != nil || n < 1 {
		return 0, words, false
	}
	return n, strings.TrimSpace(rest), true
}

// unscaled warns of a weight or a volume in a remedy: it stays the same when the amount
// grows, unless it says for how much it is.
func (p *parser) unscaled(remedy string, at int) {
	list := strings.Fields(remedy)
	for i, w := range list {
		figure := strings.TrimRight(w, "0123456789.,½¼¾–-")
		unit, next := figure, i+1 // "10g"
		if figure == "" && next < len(list) {
			unit, next = list[next], next+1
		} else if !document.IsDigit(w[0]) {
			continue
		}
		unit = strings.TrimLeft(unit, "0123456789.,½¼¾–-")
		if !isMeasure(unit) || next < len(list) && list[next] == "per" || i > 0 && list[i-1] == "per" {
			continue
		}
		p.Warn(at, `"`+strings.Trim(strings.Join(list[i:next], " "), ".,;")+`" stays the same when the amount grows`, "", `write for how much it is: "10 g per 500 g"`)
		return
	}
}
