package plan

// A Move is a step that starts at another time than in the accepted plan.
type Move struct {
	Step     Step
	Was, Now int
	New      bool // was not in the accepted plan
}

// newsworthy is by how many minutes a step must move to be listed.
const newsworthy = 3

// Moves returns what differs from the accepted starts, in the order of the plan.
// Started and done steps are left out.
func (p *Plan) Moves(known map[Step]int) []Move {
	var out []Move
	if len(known) == 0 {
		return nil
	}
	for _, t := range p.Tasks {
		if t.Held || t.Load > 1 {
			continue
		}
		was, ok := known[t.Step]
		if !ok || t.Start-was >= newsworthy || was-t.Start >= newsworthy {
			out = append(out, Move{t.Step, was, t.Start, !ok})
		}
	}
	return out
}

// Starts returns the start of every step.
func (p *Plan) Starts() map[Step]int {
	out := make(map[Step]int, len(p.Tasks))
	for _, t := range p.Tasks {
		if t.Load <= 1 {
			out[t.Step] = t.Start
		}
	}
	return out
}
