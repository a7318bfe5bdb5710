package engine

import (
	"errors"
	"fmt"

	"hobside/internal/document"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// FigureCall holds what a cook typed in a window that asks for one figure.
type FigureCall struct {
	Text string `json:"text"`
	Of   string `json:"of"`   // what is asked for: "amount", "count" (covers) or "temperature"
	Unit string `json:"unit"` // the unit of a text that has none: "g", "piece", "°F"; "" is pieces, and °C
}

// FigureView is what a typed figure says. It has one reading when the figure is
// understood, two when it can be read in two ways and the page must ask, and none
// when there is a problem.
type FigureView struct {
	Readings []FigureReading `json:"readings"`
	Problem  string          `json:"problem"` // what is wrong and what to type, "" when the figure is understood; with two readings, the question
}

// FigureReading is one way to read a figure, as an event holds it.
type FigureReading struct {
	Amount *quantity.Amount `json:"amount"` // of "amount", else null
	Number int              `json:"number"` // of "count", else 0
	TempC  *float64         `json:"tempC"`  // of "temperature", in °C, else null
	Shown  string           `json:"shown"`  // as a button says it: "1620 g"; of a temperature as typed
}

// figure reads what a cook typed.
func (e *Engine) figure(in FigureCall) (*FigureView, error) {
	switch in.Of {
	case "amount":
		return e.figureAmount(in), nil
	case "count":
		return figureCount(in), nil
	case "temperature":
		return figureTemperature(in), nil
	}
	return nil, fmt.Errorf("figure of %q: the page may ask for an amount, a count or a temperature", in.Of)
}

// figureAmount reads "1.4" in the window's unit, or "1.4 kg". A pint that a cook types is
// the kitchen's; the window's unit is as it is shown.
func (e *Engine) figureAmount(in FigureCall) *FigureView {
	text, measures := in.Text, e.library.Measures()
	if _, ok := document.Number(text); ok && in.Unit != "" {
		text, measures = text+" "+in.Unit, quantity.USMeasures
	}
	a, rest, err := measures.ParseAmount(text)
	v := &FigureView{}
	switch doubt, _ := err.(*quantity.AmountError); {
	case doubt != nil:
		v.doubt(in.Text, doubt)
		for _, a := range doubt.Readings {
			v.Readings = append(v.Readings, FigureReading{Amount: &a, Shown: quantity.Written(a)})
		}
	case a.Unit == nil || rest != "" || !a.To.IsZero():
		v.Problem = `"` + in.Text + `" is not an amount: type a figure, like 1.4, or a figure and a unit, like 1.4 kg`
	default:
		v.Readings = []FigureReading{{Amount: &a, Shown: quantity.Written(a)}}
	}
	return v
}

// figureCount reads a number of covers.
func figureCount(in FigureCall) *FigureView {
	v := &FigureView{}
	n, err := quantity.ParseCount(in.Text, menu.MaxCovers)
	if err == nil {
		v.Readings = []FigureReading{{Number: n, Shown: in.Text}}
		return v
	}
	var doubt *quantity.AmountError
	if !errors.As(err, &doubt) {
		v.Problem = err.Error()
		return v
	}
	v.doubt(in.Text, doubt)
	for _, a := range doubt.Readings {
		if n, ok := a.Qty.Int64(); ok && n <= menu.MaxCovers {
			v.Readings = append(v.Readings, FigureReading{Number: int(n), Shown: quantity.Written(a)})
		}
	}
	return v
}

// figureTemperature reads "63" in the window's degrees, or "145 °F".
func figureTemperature(in FigureCall) *FigureView {
	v := &FigureView{}
	if in.Unit != "°F" {
		in.Unit = "°C"
	}
	c, ok := document.ParseTemperature(in.Text, in.Unit)
	switch {
	case !ok:
		v.Problem = `"` + in.Text + `" is not a temperature: type a figure, like 63, or a figure and °C or °F`
	case !document.PlausibleTemperature(c):
		v.Problem = `"` + in.Text + `" is not a temperature of a kitchen: check the figure and its unit`
	default:
		v.Readings = []FigureReading{{TempC: &c, Shown: in.Text}}
	}
	return v
}

// doubt sets the problem of a figure that is not understood, or not yet.
func (v *FigureView) doubt(typed string, err *quantity.AmountError) {
	v.Problem = `"` + typed + `" ` + err.Error()
	if !err.Doubtful {
		v.Problem = `"` + typed + `": ` + err.Error()
	}
}
