package quantity

import (
	"math"
	"strconv"
)

// Fahrenheit returns in °F a temperature in °C. Temperatures are readings and not
// amounts, so they are floats.
func Fahrenheit(celsius float64) float64 { return celsius*9/5 + 32 }

// Celsius returns in °C a temperature in °F: (F − 32) × 5/9. It is not for a
// difference of temperatures, which converts without the 32.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) * 5 / 9 }

// ShowFahrenheit writes a temperature in °C as °F, "145 °F". It rounds to whole
// degrees: no probe or dial in a kitchen shows less.
func ShowFahrenheit(celsius float64) string {
	return strconv.FormatFloat(math.Round(Fahrenheit(celsius)), 'f', -1, 64) + " °F"
}
