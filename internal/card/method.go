package card

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// methodState is the parser's position in the method.
type methodState struct {
	number int  // of the last step
	common int  // of the last step before the ways
	most   int  // the highest number of any way
	way    int  // the way being read, 0 outside
	then   bool // the ways have ended
	noTime []noTime
}

// noTime is a step whose own list gives no time.
type noTime struct{ step, at int }

// methodHeading reads a heading within the method: "Way: finish at the pass",
// "Then". Any other heading is for the reader only.
func (p *parser) methodHeading(words string, at int) {
	m := &p.method
	low := strings.ToLower(words)
	switch {
	case low == "then" || low == "then:":
		if m.way == 0 {
			p.Warn(at, `"Then" with no way above it`, "", `begin a way with "### Way: " and its name`)
			return
		}
		m.most = max(m.most, m.number)
		m.way, m.then, m.number = 0, true, m.most
	case low == "way" || strings.HasPrefix(low, "way:") || strings.HasPrefix(low, "way "):
		name := strings.TrimSpace(strings.TrimLeft(words[3:], " :"))
		if name == "" {
			p.Err(at, "a way without a name", "", `write what is done: "### Way: finish at the pass"`)
			name = "way " + strconv.Itoa(len(p.card.Ways)+1)
		}
		if m.then {
			p.Err(at, "a second run of ways; a card has one", "", "make a card of its own for it")
			return
		}
		if m.way == 0 {
			m.common = m.number
		}
		m.most = max(m.most, m.number)
		if !p.room(len(p.card.Ways), maxWays, "ways", at) {
			return
		}
		p.card.Ways = append(p.card.Ways, Way{Name: name, Pos: p.Place(at)})
		m.way, m.number = len(p.card.Ways), m.common
	}
}

// methodBlock reads one block of the method.
func (p *parser) methodBlock(n ast.Node) {
	l, ok := n.(*ast.List)
	if !ok {
		p.betweenSteps(n)
		return
	}
	if !l.IsOrdered() && len(p.card.Steps) > 0 && p.looksLikeFacts(l) {
		// The facts have too little indent: with one space less, CommonMark ends
		// the numbered list. On the page that looks the same.
		p.facts(len(p.card.Steps)-1, l)
		return
	}
	p.steps(l)
}

// betweenSteps reads a block that is no list: words for the reader, and problems for
// what is meant as a fact or as a step.
func (p *parser) betweenSteps(n ast.Node) {
	if n.Kind() != ast.KindParagraph && n.Kind() != ast.KindCodeBlock || p.misplaced(n, 0) {
		return
	}
	words, at := p.Lines(n)
	if l, ok := n.NextSibling().(*ast.List); ok && !l.IsOrdered() && p.looksLikeFacts(l) {
		p.unnumbered = true
		p.Err(at, `"`+document.Clip(words)+`" is read as words, not as a step`, "", `begin a step with its number: "4. "`)
		return
	}
	if label, rest, ok := stepLabel(words); ok {
		p.unnumbered = true
		p.Err(at, `"`+label+`" is read as words, not as a step`, "", `number the steps as a list: "`+strings.TrimSpace(label[len("step "):])+`. `+document.Clip(rest)+`"`)
	}
}

// stepLabel cuts "Step 1" off the front of a line. ok is false for other lines.
func stepLabel(s string) (label, rest string, ok bool) {
	if !document.HasPrefixFold(s, "step ") {
		return "", "", false
	}
	end := len("step ")
	for end < len(s) && document.IsDigit(s[end]) {
		end++
	}
	return s[:end], strings.TrimLeft(s[end:], " :.–—-)"), end > len("step ") && end < len(s)
}

func (p *parser) looksLikeFacts(l *ast.List) bool {
	item := l.FirstChild()
	if item == nil {
		return false
	}
	f, ok := p.ItemFact(item)
	if !ok {
		return false
	}
	word := f.Word
	if word == "" {
		word = strings.ToLower(f.Value)
	}
	return p.knows(word) || f.Word != "" && document.Nearest(f.Word, factWords) != ""
}

func (p *parser) steps(l *ast.List) {
	if p.card.Steps == nil { // most cards have one list, and steps are large to move
		p.card.Steps = make([]Step, 0, min(l.ChildCount(), maxSteps))
	}
	for item := l.FirstChild(); item != nil; item = item.NextSibling() {
		if !p.room(len(p.card.Steps), maxSteps, "steps", item.Pos()) {
			return
		}
		p.method.number++
		p.step(item)
	}
}

