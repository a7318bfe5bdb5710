package safety

import (
	"fmt"
	"math"
)

// BoilingSource names the two standards that [BoilingC] is computed from.
const BoilingSource = "US Standard Atmosphere 1976 and IAPWS-IF97 (computed)"

// BoilingC returns in °C where water boils at an altitude in metres, −450 to 9000;
// others are an error. The pressure is that of the US Standard Atmosphere 1976, the
// water is by IAPWS-IF97. The weather changes it by about 1 K. At sea level it is
// 99.97 °C on the present scale, not 100.
func BoilingC(altitudeM float64) (float64, error) {
	if math.IsNaN(altitudeM) || altitudeM < -450 || altitudeM > 9000 {
		return 0, fmt.Errorf("no kitchen is at %.0f m: give the altitude in metres, −450 to 9000", altitudeM)
	}
	return boilingAt(pressure(altitudeM)), nil
}

// pressure returns that of the US Standard Atmosphere 1976, in pascals, for a
// geometric altitude in metres.
func pressure(altitudeM float64) float64 {
	const earth = 6356766.0
	h := earth * altitudeM / (earth + altitudeM)
	return 101325 * math.Pow(1-0.0065*h/288.15, 5.255876)
}

// boilingAt returns the saturation temperature of IAPWS R7-97(2012), equation 31, in
// °C, for a pressure from 611 Pa to the critical one.
func boilingAt(pascals float64) float64 {
	n := [...]float64{0, 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
		0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3}
	b := math.Pow(pascals/1e6, 0.25)
	e := b*b + n[3]*b + n[6]
	f := n[1]*b*b + n[4]*b + n[7]
	g := n[2]*b*b + n[5]*b + n[8]
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	return (n[10]+d-math.Sqrt((n[10]+d)*(n[10]+d)-4*(n[9]+n[10]*d)))/2 - 273.15
}
