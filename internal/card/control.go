package card

import (
	"math"
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// mostCoreC is above the core of any food, in °C: no salt water boils there.
const mostCoreC = 110

// check reads a control point: its words, and its temperature where it has one.
func (p *parser) check(f document.Fact) Check {
	c := Check{Words: p.said(f)}
	c.MinC, c.HasC = p.limit(f)
	if c.OfFood() && !c.AtMost() {
		c.For = p.held(f)
	}
	first, _, _ := strings.Cut(strings.ToLower(f.Value), " ")
	meant := document.HasPrefixFold(f.Value, "core") || nearWord(first, []string{"core"}) != "" || document.IsDigit(f.Value[0])
	if !c.HasC && meant && !p.faulty(p.Place(f.ValueAt).Line) {
		p.Err(f.ValueAt, `"`+f.Value+`" gives no temperature`, "", `write it with its unit, like "check: core 74 °C"`)
	}
	return c
}

// limit reads the temperature of a control point. A core that no food gets to is an
// error that shows what the figure is in °F.
func (p *parser) limit(f document.Fact) (celsius float64, ok bool) {
	c, ok := document.Temperature(fromCore(f.Value))
	switch {
	case ok && !document.PlausibleTemperature(c):
		p.Err(f.ValueAt, `"`+f.Value+`" is not a temperature in a kitchen`, "", "check the figure and its unit")
		return 0, false
	case ok && c > mostCoreC && document.HasPrefixFold(f.Value, "core"):
		msg, do := `no core gets to `+degrees(c), "check the figure and its unit"
		if as := quantity.Celsius(c); as <= mostCoreC {
			msg += "; " + strings.TrimSuffix(degrees(c), "C") + "F is " + degrees(as)
			do = `write "core ` + degrees(as) + `" if that is meant`
		}
		p.Err(f.ValueAt, msg, "", do)
		return 0, false
	}
	return c, ok
}

// fromCore returns a text from the word "core" on where a temperature follows it, else all of
// it: of "skin 90 °C, core 74 °C" the core's is the limit.
func fromCore(s string) string {
	low := strings.ToLower(s)
	for _, word := range inside {
		if i := strings.Index(low, word); i > 0 && len(low) == len(s) {
			if _, ok := document.Temperature(s[i:]); ok {
				return s[i:]
			}
		}
	}
	return s
}

// degrees writes a temperature as a whole number: "74 °C".
func degrees(c float64) string {
	return quantity.ShowNumber(quantity.Int(int64(math.Round(c)))) + " °C"
}

// AtMost reports whether a check sets a highest temperature: it says so, or the figure
// is that of a fridge. "Core 74 °C under the wing" sets a lowest one.
func (c Check) AtMost() bool {
	if !c.HasC {
		return false
	}
	low := strings.ToLower(c.Words)
	if c.MinC <= 8 || strings.ContainsAny(low, "<≤") {
		return true
	}
	for _, anywhere := range [...]string{"at most", "or under", "or below", "or less", "maximum", "max"} {
		if _, _, ok := document.CutWord(low, anywhere); ok {
			return true
		}
	}
	for _, word := range [...]string{"under", "below", "up to", "less than", "more than", "above", "over", "hotter than", "exceed", "exceeding"} {
		before, after, ok := document.CutWord(low, word)
		after = strings.TrimPrefix(strings.TrimSpace(after), "core ")
		if !ok || !document.BeginsWithAmount(after) {
			continue
		}
		highest := word == "under" || word == "below" || word == "up to" || word == "less than"
		for _, not := range [...]string{"no", "not", "never", "don't"} { // "not above 74 °C" is a highest one
			if _, _, ok := document.CutWord(before, not); ok {
				highest = !highest
				break
			}
		}
		if highest {
			return true
		}
	}
	return false
}

// Words of a check. The temperature is that of the food's inside with one of inside, and not
// with one of notFood, nor with one of outside before the figure.
var (
	inside  = []string{"core", "internal", "thickest"}
	notFood = []string{"oil", "fat", "oven", "fryer", "water", "bath", "fridge", "freezer", "air", "pan", "surface", "room", "syrup", "sugar"}
	outside = []string{"skin", "crust", "rind", "crackling", "outside", "edge", "plate", "tray", "cupboard", "grill", "griddle", "stone", "steam", "kettle", "trolley", "dish"}
)

// OfFood reports whether a check's temperature is that of the food's inside, as it is unless
// the check names something else: "check: oil 180 °C", "check: skin 74 °C".
func (c Check) OfFood() bool {
	if !c.HasC {
		return false
	}
	has := func(text string, list []string) bool {
		return slices.ContainsFunc(words(text), func(w string) bool { return slices.Contains(list, w) })
	}
	before := c.Words[:max(0, strings.IndexAny(c.Words, "0123456789"))]
	return has(c.Words, inside) || !has(c.Words, notFood) && !has(before, outside)
}

// A CoreLimit is a core temperature that a step asks for.
type CoreLimit struct {
	C   float64 // in °C
	For int     // how long it is held there, in seconds; 0: not said
}

// CoreLimits returns the core temperatures that a step asks for, by its sign of done and
// its checks.
func (s *Step) CoreLimits() []CoreLimit {
	var out []CoreLimit
	if s.Until.HasCore {
		out = append(out, CoreLimit{s.Until.CoreC, s.Until.CoreFor})
	}
	for _, c := range s.Check {
		if c.OfFood() && !c.AtMost() {
			out = append(out, CoreLimit{c.MinC, c.For})
		}
	}
	return out
}

// cool reads "5 °C within 6 h".
func (p *parser) cool(f document.Fact) Cool {
	c, ok := p.limit(f)
	if !ok {
		if !p.faulty(p.Place(f.ValueAt).Line) {
			p.Err(f.ValueAt, `"`+f.Value+`" gives no temperature`, "", `write it like "cool: 5 °C within 6 h"`)
		}
		return Cool{}
	}
	if c == 39 || c == 41 || c == 70 { // 4, 5 and 21 °C, as probes and codes in °F have them
		as := quantity.Celsius(c)
		p.Warn(f.ValueAt, "cooled to "+degrees(c)+" only; "+strings.TrimSuffix(degrees(c), "C")+"F is "+degrees(as), "", `write "cool: `+degrees(as)+` within 6 h" if that is meant`)
	}
	out := Cool{ToC: c, Set: true}
	low := strings.ToLower(f.Value)
	_, after, found := document.CutWord(low, "within")
	if !found {
		if _, after, found = document.CutWord(low, "in"); !found {
			if strings.ContainsAny(strings.TrimLeft(low, "0123456789.,-–−½ °c"), "0123456789") {
				p.Err(f.ValueAt, `"`+f.Value+`" is not understood whole`, "", `write it like "cool: 5 °C within 6 h"`)
			}
			return out
		}
	}
	_, longest, rest, _ := document.CutTime(after)
	out.Within = longest
	switch rest = strings.TrimSpace(rest); {
	case out.Within == 0:
		p.Err(f.ValueAt, `"`+f.Value+`" gives no time`, "", `write it like "cool: 5 °C within 6 h"`)
	case rest != "":
		p.Err(f.ValueAt, `"`+document.Clip(rest)+`" behind the time is not read`, "", `write "cool: 5 °C within 6 h" and put the rest in the words of the step`)
	}
	return out
}
