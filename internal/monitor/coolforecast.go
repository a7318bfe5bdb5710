package monitor

import (
	"math"
	"strings"

	"hobside/internal/safety"
)

// A Curve is a cooling forecast at one moment, in °C.
type Curve struct {
	At    int64   `json:"at"`
	Slow  float64 `json:"slow"`
	Mid   float64 `json:"mid"`
	Quick float64 `json:"quick"`
}

// A Mark is one corner of a cooling limit in the drawing: the temperature to
// reach, and by when.
type Mark struct {
	At   int64   `json:"at"`
	C    float64 `json:"c"`
	Text string  `json:"text"`
}

// A Way is another way to cool it, and what it would give.
type Way struct {
	Text  string   `json:"text"`
	Meets bool     `json:"meets"`
	Lines []string `json:"lines"`
}

// vessel returns how the food cools: what a cook has noted, and what the
// card tells for the rest. Said is true when a note could be read; wrong tells of
// one that could not.
func (w *watching) vessel() (v safety.Vessel, said bool, wrong error) {
	base := safety.VesselOf(w.card.Title, w.step.EquipmentNames(), w.step.Sentence(), w.batchMass(), w.class)
	if base.Class == safety.NotKnown {
		base.Class = safety.Cooked // and said so, in forecast
	}
	if in := w.step.Vessel; in.Name != "" {
		lengths := safety.Vessel{DepthM: in.DepthM, AcrossM: in.AcrossM, LengthM: in.LengthM, WidthM: in.WidthM}
		base = base.PouredInto(lengths, in.Litres, w.card.Vessels(w.index, w.factor))
	}
	if stage, ok := w.card.StageBefore(w.index); ok {
		base.FromC, base.HasFrom = w.card.Steps[stage].Cool.ToC, true
	}
	for _, n := range w.state.Notes {
		if n.On != w.key || !strings.HasPrefix(strings.ToLower(n.Text), safety.PourWord) {
			continue
		}
		note, err := safety.ParseVessel(n.Text)
		wrong = err
		if err == nil {
			v, said = note, true // the newest that can be read
		}
	}
	return v.Over(base), said, wrong
}

// forecast returns how the cooling will go, by the readings where there are two.
// It is nil where there is no basis; the reason is then among the lines.
func (w *watching) forecast() *safety.Forecast {
	v := w.out
	vessel, said, wrong := w.vessel()
	if wrong != nil {
		w.line(None, "The note on how it cools: "+wrong.Error(), safety.Source{})
	}
	v.Vessel, v.Said = vessel.String(), said
	if len(w.counted) > 0 {
		vessel.FromC, vessel.HasFrom = w.counted[0].TempC, true
	}
	f, err := vessel.Forecast()
	if err != nil {
		w.line(None, "No forecast: "+err.Error(), safety.Source{})
		return nil
	}
	if vessel.Class == safety.Cooked && !said {
		f.Assumed = append([]string{"its name says nothing of what it is: taken as cooked food"}, f.Assumed...)
	}
	if len(w.counted) > 1 {
		if err := f.Measure(w.counted); err != nil {
			w.line(None, "The readings don't fit the forecast, which goes on without them: "+err.Error(), safety.Source{})
		}
	}
	v.Assumed = f.Assumed
	return f
}

// draw adds the forecast's curve, and where its limits lie.
func (w *watching) draw(f *safety.Forecast, limits []safety.Limit) {
	end := 120.0
	for _, l := range limits {
		if l.HasSpan || l.HasTo {
			end = math.Max(end, l.Minutes*1.1)
		}
	}
	if n := len(w.counted); n > 0 {
		end = math.Max(end, w.counted[n-1].Minute*1.05)
	}
	const points = 40
	for i := range points + 1 {
		m := end * float64(i) / points
		slow, mid, quick := f.At(m)
		w.out.Curve = append(w.out.Curve, Curve{At: w.moment(m), Slow: tenth(slow), Mid: tenth(mid), Quick: tenth(quick)})
	}
	for _, l := range limits {
		if !l.HasSpan && !l.HasTo {
			continue
		}
		begun := 0.0
		if l.HasSpan {
			begun = f.Cools(l.FromC).Mid
		}
		if !math.IsInf(begun, 1) {
			w.out.Marks = append(w.out.Marks, Mark{At: w.moment(begun + l.Minutes), C: l.ToC, Text: w.limit(l)})
		}
	}
}

// tenth rounds to a tenth of a degree.
func tenth(c float64) float64 { return math.Round(c*10) / 10 }

// quicker adds what would cool it more quickly from now on, compared with the time
// that each limit has left.
func (w *watching) quicker(f *safety.Forecast, limits []safety.Limit, measured []safety.Stage) {
	vessel, _, _ := w.vessel()
	vessel.FromC, vessel.HasFrom = f.FromC, true
	left := append([]safety.Limit{}, limits...)
	if n := len(w.counted); n > 0 {
		vessel.FromC = w.counted[n-1].TempC
		left = left[:0]
		for i, l := range limits {
			switch measured[i].State {
			case safety.Running:
				l.Minutes = measured[i].Left
				left = append(left, l)
			case safety.NotBegun:
				left = append(left, l)
			}
		}
	}
	g, err := vessel.Forecast()
	if err != nil || len(left) == 0 {
		return
	}
	for _, way := range g.Better(left) {
		v := Way{Text: way.Words, Meets: way.Meets, Lines: []string{}}
		for _, s := range way.Stages {
			if s.State != safety.NotJudged {
				v.Lines = append(v.Lines, "to "+safety.Celsius(s.Limit.ToC)+" in "+s.Took.String()+", "+safety.Span(s.Limit.Minutes)+" left")
			}
		}
		w.out.Ways = append(w.out.Ways, v)
	}
}
