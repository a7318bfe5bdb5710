package safety

// A ReheatRule says how often cooked and chilled food may be heated again.
type ReheatRule struct {
	Most   int
	Advice bool
	Source Source
}

// ReheatsBy returns how often a rule set lets food be re-heated; ok is false for one that
// sets no number. That the US Food Code sets none is from memory.
func ReheatsBy(rules Rules) (r ReheatRule, ok bool) {
	if rules == UK {
		return ReheatRule{Most: 1, Advice: true, Source: Source{"UK Food Standards Agency advice: re-heat food only once", "", Memory}}, true
	}
	return r, false
}
