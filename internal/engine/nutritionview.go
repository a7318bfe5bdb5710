package engine

import (
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/larder"
)

// NutritionView is what a card consists of, by the EU's and the US's rules. The lists of
// figures are empty where too little is known.
type NutritionView struct {
	EU        []larder.DeclarationLine `json:"eu"` // in 100 g
	US        []larder.DeclarationLine `json:"us"` // in 100 g
	EUPortion []larder.DeclarationLine `json:"euPortion"`
	USPortion []larder.DeclarationLine `json:"usPortion"`
	Portion   string                   `json:"portion"` // "1 piece, 85 g"; "" where the card makes no pieces
	Share     float64                  `json:"share"`   // of the weight that has a composition, 0 to 1
	Missing   []string                 `json:"missing"` // what has none
	Assumed   []string                 `json:"assumed"`
}

// nutrition writes what a card of the library consists of, nil without compositions.
func (e *Engine) nutrition(c *card.Card) *NutritionView {
	if e.compositions == nil || c == nil {
		return nil
	}
	f := demand.NutritionOf(e.cardsWith(c), c.ID, e.compositions)
	v := nutritionView(&f)
	if f.Share() >= demand.Enough && f.Portions > 0 {
		v.portion(f.Nutrition.Per(1, f.Portions), "1 "+c.Makes.Unit.Name)
	}
	return v
}

// portion sets the figures of one portion, and its name.
func (v *NutritionView) portion(per larder.Nutrition, name string) {
	v.EUPortion, v.USPortion, v.Portion = per.EUDeclaration(), per.USDeclaration(), name
}

// nutritionView writes what 100 g consist of, without figures where too little is known.
func nutritionView(f *demand.Facts) *NutritionView {
	v := &NutritionView{EU: []larder.DeclarationLine{}, US: []larder.DeclarationLine{}, EUPortion: []larder.DeclarationLine{}, USPortion: []larder.DeclarationLine{},
		Share: f.Share(), Missing: list(f.Missing), Assumed: list(f.Assumed)}
	if f.Share() >= demand.Enough && f.Grams > 0 {
		per := f.Nutrition.Per(100, f.Grams)
		v.EU, v.US = per.EUDeclaration(), per.USDeclaration()
	}
	return v
}
