package card

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// An Action is what is done when a limit is not met: "core 75 °C: back in the oven; read
// it again every 10 minutes".
type Action struct {
	Limit string // the limit or the step, as typed: "core 75 °C", "cool", "step 4"
	Do    string // what is done
}

// String returns the action as an author types it.
func (a Action) String() string { return a.Limit + ": " + a.Do }

// CorrectiveAt returns what the card says to do when a limit of a step is not met, by the
// step's index in Steps; "" where it says nothing. A line that names the step counts
// before one that names a limit.
func (c *Card) CorrectiveAt(step int) string {
	s := &c.Steps[step]
	var byStep, byLimit []string
	for _, a := range c.Actions {
		if n, _, ok := cutStepColon(a.Limit + ":"); ok {
			if n == s.Number {
				byStep = append(byStep, a.Do)
			}
			continue
		}
		if slices.ContainsFunc(s.limits(), func(l string) bool { return names(a.Limit, l) }) {
			byLimit = append(byLimit, a.Do)
		}
	}
	if len(byStep) > 0 {
		byLimit = byStep
	}
	return strings.Join(byLimit, " ")
}

// limits returns the limits of a step in words: "check core 75 °C", "cool 8 °C within 1 h".
func (s *Step) limits() []string {
	var out []string
	for _, c := range s.Check {
		words := "check " + c.Words
		if c.OfFood() {
			words += " core"
		}
		out = append(out, words)
	}
	if s.Cool.Set {
		words := "cool " + celsius(s.Cool.ToC)
		if s.Cool.Within > 0 {
			words += " within " + document.FormatSeconds(s.Cool.Within)
		}
		out = append(out, words)
	}
	if s.Until.HasCore {
		out = append(out, "until core "+celsius(s.Until.CoreC))
	}
	return out
}

// names reports whether what an author typed names a limit: each of its words is in the
// limit's, in either case.
func names(typed, limit string) bool {
	in := strings.Fields(strings.ToLower(limit))
	said := strings.Fields(strings.ToLower(strings.ReplaceAll(typed, ",", " ")))
	for _, w := range said {
		if w == "cooling" || w == "chill" {
			w = "cool"
		}
		if !slices.Contains([]string{"to", "at", "least", "a", "the"}, w) && !slices.Contains(in, w) {
			return false
		}
	}
	return len(said) > 0
}

// correctiveBlock reads one block below "## Corrective action".
func (p *parser) correctiveBlock(n ast.Node) {
	p.eachItem(n, func(_ ast.Node, words string, at int) {
		if !p.room(len(p.card.Actions), maxLines, "corrective actions", at) {
			return
		}
		limit, do, ok := strings.Cut(words, ":")
		if rest, isCool := document.CutAny(strings.ToLower(limit), "cool", "check"); ok && isCool && strings.TrimSpace(rest) == "" && len(strings.Fields(do)) > 0 {
			// the fact as the step has it: "check: core 75 °C: back in the oven"
			if value, more, again := strings.Cut(do, ":"); again && strings.ContainsAny(value, "0123456789") {
				limit, do = limit+" "+strings.TrimSpace(value), more
			}
		}
		a := Action{Limit: p.remedy(limit), Do: p.remedy(do)}
		if !ok || a.Limit == "" || a.Do == "" {
			p.Err(at, `"`+document.Clip(words)+`" does not say what is done at which limit`, "", `write it like "core 75 °C: back in the oven, read it again every 10 minutes"`)
			return
		}
		p.unscaled(a.Do, at)
		p.lines = append(p.lines, line{section: corrective, index: len(p.card.Actions), word: a.Limit, at: at})
		p.card.Actions = append(p.card.Actions, a)
	})
}

// resolveLines checks the steps and the limits that faults and corrective actions name,
// and that no limit is without an action where the card has the section.
func (p *parser) resolveLines() {
	for _, l := range p.lines {
		n, _, isStep := cutStepColon(l.word + ":")
		at := slices.IndexFunc(p.card.Steps, func(s Step) bool { return s.Number == n })
		limited := slices.ContainsFunc(p.card.Steps, func(s Step) bool {
			return (!isStep || s.Number == n) && slices.ContainsFunc(s.limits(), func(limit string) bool { return isStep || names(l.word, limit) })
		})
		switch {
		case isStep && at < 0:
			p.Err(l.at, "there is no "+stepWords(n), "", "name a step by its number in the method")
		case l.section == corrective && isStep && !limited:
			p.Err(l.at, stepWords(n)+" has no limit", "", `add it there as "check: core 75 °C" or "cool: 5 °C within 6 h"`)
		case l.section == corrective && !limited:
			p.Err(l.at, `no step has the limit "`+document.Clip(l.word)+`"`, "", `write the limit as the step does, or "step 4: …"`)
		}
	}
	if !p.seen[corrective] {
		return
	}
	for i, s := range p.card.Steps {
		if len(s.limits()) > 0 && p.card.CorrectiveAt(i) == "" {
			p.Warn(p.correctiveAt, "nothing says what is done when the limit of "+stepWords(s.Number)+" is not met", "", `add a line "`+stepWords(s.Number)+`: …"`)
		}
	}
}
