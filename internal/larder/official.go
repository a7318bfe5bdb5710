package larder

// A List is one of the two lists of allergens that the laws name.
type List string

// The two lists. Regulation (EU) No 1169/2011 Annex II, as amended by 78/2014: fourteen. 21
// U.S.C. 321(qq) with the FASTER Act (Public Law 117-11): nine. Barley and rye
// are gluten and not wheat; pine nuts are tree nuts and not nuts; molluscs,
// celery, mustard, lupin and sulphites are on the EU's list only.
const (
	EU List = "EU"
	US List = "US"
)

// Whose returns whose list it is, in words to follow a name of an allergen.
func (l List) Whose() string {
	if l == US {
		return "of the nine of the US"
	}
	return "of the fourteen of the EU and UK"
}

// A Category is one line of a list.
type Category struct {
	List List
	Code string // as [Allergens] has it
	Name string // the official name
}

// Categories are both lists in their official order.
var Categories = []Category{
	{EU, "gluten", "Cereals containing gluten, namely: wheat (such as spelt and khorasan wheat), rye, barley, oats or their hybridised strains, and products thereof"},
	{EU, "crustaceans", "Crustaceans and products thereof"},
	{EU, "eggs", "Eggs and products thereof"},
	{EU, "fish", "Fish and products thereof"},
	{EU, "peanuts", "Peanuts and products thereof"},
	{EU, "soybeans", "Soybeans and products thereof"},
	{EU, "milk", "Milk and products thereof (including lactose)"},
	{EU, "nuts", "Nuts, namely: almonds, hazelnuts, walnuts, cashews, pecan nuts, Brazil nuts, pistachio nuts, macadamia or Queensland nuts, and products thereof"},
	{EU, "celery", "Celery and products thereof"},
	{EU, "mustard", "Mustard and products thereof"},
	{EU, "sesame", "Sesame seeds and products thereof"},
	{EU, "sulphites", "Sulphur dioxide and sulphites"},
	{EU, "lupin", "Lupin and products thereof"},
	{EU, "molluscs", "Molluscs and products thereof"},
	{US, "milk", "Milk"},
	{US, "egg", "Egg"},
	{US, "fish", "Fish"},
	{US, "crustacean_shellfish", "Crustacean shellfish"},
	{US, "tree_nuts", "Tree nuts"},
	{US, "wheat", "Wheat"},
	{US, "peanuts", "Peanuts"},
	{US, "soybeans", "Soybeans"},
	{US, "sesame", "Sesame"},
}

// OfficialName returns the name that a list has for a code, or the code itself where
// the list has none.
func OfficialName(list List, code string) string {
	for _, c := range Categories {
		if c.List == list && c.Code == code {
			return c.Name
		}
	}
	return code
}
