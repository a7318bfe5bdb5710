package plan

import (
	"fmt"
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/plan/rcpsp"
)

// explain adds the reason why the problem is infeasible.
func (p *project) explain(b *Blocked, m mirrored, why *rcpsp.InfeasibleError) {
	switch {
	case len(why.Cycle) > 0:
		p.explainLags(b, m, why.Cycle)
	case why.Unplaceable != nil && why.Unplaceable.Activity < len(p.acts):
		p.about(b, why.Unplaceable.Activity)
		p.explainUnplaceable(b, why.Unplaceable)
	case why.Overload != nil:
		p.explainOverload(b, m, why.Overload)
	case why.Disjunction != nil:
		p.explainDisjunction(b, why.Disjunction)
	}
}

// explainLags explains a cycle of lags: more time must pass than may.
func (p *project) explainLags(b *Blocked, m mirrored, lags []rcpsp.Lag) {
	tooLong := 0
	var limits []string
	var passes []Step
	var first []string      // what must be done before a step begins: an oven heats up
	inRing := 0             // lags of steps that only wait for others
	kept := map[Step]bool{} // their own length is in the sum twice and cancels out
	for _, l := range lags {
		if was, ok := m.back[[2]int{l.From, l.To}]; ok && was.why.kind == keeps {
			kept[was.why.step] = true
		}
	}
	for _, l := range lags {
		tooLong += l.Min
		switch {
		case l.From == rcpsp.Origin && l.To < len(p.acts):
			p.about(b, l.To)
			a := &p.acts[l.To]
			if a.held {
				limits = append(limits, p.name(p.tasks[a.task].Step)+" began "+p.clock(a.start))
			} else if a.course > 0 {
				limits = append(limits, p.courseName(a.course)+" goes out "+p.clock(p.due[a.course-1]))
			}
		case l.To == rcpsp.Origin && l.From < len(p.acts):
			p.about(b, l.From)
			a := &p.acts[l.From]
			switch {
			case a.held:
			case a.course > 0 && a.lo > m.from:
				step := p.tasks[a.task].Step
				b.waits = append(b.waits, longerWait{hold: hold{a.hi - a.lo, "pass", a.usual}, step: step, name: p.name(step)})
				limits = append(limits, p.name(step)+" is past its best in "+document.FormatSeconds((a.hi-a.lo)*bySeconds)+byDefault(a.usual))
			default:
				limits = append(limits, "nothing can start before "+p.clock(max(a.lo, m.from)))
				step := p.tasks[a.task].Step
				passes = append(passes, step)
			}
		default:
			was, ok := m.back[[2]int{l.From, l.To}]
			if !ok {
				continue
			}
			if !slices.Contains(b.Steps, was.why.step) {
				b.Steps = append(b.Steps, was.why.step)
			}
			if from := &p.acts[was.from]; was.why.kind == attached && from.heats && was.min > 0 {
				first = append(first, p.before(from))
			}
			switch was.why.kind {
			case keeps:
				w := was.why
				if w.place != heldAtHeat || w.step != p.tasks[p.acts[was.from].task].Step { // not its own loads
					b.waits = append(b.waits, longerWait{hold: hold{w.extra, w.place, w.usual}, step: w.step, name: p.name(w.step)})
				}
				limits = append(limits, p.name(was.why.step)+" may wait "+waits(was.why.extra, was.why.place)+" at most"+byDefault(was.why.usual))
			case ordered:
				inRing++
				fallthrough
			case follows:
				if took := p.took(was.why.step); took > 0 && !kept[was.why.step] {
					passes = append(passes, was.why.step)
				}
			}
		}
	}
	if inRing > 0 && len(limits) == 0 {
		b.Because = append(b.Because, p.ring(b.Steps))
		return
	}
	for i := range b.waits {
		b.waits[i].over = max(1, tooLong)
	}
	slices.Reverse(passes)
	passes = slices.Compact(passes)
	text := strings.Join(limits, ", and ")
	if text == "" {
		text = "the times contradict each other"
	}
	if len(passes) > 0 {
		text += "; but " + strings.Join(append([]string{p.together(passes)}, first...), ", ")
	}
	b.Because = append(b.Because, fmt.Sprintf("%s: %s too long", text, document.FormatSeconds(max(1, tooLong)*bySeconds)))
}

// ring says which steps wait for each other.
func (p *project) ring(steps []Step) string {
	var names []string
	for _, s := range steps {
		names = append(names, p.name(s))
	}
	return "these steps wait for each other, by “before” and “after” on their cards: " + strings.Join(names, "; ")
}

// together returns, in words, how long consecutive steps take: each of a few, or
// the total of many.
func (p *project) together(steps []Step) string {
	const few = 4
	var each []string
	sum := 0
	for _, s := range steps {
		took := p.took(s)
		sum += took
		each = append(each, p.name(s)+" takes "+document.FormatSeconds(took*bySeconds))
	}
	if len(steps) <= few {
		return strings.Join(each, ", ")
	}
	return fmt.Sprintf("the %d steps from %s to %s take %s", len(steps), p.name(steps[0]), p.name(steps[len(steps)-1]), document.FormatSeconds(sum*bySeconds))
}

