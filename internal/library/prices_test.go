package library

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// kitchenWith writes a kitchen with a list of prices; the first is on line 13.
func kitchenWith(prices ...string) string {
	text := "---\ncooks: 1\nhob: 1 ring\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n\n## Prices\n\n"
	for _, p := range prices {
		text += "- " + p + "\n"
	}
	return text
}

// TestAFoodHasOnePrice: a second price of a food is an error, by whatever name of the food
// and in whatever unit, and so is a second currency. That beef fillet and beef tenderloin
// are one good, and the others, is common practice, no source.
func TestAFoodHasOnePrice(t *testing.T) {
	for _, tt := range []struct {
		prices []string
		want   []string
	}{
		{[]string{"butter: $4.50 per lb", "butter: $5.50 per lb"}, []string{`k.md:15:3: "butter" has another price on line 14; take one of the two out`}},
		{[]string{"beef fillet: $20 per lb", "beef tenderloin: $30 per lb"}, []string{`k.md:15:3: "beef tenderloin" is the same food as "beef fillet" on line 14, and has another price there; take one of the two out`}},
		{[]string{"eggs: 0.30 each", "egg: 4 per kg"}, []string{`k.md:15:3: "egg" is the same food as "eggs" on line 14, and has another price there; take one of the two out`}},
		{[]string{"Moonflower: 3 per kg", "moonflower: 4 per kg"}, []string{`k.md:15:3: "moonflower" has another price on line 14; take one of the two out`}},
		{[]string{"butter: €9 per kg", "flour: $2 per kg", "salt: €1 per kg"}, []string{`k.md:15:3: the price of "flour" is in another currency than that of "butter" in k.md; give all prices in one currency`}},
		{[]string{"butter: 9 per kg", "salted butter: 8 per kg", "onions: €2 per kg", "red onions: 3 per kg"}, []string{}},
	} {
		assert.Equal(t, tt.want, said(Check([]Source{{"k.md", kitchenWith(tt.prices...)}})), tt.prices)
	}
	// Two kitchens may have prices of their own; the kitchen's own foods count in each.
	two := []Source{{"a.md", kitchenWith("butter: 9 per kg")}, {"b.md", kitchenWith("butter: 10 per kg")}}
	assert.Empty(t, said(Check(two)))
	foods := Source{"foods.md", "# Foods\n\n| food | price |\n|---|---|\n| butter | 8 per kg |\n"}
	assert.Equal(t, []string{`a.md:14:3: warning: "butter" has a price in foods.md too, which counts; take one of the two out`, `b.md:14:3: warning: "butter" has a price in foods.md too, which counts; take one of the two out`},
		said(Check(append(two, foods))))
}
