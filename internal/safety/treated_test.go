package safety

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// pierced are meats that are cooked as comminuted meat is: US FDA Food Code
// 3-401.11(A)(2), "comminuted meat or fish, injected or mechanically tenderised meat",
// read in testdata/limits.csv; blade, needle and jaccard as words for it, read in the
// Conference for Food Protection's issue 2018 I-013; cube steak is common practice, no source.
const pierced = "blade-tenderized steak; mechanically tenderized beef; mechanically tenderised beef sirloin; needle-tenderized pork loin; injected pork loin; cube steak; cubed steak;" +
	" jaccarded rump steak; brine-injected pork leg; pumped pork loin; tenderised lamb leg steaks; steak, blade-tenderized; beef, finely minced; pork, ground; beef mince, cold;" +
	" ground veal; cod, minced; restructured beef; pork shoulder, coarsely ground"

func TestPiercedOrMincedMeatIsNoWholeCut(t *testing.T) {
	for item := range strings.SplitSeq(pierced, "; ") {
		assert.Equal(t, Minced, ClassOf(item), item)
		for c, gaps := range map[float64]int{63: 1, FromF(145): 1, 68: 0, FromF(155): 0} {
			assert.Len(t, Gaps(US, []StepNeeds{{Items: []string{item}, Text: "Grill.", Core: []Core{{C: c}}}}), gaps, "%s at %v °C", item, c)
		}
	}
	for item, class := range map[string]Class{"steak": Beef, "pork loin": Pork, "lamb leg with minced garlic": Lamb, "chicken, injected": Poultry, "tenderised octopus": Shellfish,
		"ground black pepper": NotKnown, "minced garlic": NotKnown, "injected venison": Game, "minced turkey": Poultry, "cubed beef": Beef} {
		assert.Equal(t, class, ClassOf(item), item)
	}
}

// TestMethodChangesTheClass: what a step does with a whole cut counts as what its name
// says. Stuffed meat and fish: US FDA Food Code 3-401.11(A)(3), read.
func TestMethodChangesTheClass(t *testing.T) {
	for _, tt := range []struct {
		item, text string
		want       Class
	}{
		{"pork loin", "Inject the pork loin with the brine.", Minced},
		{"pork loin", "Pump-marinate the pork loin.", Minced},
		{"beef rump", "Tenderize the rump with the needles.", Minced},
		{"beef chuck", "Mince the cold beef.", Minced},
		{"beef chuck", "Pass the beef chuck through the mincer.", Minced},
		{"cod", "Grind the cod with the salt.", Minced},
		{"pork loin", "Stuff the pork loin.", Stuffed},
		{"squid", "Stuff each squid.", Stuffed},
		{"trout", "Stuff the trout with herbs.", Stuffed},
		{"minced beef", "Stuff the minced beef into skins.", Stuffed}, // the stricter of two readings
		{"pork loin", "Mince the garlic and rub the pork loin.", Pork},
		{"pork loin", "Grind the pepper over the pork loin.", Pork},
		{"chicken", "Inject the chicken.", Poultry},
		{"salmon", "Roast the salmon.", Fish},
	} {
		steps := []StepNeeds{{Items: []string{tt.item}, Text: tt.text}, {Text: "Roast it.", Core: []Core{{C: 63}}}}
		assert.Equal(t, tt.want, ClassIn(steps, tt.item), "%s: %s", tt.item, tt.text)
		gaps := 1
		if tt.want == Pork || tt.want == Fish {
			gaps = 0
		}
		assert.Len(t, Gaps(US, steps), gaps, "%s: %s", tt.item, tt.text)
	}
}
