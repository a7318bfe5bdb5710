package quantity

// Fahrenheit returns a temperature in °F for one in °C. Temperatures are
// measured, not weighed out, so they are floats.
func Fahrenheit(celsius float64) float64 { return celsius*9/5 + 32 }

// Celsius returns a temperature in °C for one in °F: (F − 32) × 5/9. A
// difference of temperatures has no 32 in it.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) * 5 / 9 }
