package safety

import (
	"fmt"
	"slices"
	"strings"
)

// PourWord begins a note that says how something cools:
// "cooling: 4 kg stock, thin, 12 cm deep, 30 cm across, in an ice bath".
const PourWord = "cooling:"

// placeWords are the words for each place, the longer first.
var placeWords = []struct{ words, place string }{
	{"stirred ice bath", "stirred ice bath"}, {"ice bath", "ice bath"}, {"iced water", "ice bath"}, {"ice water", "ice bath"}, {"ice", "ice bath"},
	{"blast chiller", "blast"}, {"blast", "blast"}, {"fridge", "fridge"}, {"refrigerator", "fridge"}, {"cold room", "fridge"}, {"bench", "bench"}, {"room", "bench"},
}

// vesselNouns are words for what food stands in. They say nothing by themselves: a
// sentence with one must give a length.
const vesselNouns = "tray, trays, pot, pan, tub, bucket, dish, container"

// ParseVessel reads what a cook says about something that cools, in any order, with or
// without commas between: a mass ("4 kg"), a depth ("6 cm deep"), a width ("30 cm
// across", "53 × 33 cm"), "a roll" or "a ball", "thin" or "thick", where ("in the
// fridge at 4 °C", "ice bath"), "from 85 °C", and what it is ("stock"). Lengths may be
// mm, cm, m or in; temperatures °C or °F. A figure that can be read in two ways ("2,000 g")
// is an error that shows both. Every word is understood or the whole is an
// error that says what to write.
func ParseVessel(text string) (Vessel, error) {
	text = strings.TrimSpace(text)
	if len(text) > len(PourWord) && strings.EqualFold(text[:len(PourWord)], PourWord) {
		text = text[len(PourWord):]
	}
	if err := inDoubt(text); err != nil {
		return Vessel{}, err
	}
	p := vesselParser{}
	for part := range strings.SplitSeq(points(text), ",") {
		part = strings.ToLower(strings.TrimSpace(part))
		if part == "" {
			continue
		}
		p.part, p.rest = part, vesselTokens(part)
		for len(p.rest) > 0 {
			if err := p.next(); err != nil {
				return Vessel{}, err
			}
		}
	}
	if err := p.finish(); err != nil {
		return Vessel{}, err
	}
	return p.v, nil
}

// A vesselParser reads one sentence about a vessel, part by part.
type vesselParser struct {
	v       Vessel
	part    string   // the part between two commas, for errors
	rest    []string // its tokens that are not read yet
	noun    string   // the tray or pot that was named
	stirred bool     // "stirred" was said
}

// next reads the phrase at the head of the rest.
func (p *vesselParser) next() error {
	t := p.rest[0]
	switch {
	case t == "from":
		return p.from()
	case isFigure(t):
		return p.measure()
	case t == "and" && len(p.rest) > 1:
		p.rest = p.rest[1:]
		return nil
	case t == "at" && p.take("at room temperature"):
		return p.in("bench", "bench")
	case t == "at":
		return fmt.Errorf("%q: is that how warm it is at the start? say from 85 °C", p.part)
	case (t == "of" || t == "as") && len(p.rest) > 1:
		p.rest = p.rest[1:]
		return p.food()
	case p.take("thin"), p.take("clear"):
		return p.fluid(true)
	case p.take("thick"):
		return p.fluid(false)
	case p.take("a roll"), p.take("roll"):
		p.v.Roll = true
		return nil
	case p.take("a ball"), p.take("ball"):
		p.v.Ball = true
		return nil
	case t == "stirred" && !p.at("stirred ice bath"):
		p.rest, p.stirred = p.rest[1:], true
		return nil
	}
	return p.where()
}

// at reports whether the rest begins with words.
func (p *vesselParser) at(words string) bool {
	w := strings.Fields(words)
	return len(p.rest) >= len(w) && slices.Equal(p.rest[:len(w)], w)
}

// take reads words where the rest begins with them.
func (p *vesselParser) take(words string) bool {
	if !p.at(words) {
		return false
	}
	p.rest = p.rest[len(strings.Fields(words)):]
	return true
}

