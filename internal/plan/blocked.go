package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hobside/internal/plan/rcpsp"
)

// Blocked is the error for a dinner that has no plan.
type Blocked struct {
	Because []string // the reasons, the simplest first
	Steps   []Step   // the steps concerned
	Lacking []string // equipment that the kitchen has none or too little of
	Short   []string // equipment, or "cooks", that is not enough at some time

	large    bool         // the dinner has more work than a plan can have
	waits    []longerWait // results that do not wait long enough
	always   bool         // no slack and no sharing of work would change it
	unshared bool         // no sharing of work would change it
}

// A longerWait is a result that would have to wait longer than it may.
type longerWait struct {
	hold
	step Step
	name string
	over int // minutes more
}

// Error returns the first reason.
func (b *Blocked) Error() string {
	if len(b.Because) == 0 {
		return "no plan was found"
	}
	return b.Because[0]
}

// blocked puts the solver's reason in words.
func (p *project) blocked(m mirrored, rep rcpsp.Report, err error) error {
	var why *rcpsp.InfeasibleError
	b := &Blocked{unshared: p.unshared(err)}
	switch {
	case errors.As(err, &why):
		p.explain(b, m, why)
	case !errors.Is(err, rcpsp.ErrNotFound):
		return fmt.Errorf("the plan could not be worked out: %w", err)
	}
	if len(b.Because) > 0 {
		return b
	}
	if x := p.peak(m, rep.Conflicting); x != nil {
		p.explainPeak(b, x, why != nil)
	}
	p.inTheWay(b, rep.Conflicting)
	return b
}

// inTheWay adds the steps that were most often in the way and what they use. If there is no
// reason yet, it names these steps as the reason.
func (p *project) inTheWay(b *Blocked, conflicting []int) {
	for _, i := range conflicting {
		if i < len(p.acts) {
			p.about(b, i)
		}
	}
	if len(b.Because) == 0 {
		text := "the steps do not fit beside each other in the kitchen's hours, with its cooks and its equipment"
		var names []string
		for _, s := range b.Steps {
			names = append(names, p.name(s))
		}
		if len(names) > 0 {
			text += "; most often in the way: " + strings.Join(names[:min(4, len(names))], "; ")
		}
		b.Because = append(b.Because, text)
	}
	for _, pool := range p.pools {
		if slices.ContainsFunc(conflicting, func(i int) bool { return i < len(p.acts) && p.takes(i, pool.name) }) {
			b.Short = append(b.Short, pool.name)
		}
	}
	b.Short = append(b.Short, "cooks")
}

// takes reports whether an activity uses some equipment.
func (p *project) takes(i int, equipment string) bool {
	return slices.ContainsFunc(p.acts[i].needs, func(n rcpsp.Need) bool {
		return n.Resource >= firstEquipment && p.pools[n.Resource-firstEquipment].name == equipment
	})
}

// about adds the step of an activity.
func (p *project) about(b *Blocked, i int) {
	if s := p.tasks[p.acts[i].task].Step; !slices.Contains(b.Steps, s) {
		b.Steps = append(b.Steps, s)
	}
}

// courseName returns the menu's name of a course, which counts from 1.
func (p *project) courseName(i int) string {
	if name := p.courses[i-1]; name != "" {
		return name
	}
	return fmt.Sprintf("course %d", i)
}

// name returns a step as a cook calls it: "Pressed lamb, step 4".
func (p *project) name(s Step) string {
	comp := p.demand.ByCard[s.Card]
	if comp == nil || s.Step > len(comp.Card.Steps) {
		return s.Card
	}
	text := comp.Card.Title
	if len(comp.Batches) > 1 {
		text += fmt.Sprintf(", batch %d", s.Batch)
	}
	return text + fmt.Sprintf(", step %d", comp.Card.Steps[s.Step-1].Number)
}

// clock returns the weekday and time of day of a minute.
func (p *project) clock(t int) string {
	w := p.ax.reading(t)
	return w.Weekday().String() + " " + w.Clock()
}
