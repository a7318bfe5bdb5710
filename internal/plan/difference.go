package plan

// A Move is a step that starts at another time than the cooks know.
type Move struct {
	Step     Step
	Was, Now int
	New      bool // was not in the plan they know
}

// newsworthy is by how many minutes a step must move for anybody to be told.
const newsworthy = 3

// Moves lists what differs from the starts the cooks know, in the order of the
// plan. What is begun or done is no news.
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

// Starts are the plan's own starts, for others to know.
func (p *Plan) Starts() map[Step]int {
	out := make(map[Step]int, len(p.Tasks))
	for _, t := range p.Tasks {
		if t.Load <= 1 {
			out[t.Step] = t.Start
		}
	}
	return out
}