func (p *parser) step(item ast.Node) {
	at := item.Pos()
	if first := item.FirstChild(); first != nil && first.Lines().Len() > 0 {
		at = first.Lines().At(0).Start
	}
	p.card.Steps = append(p.card.Steps, Step{Number: p.method.number, Way: p.method.way, Pos: p.Place(at)})
	i := len(p.card.Steps) - 1
	w := runs{step: i, out: p.runs[:0], plain: p.words[:0]}
	faults := len(p.Problems)
	for n := item.FirstChild(); n != nil; n = n.NextSibling() {
		if l, ok := n.(*ast.List); ok && !l.IsOrdered() {
			w.remarks = append(w.remarks, p.facts(i, l)...)
			continue
		}
		if l, ok := n.(*ast.List); ok && p.innerSteps(l, p.method.number) {
			continue
		}
		skip := 0
		if n == item.FirstChild() {
			skip = 1 // the step's own first line
		}
		p.misplaced(n, skip)
		p.block(&w, n)
	}
	for _, r := range w.remarks {
		w.space()
		w.plain = append(w.plain, r...)
	}
	s := &p.card.Steps[i]
	s.Text = w.done()
	p.runs, p.words = w.out, w.plain // the next step uses their memory
	if len(s.Text) == 0 {
		p.Err(at, "step "+strconv.Itoa(s.Number)+" has no words", "", "write what to do, above its facts")
	}
	if s.Hands.IsZero() && s.Wait.IsZero() && len(p.Problems) == faults {
		p.method.noTime = append(p.method.noTime, noTime{i, at})
	}
}

// runs collects the words of a step.
type runs struct {
	step    int
	out     []Run
	plain   []byte
	remarks []string
}

func (w *runs) flush() {
	if len(w.plain) > 0 {
		w.out = append(w.out, Run{Text: document.Valid(string(w.plain))})
		w.plain = w.plain[:0]
	}
}

// space adds a space between what is there and what follows.
func (w *runs) space() {
	if n := len(w.plain); n > 0 && w.plain[n-1] != ' ' || n == 0 && len(w.out) > 0 {
		w.plain = append(w.plain, ' ')
	}
}

func (w *runs) done() []Run {
	w.flush()
	if n := len(w.out); n > 0 && w.out[n-1].Item == 0 && !w.out[n-1].Strong {
		w.out[n-1].Text = strings.TrimRight(w.out[n-1].Text, " ")
		if w.out[n-1].Text == "" {
			w.out = w.out[:n-1]
		}
	}
	return slices.Clone(w.out)
}

// block adds the words of a block, or of the blocks within it.
func (p *parser) block(w *runs, n ast.Node) {
	c := n.FirstChild()
	switch {
	case n.Kind() == ast.KindHTMLBlock:
		return
	case c == nil && n.Type() == ast.TypeBlock: // a code block
		if words, at := p.Lines(n); at >= 0 {
			w.space()
			w.plain = append(w.plain, words...)
		}
		return
	case c != nil && c.Type() == ast.TypeBlock:
		for ; c != nil; c = c.NextSibling() {
			p.block(w, c)
		}
		return
	}
	w.space()
	p.inline(w, n)
}

// openStars adds a problem for a star that is left in the words: the bold of an item
// that is not closed.
func (p *parser) openStars(t *ast.Text) {
	at := t.Segment.Start
	words := p.Body()[at:t.Segment.Stop]
	if i := bytes.IndexByte(words, '*'); i >= 0 && (i == 0 || words[i-1] != '\\') && (at+i == 0 || p.Body()[at+i-1] != '\\') {
		p.oddStars(at + i)
	}
}

// oddStars adds the problem of stars that make nothing bold.
func (p *parser) oddStars(at int) {
	p.Warn(at, `a "*" that is not closed`, "", `write two before and two behind the item: "**butter**"`)
}

// inline adds the pieces of a line; a bold one becomes a run of its own, to be
// matched with the formula.
func (p *parser) inline(w *runs, n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			p.openStars(c)
			w.plain = append(w.plain, p.Plain(c)...)
			if c.SoftLineBreak() || c.HardLineBreak() {
				w.space()
			}
		case *ast.Emphasis:
			words, at := p.Text(c)
			if c.Level < 2 || at < 0 {
				if outer, ok := n.(*ast.Emphasis); ok && outer.Level == 1 && at >= 0 {
					p.oddStars(at)
				}
				p.inline(w, c)
				continue
			}
			w.flush()
			b := bold{step: w.step, run: len(w.out), at: at, words: words}
			if l := document.LinkIn(c); l != nil {
				b.card, b.save, _ = document.Target(l)
			}
			p.bolds = append(p.bolds, b)
			w.out = append(w.out, Run{Text: document.Valid(words), Strong: true})
		case *ast.AutoLink:
			w.plain = append(w.plain, c.Label(p.Body())...)
		case *ast.RawHTML:
		default:
			p.inline(w, c)
		}
	}
}
