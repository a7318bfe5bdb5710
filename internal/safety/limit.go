package safety

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"
)

// Rules is a rule set, as a kitchen file names it.
type Rules string

// The rule sets. Elsewhere holds rows of other codes, for comparison only.
const (
	US        Rules = "us" // FDA Food Code as states adopt it, and USDA FSIS guidance
	UK        Rules = "uk" // UK and EU law, and the advice of the Food Standards Agency
	Elsewhere Rules = "elsewhere"
)

// Kind is what a limit is about.
type Kind string

// The kinds of limit.
const (
	CookTo        Kind = "cook"
	HomeCook      Kind = "cook at home"
	RoastOven     Kind = "oven for a roast"
	FreezeRaw     Kind = "freeze fish served raw"
	Reheat        Kind = "re-heat"
	Cool          Kind = "cool"
	HoldHot       Kind = "hold hot"
	HoldCold      Kind = "hold cold"
	HoldTotal     Kind = "hold in all"
	Thaw          Kind = "thaw"
	DateMark      Kind = "date mark"
	TimeOnly      Kind = "time only"
	ReducedOxygen Kind = "reduced oxygen pack"
	FryOil        Kind = "frying oil"
)

// Bound says on which side of the value food must be.
type Bound string

// The two sides. A row without a bound is a case the code names, without a number.
const (
	AtLeast Bound = "at least"
	AtMost  Bound = "at most"
)

// Limit is one row of a code: what it asks for, of which food, and its source.
type Limit struct {
	ID      string  // its key, which never changes: "fc_poultry_2017"
	Rules   Rules   // the rule set it belongs to
	Kind    Kind    // what it is about
	Case    string  // the food or the case in the code's words, shortened
	Classes []Class // the classes it is for; none: whatever the case says
	Bound   Bound   // on which side; in rows with HasTo or HasSpan it bounds the time

	HasTemp bool // TempC counts
	TempC   float64
	HasTime bool // Minutes counts, or AtOnce
	Minutes float64
	AtOnce  bool // no holding time is asked ("instantaneous")
	Stand   bool // the time is for standing after heating, not for holding at the temperature

	HasSpan bool    // the time runs from FromC to ToC
	FromC   float64 // counts with HasSpan
	HasTo   bool    // the time runs until ToC, from any start
	ToC     float64 // counts with HasSpan or HasTo

	Old    bool // from an earlier edition; shown for comparison only
	Advice bool // advice, not law
	Source Source
	Note   string
}

// All returns every row of every rule set, in a fixed order, as a new slice.
func All() []Limit {
	return slices.Concat(limitsUS, limitsRoast(), limitsUK, limitsElsewhere)
}

// For returns the rows of a rule set of one kind that apply to a class: those written
// for the class, then those for every class. Older editions are left out.
func For(rules Rules, kind Kind, class Class) []Limit {
	var own, any []Limit
	for _, l := range All() {
		switch {
		case l.Rules != rules || l.Kind != kind || l.Old:
		case slices.Contains(l.Classes, class):
			own = append(own, l)
		case len(l.Classes) == 0:
			any = append(any, l)
		}
	}
	return append(own, any...)
}

// Cook returns what a rule set asks of the core of raw food of a class, the lowest
// temperature first. Each row is enough by itself: a lower temperature held longer is
// as good as a higher one. Rows for microwave ovens, for surfaces and for the
// temperature of the oven are left out; see [For].
func Cook(rules Rules, class Class) []Limit {
	var out []Limit
	for _, l := range For(rules, CookTo, class) {
		if len(l.Classes) > 0 && l.HasTemp && l.HasTime && !l.Stand {
			out = append(out, l)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].TempC < out[j].TempC })
	return out
}

// String returns the limit as it is shown, without its source:
// "at least 74 °C", "at least 68 °C for 17 s", "from 57 °C to 21 °C in at most 2 h".
func (l Limit) String() string { return l.write(Celsius) }

// write writes the limit with its temperatures as degrees writes them.
func (l Limit) write(degrees func(float64) string) string {
	switch {
	case l.HasSpan:
		return fmt.Sprintf("from %s to %s in %s %s", degrees(l.FromC), degrees(l.ToC), l.Bound, Span(l.Minutes))
	case l.HasTo:
		return fmt.Sprintf("to %s in %s %s", degrees(l.ToC), l.Bound, Span(l.Minutes))
	case l.HasTemp:
		out := string(l.Bound) + " " + degrees(l.TempC)
		switch {
		case l.AtOnce:
			out += ", at once"
		case l.HasTime && l.Stand:
			out += ", then " + Span(l.Minutes) + " standing"
		case l.HasTime:
			out += " for " + Span(l.Minutes)
		}
		return out
	case l.HasTime:
		return string(l.Bound) + " " + Span(l.Minutes)
	}
	return l.Case
}

// Celsius returns a temperature as text, to a tenth at most: "63 °C", "−20 °C".
func Celsius(c float64) string {
	s := strconv.FormatFloat(math.Round(c*10)/10, 'f', -1, 64)
	if s == "-0" {
		s = "0"
	}
	return strings.Replace(s, "-", "−", 1) + " °C"
}

// Span returns a time in minutes as a cook says it: "15 s", "2 min", "1 h 30 min", "7 days".
func Span(minutes float64) string {
	s := int64(math.Round(minutes * 60))
	switch {
	case s < 60:
		return fmt.Sprintf("%d s", s)
	case s < 10*60 && s%60 != 0:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	case s >= 2*86400 && s%86400 == 0:
		return fmt.Sprintf("%d days", s/86400)
	}
	m := (s + 30) / 60
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	if m%60 == 0 {
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}
