package safety

import (
	"fmt"
	"math"
)

// Composition is what food is made of, as shares of its mass. They need not sum to
// exactly 1, because those of food tables do not.
type Composition struct {
	Water, Protein, Fat, Carbohydrate, Fibre, Ash float64 // Carbohydrate without the fibre
}

// Properties are the thermal properties of food.
type Properties struct {
	Cp      float64 // J/(kg K)
	K       float64 // W/(m K)
	Density float64 // kg/m³
}

// Alpha returns the thermal diffusivity in m²/s.
func (p Properties) Alpha() float64 { return p.K / (p.Density * p.Cp) }

// SourceChoiOkos is the source of the coefficients of [Composition.At].
var SourceChoiOkos = Source{"Choi and Okos 1986, as in ASHRAE Refrigeration Handbook 2006 ch. 9", "Tables 1 and 2", Read}

// choiOkos are the coefficients: each property is a + b t + c t², t in °C; cp in
// kJ/(kg K), k in W/(m K), density in kg/m³. In the order of [Composition].
var choiOkos = [6]struct{ cp, k, rho [3]float64 }{
	{[3]float64{4.1289, -9.0864e-5, 5.4731e-6}, [3]float64{0.57109, 1.7625e-3, -6.7036e-6}, [3]float64{997.18, 3.1439e-3, -3.7574e-3}},
	{[3]float64{2.0082, 1.2089e-3, -1.3129e-6}, [3]float64{0.17881, 1.1958e-3, -2.7178e-6}, [3]float64{1329.9, -0.5184, 0}},
	{[3]float64{1.9842, 1.4733e-3, -4.8008e-6}, [3]float64{0.18071, -2.7604e-4, -1.7749e-7}, [3]float64{925.59, -0.41757, 0}},
	{[3]float64{1.5488, 1.9625e-3, -5.9399e-6}, [3]float64{0.20141, 1.3874e-3, -4.3312e-6}, [3]float64{1599.1, -0.31046, 0}},
	{[3]float64{1.8459, 1.8306e-3, -4.6509e-6}, [3]float64{0.18331, 1.2497e-3, -3.1683e-6}, [3]float64{1311.5, -0.36589, 0}},
	{[3]float64{1.0926, 1.8896e-3, -3.6817e-6}, [3]float64{0.32962, 1.4011e-3, -2.9069e-6}, [3]float64{2423.8, -0.28063, 0}},
}

// At returns the properties of unfrozen food of the composition at c °C, 0 to 150. Heat
// capacity is averaged by mass, conductivity by volume. Shares that are impossible or do
// not sum to about 1, and other temperatures, are errors.
func (x Composition) At(c float64) (Properties, error) {
	shares := [6]float64{x.Water, x.Protein, x.Fat, x.Carbohydrate, x.Fibre, x.Ash}
	sum := 0.0
	for _, s := range shares {
		if math.IsNaN(s) || s < 0 || s > 1.001 {
			return Properties{}, fmt.Errorf("a composition has shares of the mass from 0 to 1, not %v", s)
		}
		sum += s
	}
	if sum < 0.95 || sum > 1.05 {
		return Properties{}, fmt.Errorf("the shares of a composition sum to 1, not to %.3f", sum)
	}
	if math.IsNaN(c) || c < 0 || c > 150 {
		return Properties{}, fmt.Errorf("no properties at %s: the coefficients hold from 0 to 150 °C, for what isn't frozen", Celsius(c))
	}
	var p Properties
	volume := 0.0
	for i, s := range shares {
		volume += s / quadratic(choiOkos[i].rho, c)
	}
	for i, s := range shares {
		p.Cp += 1000 * s * quadratic(choiOkos[i].cp, c)
		p.K += s / quadratic(choiOkos[i].rho, c) / volume * quadratic(choiOkos[i].k, c)
	}
	p.Density = 1 / volume
	return p, nil
}

// quadratic returns a[0] + a[1] t + a[2] t².
func quadratic(a [3]float64, t float64) float64 { return a[0] + t*(a[1]+t*a[2]) }

// compositions are those of one food for each class: USDA SR28, read. Raw meat is used
// for cooked meat, whose water differs little enough for a forecast.
var compositions = map[Class]struct {
	of Composition
	is string
}{
	Poultry:    {Composition{0.7546, 0.2139, 0.0308, 0, 0, 0.0096}, "chicken meat"},
	Pork:       {Composition{0.6692, 0.1974, 0.1258, 0, 0, 0.0096}, "pork loin"},
	Lamb:       {Composition{0.6432, 0.1791, 0.1707, 0, 0, 0.0094}, "leg of lamb"},
	Fish:       {Composition{0.8122, 0.1781, 0.0067, 0, 0, 0.0116}, "cod"},
	Shellfish:  {Composition{0.7845, 0.2010, 0.0051, 0, 0, 0.0123}, "shrimp"},
	Egg:        {Composition{0.7615, 0.1256, 0.0951, 0.0072, 0, 0.0106}, "whole egg"},
	PooledEgg:  {Composition{0.7615, 0.1256, 0.0951, 0.0072, 0, 0.0106}, "whole egg"},
	Stock:      {Composition{0.9215, 0.0252, 0.0120, 0.0353, 0, 0.0063}, "chicken stock"},
	Rice:       {Composition{0.6844, 0.0269, 0.0028, 0.2777, 0.0040, 0.0041}, "cooked white rice"},
	Vegetable:  {Composition{0.8829, 0.0093, 0.0024, 0.0678, 0.0280, 0.0097}, "carrots"},
	Beef:       {Composition{0.6692, 0.1974, 0.1258, 0, 0, 0.0096}, "pork loin, for want of a row of its own"},
	Roast:      {Composition{0.6692, 0.1974, 0.1258, 0, 0, 0.0096}, "pork loin, for want of a row of its own"},
	Minced:     {Composition{0.6432, 0.1791, 0.1707, 0, 0, 0.0094}, "leg of lamb, for want of a row of its own"},
	Offal:      {Composition{0.7546, 0.2139, 0.0308, 0, 0, 0.0096}, "chicken meat, for want of a row of its own"},
	Game:       {Composition{0.7546, 0.2139, 0.0308, 0, 0, 0.0096}, "chicken meat, for want of a row of its own"},
	Cooked:     {Composition{0.7925, 0.0205, 0.0009, 0.1539, 0.0210, 0.0111}, "potatoes, for want of a row of its own"},
	ReadyToEat: {Composition{0.7925, 0.0205, 0.0009, 0.1539, 0.0210, 0.0111}, "potatoes, for want of a row of its own"},
}

// CompositionOf returns the composition that is used for a class, and the food that it
// is of; ok is false where there is no basis.
func CompositionOf(class Class) (x Composition, is string, ok bool) {
	row, ok := compositions[class]
	return row.of, row.is, ok
}