// took returns how long a step takes, in minutes.
func (p *project) took(s Step) int {
	sp, ok := p.spans[s]
	if !ok {
		return 0
	}
	sum := sp.tail
	for _, a := range p.acts[sp.first : sp.last+1] {
		if !a.heats { // heating up lies between the loads in the list, and before them in time
			sum += a.dur
		}
	}
	return sum
}

// before says what must be done before a step begins, and how long that takes.
func (p *project) before(a *act) string {
	took := document.FormatSeconds(a.dur * bySeconds)
	for _, n := range a.needs {
		pool := p.pools[max(0, n.Resource-firstEquipment)]
		if n.Resource >= firstEquipment && !pool.state {
			return "the " + pool.name + " takes " + took + " to heat up first" + byDefault(a.usual)
		}
	}
	return "the bench is cleared for " + took + " first" + byDefault(true)
}

// byDefault is added to a time that nobody wrote, so that no reason blames an author for
// a default.
func byDefault(usual bool) string {
	if usual {
		return " (a default: the files give none)"
	}
	return ""
}

// waits writes how long something may wait, and where.
func waits(minutes int, place string) string {
	switch {
	case place == heldAtHeat:
		return "not at all (straight on)"
	case minutes < 0:
		return "no time"
	case place == "" || place == "pass":
		return document.FormatSeconds(minutes * bySeconds)
	}
	return document.FormatSeconds(minutes*bySeconds) + " " + place
}

func (p *project) explainUnplaceable(b *Blocked, why *rcpsp.Unplaceable) {
	a := &p.acts[why.Activity]
	name, length := p.name(p.tasks[a.task].Step), document.FormatSeconds(a.dur*bySeconds)
	longest := 0
	for _, s := range p.open {
		longest = max(longest, s.to-s.from)
	}
	by := p.latestEnd(why.Activity)
	there := name + " needs somebody at it for " + length
	if a.heats {
		there = "what " + name + " goes into takes " + length + " to heat up"
	} else if why.Resource == presence {
		there = name + " is over heat for " + length + " and may not be left alone"
	}
	switch {
	case why.Resource <= presence && a.dur > longest:
		b.Because = append(b.Because, fmt.Sprintf("%s, and the kitchen is open for %s at most without a pause", there, document.FormatSeconds(longest*bySeconds)))
	case why.Resource <= presence && by-a.dur < p.open[0].from:
		b.Because = append(b.Because, fmt.Sprintf("%s, up to %s at the latest, and the kitchen first opens %s", there, p.clock(by), p.clock(p.open[0].from)))
	case why.Resource <= presence && by-a.dur < p.from:
		b.Because = append(b.Because, fmt.Sprintf("%s, up to %s at the latest, and it is %s", there, p.clock(by), p.clock(p.from)))
	case why.Resource <= presence:
		b.Because = append(b.Because, fmt.Sprintf("%s, up to %s at the latest, and in the time there is for it the kitchen is not open for so long", there, p.clock(by)))
	default:
		pool := p.pools[why.Resource-firstEquipment]
		b.Short = append(b.Short, pool.name)
		b.Because = append(b.Because, fmt.Sprintf("%s needs the %s for %s, and it is never free for so long in the time there is", name, pool.name, length))
	}
}

// latestEnd returns the latest end of an activity by lags and serving times.
func (p *project) latestEnd(i int) int { return p.latestStarts()[i] + p.acts[i].dur }

// latestStarts returns the latest start of each activity by lags and serving times.
func (p *project) latestStarts() []int {
	hi := make([]int, len(p.acts))
	for k := range p.acts {
		hi[k] = min(p.acts[k].hi, p.end-p.acts[k].dur)
		if p.acts[k].held {
			hi[k] = p.acts[k].start
		}
	}
	for range p.acts { // more rounds than any chain is long
		again := false
		for _, l := range p.lags {
			if t := hi[l.to] - l.min; t < hi[l.from] && !p.acts[l.from].held {
				hi[l.from], again = t, true
			}
		}
		if !again {
			break
		}
	}
	return hi
}

func (p *project) explainOverload(b *Blocked, m mirrored, why *rcpsp.Overload) {
	what, list := p.short(b, why.Resource, why.Activities)
	b.Because = append(b.Because, fmt.Sprintf("between %s and %s these take %s of the %s, where there are %s: %s",
		p.clock(m.end-why.To), p.clock(m.end-why.From), document.FormatSeconds(why.Required*bySeconds), what, document.FormatSeconds(why.Available*bySeconds), list))
}

func (p *project) explainDisjunction(b *Blocked, why *rcpsp.Disjunction) {
	what, list := p.short(b, why.Resource, []int{why.First, why.Second})
	b.Because = append(b.Because, fmt.Sprintf("%s cannot have the %s at one time, and neither can wait for the other", list, what))
}

// short records that a resource is not enough for some activities. It returns the
// resource's name and the names of up to five steps.
func (p *project) short(b *Blocked, resource int, activities []int) (what, list string) {
	var names []string
	for _, i := range activities {
		if i < len(p.acts) {
			p.about(b, i)
			if n := p.name(p.tasks[p.acts[i].task].Step); !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	what = "cooks"
	if resource >= firstEquipment {
		what = p.pools[resource-firstEquipment].name
	}
	b.Short = append(b.Short, what)
	list = strings.Join(names[:min(5, len(names))], "; ")
	if len(names) > 5 {
		list += fmt.Sprintf("; and %d more", len(names)-5)
	}
	return what, list
}
