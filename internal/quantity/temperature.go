package quantity

// Fahrenheit returns in °F a temperature in °C. Temperatures are readings and not
// amounts, so they are floats.
func Fahrenheit(celsius float64) float64 { return celsius*9/5 + 32 }

// Celsius returns in °C a temperature in °F: (F − 32) × 5/9. It is not for a
// difference of temperatures, which converts without the 32.
func Celsius(fahrenheit float64) float64 { return (fahrenheit - 32) * 5 / 9 }