// twice returns the error of a thing that is said two times.
func (p *vesselParser) twice(what string) error {
	return fmt.Errorf("%q: %s is said twice: say it once, for one vessel at a time", p.part, what)
}

// fluid reads "thin" or "thick".
func (p *vesselParser) fluid(thin bool) error {
	if p.v.Thin && !thin || p.v.Thick && thin {
		return fmt.Errorf("%q: thin or thick? say one of them", p.part)
	}
	p.v.Thin, p.v.Thick = thin, !thin
	return nil
}

// from reads "from 85 °C".
func (p *vesselParser) from() error {
	p.rest = p.rest[1:]
	c, _, ok := p.degrees()
	if !ok {
		return fmt.Errorf("%q: write it like from 85 °C", p.part)
	}
	if p.v.HasFrom {
		return p.twice("how warm it is")
	}
	p.v.FromC, p.v.HasFrom = c, true
	return nil
}

// where reads a place or a vessel behind "in" or "on", else a food.
func (p *vesselParser) where() error {
	rest := p.rest
	if slices.Contains([]string{"in", "on", "over"}, rest[0]) {
		rest = rest[1:]
		if len(rest) > 0 && slices.Contains([]string{"a", "an", "the"}, rest[0]) {
			rest = rest[1:]
		}
	}
	behind := len(rest) < len(p.rest)
	for _, place := range placeWords {
		w := strings.Fields(place.words)
		if len(rest) >= len(w) && slices.Equal(rest[:len(w)], w) {
			p.rest = rest[len(w):]
			return p.in(place.words, place.place)
		}
	}
	switch {
	case len(rest) > 0 && hasAny(rest[:1], vesselNouns):
		p.noun, p.rest = rest[0], rest[1:]
		return nil
	case behind && len(rest) > 0 && isFigure(rest[0]): // "in a 53 × 33 cm tray"
		p.rest = rest
		return nil
	case behind:
		return p.unknown(p.part)
	}
	return p.food()
}

// in records a place, with its temperature where one follows.
func (p *vesselParser) in(words, place string) error {
	if p.v.Place != "" && p.v.Place != place {
		return p.twice("where it cools")
	}
	p.v.Place = place
	if !p.at("at") {
		return nil
	}
	if len(p.rest) == 1 {
		return p.unknown(p.part)
	}
	p.rest = p.rest[1:]
	c, unit, ok := p.degrees()
	switch {
	case !ok:
		return fmt.Errorf("%q: write it like %s at 4 °C", p.part, words)
	case !unit && place != "bench" && c >= 30 && c <= 80:
		return fmt.Errorf("%q: %s, or %.4g °F, which is %s? write the unit", p.part, Celsius(c), c, Celsius(FromF(c)))
	}
	p.v.PlaceC, p.v.HasPlace = c, true
	return nil
}

// finish checks the sentence as a whole.
func (p *vesselParser) finish() error {
	v := &p.v
	if p.stirred {
		if v.Place != "ice bath" && v.Place != "stirred ice bath" {
			return fmt.Errorf(`"stirred" is read of an ice bath alone: say in a stirred ice bath, or leave it out`)
		}
		v.Place = "stirred ice bath"
	}
	switch {
	case v.Roll && v.Ball:
		return fmt.Errorf("a roll or a ball? say one of them")
	case (v.Roll || v.Ball) && (v.DepthM > 0 || v.LengthM > 0):
		return fmt.Errorf("a roll or a ball has its thickness alone: say 9 cm across, and leave the other lengths out")
	}
	if p.noun != "" && v.DepthM == 0 && v.AcrossM == 0 && v.LengthM == 0 {
		return fmt.Errorf("%q: how wide, how deep? say 30 cm across, 53 × 33 cm or 6 cm deep", p.noun)
	}
	return nil
}

// unknown returns the error of words that are not understood.
func (p *vesselParser) unknown(words string) error {
	return fmt.Errorf("%q is not understood: say what it is (stock, rice, meat), 4 kg, 6 cm deep, 30 cm across, thin, in an ice bath, from 85 °C", words)
}
