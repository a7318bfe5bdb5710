package engine

import (
	"hobside/internal/demand"
	"hobside/internal/dinner"
)

// SheetView is the sheet of a dinner for those who serve it: what is known of every plate.
type SheetView struct {
	Title  string       `json:"title"`
	Covers int          `json:"covers"`
	Plates []SheetPlate `json:"plates"` // in the order of the menu
}

// SheetPlate is what is known of one line of the menu.
type SheetPlate struct {
	Allergens dinner.PlateSheet `json:"allergens"`
	Nutrition *NutritionView    `json:"nutrition"` // of what one cover gets; null where the compositions of foods are not loaded or nobody gets it
	Cost      *CostView         `json:"cost"`      // of what one cover gets; null where the kitchen has no prices
}

// sheet returns the sheet of an open dinner. It fails when the dinner is not open.
func (e *Engine) sheet(in DinnerCall) (*SheetView, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
	}
	v := &SheetView{Plates: []SheetPlate{}}
	w := f.Worked()
	if w == nil || w.Menu == nil {
		return v, nil
	}
	shop := f.Shop()
	bill := demand.BillOf(w.Input, w.Demand, shop)
	v.Title, v.Covers = w.Menu.Title, w.Demand.Covers
	plates := w.Sheet()
	for i, c := range w.Menu.Courses {
		for j := range c.Plates {
			if len(plates) == 0 {
				return v, nil
			}
			p := SheetPlate{Allergens: plates[0], Nutrition: e.coverNutrition(w, i+1, j+1), Cost: costView(bill.Plate(i+1, j+1), demand.Spent{}, "", shop)}
			plates = plates[1:]
			v.Plates = append(v.Plates, p)
		}
	}
	return v, nil
}

// coverNutrition writes what one cover gets by a line of the menu consists of.
func (e *Engine) coverNutrition(w *dinner.Worked, course, plate int) *NutritionView {
	comp, share := w.Demand.Cover(course, plate)
	if e.compositions == nil || comp == nil {
		return nil
	}
	f := demand.NutritionOf(w.Input.Eaten(w.Demand.Cards()), comp.Card.ID, e.compositions)
	v := nutritionView(&f)
	if f.Share() >= demand.Enough {
		v.portion(f.Nutrition.Per(share.Float64(), 1), "1 cover")
	}
	return v
}
