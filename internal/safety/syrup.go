package safety

import (
	"fmt"
	"math"
)

// Syrup describes a solution of sugar in water.
type Syrup struct {
	Brix    float64 // sugar, percent of the mass
	Gravity float64 // apparent specific gravity, 20/20 °C
	RiseK   float64 // how much higher it boils than water at the same altitude, in kelvin
	Source  Source
}

// gravities are the specific gravities at 0, 5, 10 … 95 °Brix.
var gravities = [...]float64{1.00000, 1.01968, 1.04003, 1.06111, 1.08297, 1.10564, 1.12913, 1.15350, 1.17874, 1.20491, 1.23202, 1.26007, 1.28909, 1.31905, 1.34997, 1.38187, 1.41471, 1.44848, 1.48317, 1.51876}

// rises are °Brix and the rise of the boiling point in kelvin.
var rises = [...][2]float64{
	{0, 0.0000}, {5, 0.0788}, {10, 0.1690}, {15, 0.2729}, {20, 0.3936}, {25, 0.5351}, {30, 0.7027}, {35, 0.9036},
	{40, 1.1475}, {42, 1.2599}, {44, 1.3825}, {46, 1.5165}, {48, 1.6634}, {50, 1.8249}, {52, 2.0031}, {54, 2.2005},
	{56, 2.4200}, {58, 2.6651}, {60, 2.9400}, {61, 3.0902}, {62, 3.2499}, {63, 3.4198}, {64, 3.6010}, {65, 3.7944},
	{66, 4.0012}, {67, 4.2227}, {68, 4.4603}, {69, 4.7156}, {70, 4.9905}, {71, 5.2870}, {72, 5.6075}, {73, 5.9546},
	{74, 6.3316}, {75, 6.7417}, {76, 7.1892}, {77, 7.6786}, {78, 8.2155}, {79, 8.8061}, {80, 9.4578}, {81, 10.1793},
	{82, 10.9807}, {83, 11.8743}, {84, 12.8744}, {85, 13.9982}, {86, 15.2663}, {87, 16.7033}, {88, 18.3391}, {89, 20.2092},
	{90, 22.3564}, {91, 24.8309}, {92, 27.6903}, {93, 30.9972}, {94, 34.8104}, {95, 39.1636},
}

// sourceSyrup is the source of both tables.
var sourceSyrup = Source{"NIST Circular 440 Table 114 (gravity); Starzak and Peacock (boiling)", "through GNU Units", Read}

// SyrupAt returns the syrup with a strength of 0 to 95 percent of the mass, on straight
// lines between the rows of the tables; other strengths are an error. It is for
// sucrose: glucose and honey boil higher at the same strength.
func SyrupAt(brix float64) (Syrup, error) {
	if !(brix >= 0 && brix <= 95) {
		return Syrup{}, fmt.Errorf("no syrup of %.4g °Brix: the tables hold from 0 to 95", brix)
	}
	i := min(int(brix/5), len(gravities)-2)
	s := Syrup{Brix: brix, Source: sourceSyrup}
	s.Gravity = gravities[i] + (gravities[i+1]-gravities[i])*(brix/5-float64(i))
	for k := 1; k < len(rises); k++ {
		a, b := rises[k-1], rises[k]
		if brix <= b[0] {
			s.RiseK = a[1] + (b[1]-a[1])*(brix-a[0])/(b[0]-a[0])
			break
		}
	}
	return s, nil
}

// SyrupBoiling returns the syrup that boils at c °C at an altitude in metres. It is an
// error where no syrup of the tables boils there.
func SyrupBoiling(c, altitudeM float64) (Syrup, error) {
	water, err := BoilingC(altitudeM)
	if err != nil {
		return Syrup{}, err
	}
	top := rises[len(rises)-1][1]
	rise := c - water
	if math.IsNaN(c) || rise < 0 || rise > top {
		return Syrup{}, fmt.Errorf("no syrup boils at %s there: water boils at %s, and the tables end at %s", Celsius(c), Celsius(water), Celsius(water+top))
	}
	return SyrupAt(bisect(0, 95, func(brix float64) float64 {
		s, _ := SyrupAt(brix)
		return s.RiseK - rise
	}))
}
