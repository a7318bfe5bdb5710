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
		{"chuck steak", "Mince and fry the chuck steak.", Minced},
		{"chuck steak", "Grind, then shape the chuck steak.", Minced},
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

// TestDishesOfMinceAreMinced: a name that says no "minced" may still be that of minced
// meat, and a joint of game is no roast of the code's table (US FDA Food Code
// 3-401.11(A)(2) and (B), read; the names are our own compilation).
func TestDishesOfMinceAreMinced(t *testing.T) {
	for name, want := range map[string]Class{"salisbury steaks": Minced, "beef kofte": Minced, "chopped beef": Minced, "steak haché": Minced, "doner meat": Minced,
		"brats": Minced, "haggis": Minced, "chicken kofta": Poultry, "turkey meatloaf": Poultry, "vegetable kofta": NotKnown, "gyros bread": NotKnown, "mushroom and beef meatloaf": Minced, "lamb and potato kofte": Minced, "turkey and bean meatloaf": Poultry, "kofta spice": NotKnown,
		"london broil": Beef, "tenderloin": Beef, "flank": Beef, "venison roast": Game, "elk roast": Game, "boar shoulder": Game, "beef roast": Beef} {
		assert.Equal(t, want, ClassOf(name), name)
	}
	roast := []StepNeeds{{Items: []string{"venison roast"}, Text: "Roast.", Core: []Core{{C: FromF(130), Minutes: 112}}}}
	assert.Len(t, Gaps(US, roast), 1)
}

// TestMicrowaveAsksForMore: US FDA Food Code 3-401.12, read: raw animal food in a microwave
// oven reaches 74 °C and stands covered for two minutes.
func TestMicrowaveAsksForMore(t *testing.T) {
	for _, s := range []StepNeeds{{Text: "Cook until done.", Equipment: []string{"microwave"}}, {Text: "Microwave the pork chops."}} {
		s.Items = []string{"pork chops"}
		for c, want := range map[float64]GapKind{63: TooLow, 74: "", FromF(165): ""} {
			s.Core = []Core{{C: c}}
			var kind GapKind
			for _, g := range Gaps(US, []StepNeeds{s}) {
				kind = g.Kind
				assert.Equal(t, "3-401.12", g.Limits[0].Source.Section)
			}
			assert.Equal(t, want, kind, "%s at %v °C", s.Text, c)
		}
		s.Core = nil
		assert.Len(t, Gaps(US, []StepNeeds{s}), 1, "no limit: %s", s.Text)
	}
}

// TestCoolingBetweenTheStages: US FDA Food Code 3-501.14(A), read: 57 to 21 °C in two hours,
// then to 5 °C in four more. Twenty degrees in four hours does not say when 21 was passed.
func TestCoolingBetweenTheStages(t *testing.T) {
	cook := StepNeeds{Items: []string{"chicken thighs"}, Text: "Simmer the chicken for an hour.", Minutes: 70}
	cool := func(c, minutes float64) StepNeeds {
		return StepNeeds{Text: "Cool it.", HasCool: true, CoolC: c, CoolMin: minutes}
	}
	for _, tt := range []struct {
		steps []StepNeeds
		gaps  int
	}{
		{[]StepNeeds{cook, cool(20, 240)}, 1},
		{[]StepNeeds{cook, cool(8, 240)}, 1},
		{[]StepNeeds{cook, cool(8, 90)}, 0},
		{[]StepNeeds{cook, cool(5, 360)}, 0},
		{[]StepNeeds{cook, cool(21, 120), cool(8, 240)}, 0},
		{[]StepNeeds{cook, cool(21, 120), cool(5, 240)}, 0},
	} {
		assert.Len(t, Gaps(US, tt.steps), tt.gaps, "%+v", tt.steps[1:])
	}
}
