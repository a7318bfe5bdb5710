package document

import (
	"math"
	"strconv"
	"strings"

	"hobside/internal/quantity"
)

// A Vessel is a pot, a tin or a tray with its size, as a card or a kitchen gives it.
type Vessel struct {
	Name    string  // "pot", "tray"
	Count   int     // how many; 0 when not said
	Litres  float64 // what one holds: its volume, or its floor by how deep it is filled
	LengthM float64 // of a tray, with WidthM; 0 when not said
	WidthM  float64
	AcrossM float64 // of a round one; 0 when not said
	DepthM  float64 // how deep it is filled; 0 when not said
	Words   string  // the size as typed, without the count
}

// vesselNames are the words for vessels.
var vesselNames = [...]string{"pot", "pan", "tin", "tray", "tub", "bowl", "dish", "mould", "bucket"}

// FindVessel returns the name of a vessel by its word, also in the plural: "trays" is a tray.
func FindVessel(word string) (name string, ok bool) {
	for _, n := range vesselNames {
		if word == n || word == n+"s" || word == n+"es" {
			return n, true
		}
	}
	return "", false
}

// SaysSize reports whether a value has a figure with a unit behind it: "12 L", "20 × 30 cm".
func SaysSize(value string) bool {
	digit := false
	for _, r := range strings.ToLower(value) {
		switch {
		case r >= '0' && r <= '9':
			digit = true
		case digit && r != ' ' && r != '.' && r != ',':
			return true
		case r == ',':
			digit = false
		}
	}
	return false
}

// Plausible sizes of what stands in a kitchen: our own bounds, to catch slips of units.
const (
	leastLength, mostLength = 0.005, 2
	leastLitres, mostLitres = 0.01, 500
)

// Vessel reads a vessel: "12 L", "20 × 30 cm, 2 cm deep", "24 cm across, 6 cm deep", with
// how many there are before it: "2, 12 L". Every part is understood or has a problem, and
// ok is then false.
func (f *File) Vessel(name string, fact Fact) (v Vessel, ok bool) {
	v, ok = Vessel{Name: name}, true
	var words []string
	fact.Split(func(part string, at int) {
		if n, err := strconv.Atoi(part); err == nil && v.Count == 0 && n >= 1 && n <= 99 {
			v.Count = n
			return
		}
		words = append(words, Valid(part))
		if !v.length(part) && !f.litres(&v, part) {
			ok = false
			f.Err(at, name+`: "`+Clip(part)+`" is not a size`, "", vesselDo(name))
		}
	})
	v.Words = strings.Join(words, ", ")
	if !ok {
		return v, false
	}
	floor := v.LengthM * v.WidthM
	if v.AcrossM > 0 {
		floor = v.AcrossM * v.AcrossM * math.Pi / 4
	}
	if v.Litres == 0 {
		v.Litres = floor * v.DepthM * 1000
	}
	switch {
	case v.Litres == 0:
		f.Err(fact.ValueAt, name+`: "`+Clip(fact.Value)+`" does not say how much it holds`, "", vesselDo(name))
		return v, false
	case v.Litres < leastLitres || v.Litres > mostLitres:
		f.Err(fact.ValueAt, name+`: "`+Clip(fact.Value)+`" is not the size of one in a kitchen`, "", "check the figures and their units")
		return v, false
	}
	return v, true
}

// vesselDo says how to write the size of a vessel.
func vesselDo(name string) string {
	return `write it like "` + name + `: 12 L", "` + name + `: 20 × 30 cm, 2 cm deep" or "` + name + `: 24 cm across, 6 cm deep"`
}

// litres reads a volume into a vessel that has none.
func (f *File) litres(v *Vessel, part string) bool {
	a, rest, err := f.Measures.ParseAmount(part)
	litre, _ := quantity.LookupUnit("L")
	if err != nil || rest != "" || a.Unit == nil || v.Litres > 0 {
		return false
	}
	n, ok := quantity.Convert(a.Need(), a.Unit, litre)
	v.Litres = n.Float64()
	return ok
}

// length reads "20 × 30 cm", "24 cm across" or "2 cm deep" into a vessel that does not have
// that length yet.
func (v *Vessel) length(part string) bool {
	low := strings.NewReplacer("×", " x ", " by ", " x ").Replace(strings.ToLower(part))
	words := strings.Fields(spaced(low))
	switch {
	case len(words) == 3 && words[2] == "deep" && v.DepthM == 0:
		return metres(words[0], words[1], &v.DepthM)
	case len(words) == 3 && words[2] == "across" && v.AcrossM == 0 && v.LengthM == 0:
		return metres(words[0], words[1], &v.AcrossM)
	case len(words) == 4 && words[1] == "x" && v.AcrossM == 0 && v.LengthM == 0:
		return metres(words[0], words[3], &v.LengthM) && metres(words[2], words[3], &v.WidthM)
	}
	return false
}

// spaced puts a space between a figure and the letters around it: "20x30cm" is "20 x 30 cm".
func spaced(s string) string {
	var out strings.Builder
	var before rune
	for _, r := range s {
		figure := func(r rune) bool { return r >= '0' && r <= '9' || r == '.' || r == ',' }
		if before != 0 && before != ' ' && r != ' ' && figure(before) != figure(r) {
			out.WriteByte(' ')
		}
		out.WriteRune(r)
		before = r
	}
	return out.String()
}

// metres reads a length in mm, cm, m or inches, and reports whether it is one.
func metres(figure, unit string, into *float64) bool {
	one, ok := map[string]float64{"mm": 0.001, "cm": 0.01, "m": 1, "in": 0.0254, "inch": 0.0254, "inches": 0.0254}[unit]
	n, err := strconv.ParseFloat(strings.Replace(figure, ",", ".", 1), 64)
	if *into = n * one; !ok || err != nil || *into < leastLength || *into > mostLength {
		*into = 0
		return false
	}
	return true
}
