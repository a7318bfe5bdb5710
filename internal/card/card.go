package card

import (
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Card is one compiled recipe card: it makes one component, or one plate.
type Card struct {
	ID       string            // the file's name without ".md": what links and ticks call it
	File     string            // as given to Parse, for problems
	Rules    string            // "us" or "uk": whose limits and whose pints it goes by, from the card or else its kitchen; "" when neither says
	Title    string            // the first heading
	Intro    string            // Markdown between the title and the first section
	Makes    quantity.Amount   // what one batch by the formula as typed gives
	Weighs   quantity.Amount   // what the formula weighs in all, when typed in percent; front matter "formula: 2 kg"
	Smallest quantity.Amount   // smallest sensible batch, zero when any will do
	Largest  quantity.Amount   // largest sensible batch, zero when any will do
	Whole    quantity.Amount   // batches come in whole multiples of this, zero when any will do
	Margin   quantity.Number   // extra asked for, as a fraction: 0.05 for "margin: 5 %"; 0 for the menu's
	NoMargin bool              // "margin: 0 %": none, whatever the menu asks
	Spares   Spares            // how much more is made than is eaten
	Tested   Tested            // when, at which size and by whom it was tested
	Portion  quantity.Amount   // what one cover gets when a menu links here without an amount; zero: one of what it makes
	Each     quantity.Amount   // what one piece weighs, "each: 55 g"
	Density  quantity.Number   // grams per millilitre, 0 when not given
	TopUp    string            // what a batch that gave too little may be topped up with, "top up: water, up to 10 %"; "" for nothing
	TopMost  quantity.Number   // how much of that, as a share of what the batch gave
	Keeps    []Keep            // how long it keeps, by place
	Contains []larder.Declared // what the author says to be in it, also what is not understood
	Without  []string          // allergens the author takes back, with the reason in Notes
	Items    []Item            // the formula, in order
	Ways     []Way             // empty, or two and more ways of one run of steps
	Steps    []Step            // every step of every way, in the order of the file
	Saves    []ByProduct       // what it sets aside for other cards
	Apart    []string          // what all work of the card is kept apart from, "apart: gluten"
	Service  Service           // what the pass, the last step and the label say of it
	Faults   []Fault           // common faults and what rescues them
	Actions  []Action          // corrective actions, by limit
	Notes    string            // Markdown of any other section, kept for the reader
	Source   []byte            // the file, byte for byte

	Foods *larder.Foods // the kitchen's own foods, by which its items are weighed and assessed; nil for none
}

// Own returns what the card and the kitchen's foods say of what the card makes.
func (c *Card) Own() larder.Own {
	return larder.Own{Each: c.Each, Density: c.Density, UK: c.Rules == "uk", Foods: c.Foods}
}

// OwnOf returns what the card and the kitchen's foods say of an item.
func (c *Card) OwnOf(it *Item) larder.Own {
	return larder.Own{Each: it.Each, Density: it.Density, Size: it.size(), UK: c.Rules == "uk", Foods: c.Foods}
}

// OwnBought returns what [Card.OwnOf] does, of an item as it is bought: a whole lemon, where
// only its juice is used.
func (c *Card) OwnBought(it *Item) larder.Own {
	own := c.OwnOf(it)
	own.Size = it.bought()
	return own
}

// IsPlate reports whether the card makes plates, not a component.
func (c *Card) IsPlate() bool {
	return c.Makes.Unit != nil && c.Makes.Unit.Name == "plate"
}

// An Item is one line of the formula.
type Item struct {
	Amount   quantity.Amount // zero when only a name was typed
	Percent  quantity.Number // of the items at 100 %, as a number (68 for "68 %"); 0 when typed as an amount
	Name     string          // "chicken backs", or the linked card's text
	Prep     string          // "chopped", without the phrases read as facts below
	Card     string          // ID of the linked card, "" for a bought item
	Save     string          // by-product of the linked card, as slug; "" when the card's main yield is meant
	Optional bool            // prep says "optional"
	Mix      bool            // a free mix: "any soft herbs"
	Fixed    bool            // prep says "fixed": a batch of any size takes this much, such as a fryer's fill
	Uneaten  bool            // prep says "not eaten": a salt crust's egg white, a bed of bones; no core temperature is asked of it
	Bought   string          // prep says "bought in the pod": in which state, in lower case; "" when not said
	Trim     quantity.Number // share lost in trimming, as a fraction, when the card gives it ("trim 12 %"); else 0: ask the larder
	Each     quantity.Amount // what one weighs, when the card gives it ("each 60 g")
	Density  quantity.Number // grams per millilitre, when the line gives both: "2 cups (450 g) sugar"; else 0
	Pack     quantity.Amount // what one pack of it holds, when the card gives it ("pack 500 g")
	Group    string          // sub-heading of the formula it is under, ""
	Pos      document.Pos
}

// A Way is one of several ways of doing the same run of steps: "finish at the
// pass", "finish ahead and re-heat". Steps name theirs by its index + 1.
type Way struct {
	Name string
	Pos  document.Pos
}

// A Step is one numbered step of the method.
type Step struct {
	Number    int               // as the reader counts: 1, 2, 3; steps of different ways share numbers
	Way       int               // 0: done whichever way; else 1 + index in Card.Ways
	Text      []Run             // the step's words, with the formula's items picked out
	Hands     document.Duration // attended time
	Wait      document.Duration // unattended time
	Load      quantity.Amount   // how much goes in at once; Hands and Wait are then per load; zero: all of it
	Until     Until             // the sign that it is done
	Keep      []Keep            // how long and how the result may wait; empty: see the card's section on waiting
	Cool      Cool              // the temperature to cool to, and within which time
	Check     []Check           // control points
	Caution   []string          // the author's own cautions
	Serve     bool              // done at the pass
	Cooks     int               // how many cooks may share the hands-on time, "40 min, up to 3 cooks"; 0: not said
	Attended  bool              // "wait: 10 min, attended": somebody is at it all the time
	Left      bool              // "wait: 10 min, unattended": nobody is, whatever the words say
	Unwatched bool              // "unwatched: yes": may run over heat with nobody in the kitchen
	After     After             // what it waits for
	Order     []Order           // steps of other cards that it comes before or after
	Apart     []string          // what it is kept apart from: "gluten"
	Equipment []Equipment       // what it occupies
	Plates    Plates            // how the plates are warmed or chilled before it
	Vessel    document.Vessel   // what it is done in, with its size; without a name when not said
	Saves     []string          // by-products there when it is done, as slugs
	Pos       document.Pos
}

// A Run is a piece of a step's text: plain words, or the use of an item.
type Run struct {
	Text   string          // as shown, without mark-up; for an item, its words without the amount
	Item   int             // 1 + index in Card.Items; 0 for plain words
	Part   quantity.Amount // the part used here, "**100 g butter**"; zero means all of it or the rest
	Rest   bool            // "**rest of the butter**"
	Share  quantity.Number // "**half the butter**", "**a third of the water**"; 0 when not said
	Strong bool            // bold in the source though no item: shown bold, never scaled
	side   string          // "yolk" or "white" where the item is eggs of which only that is used; else ""
}

// Until is the sign that a step is done: one of a weight or volume, a core
// temperature, or words.
type Until struct {
	Amount  quantity.Amount // "1.6 kg": scales with the batch
	CoreC   float64         // "core 63 °C"; HasCore says whether given
	CoreFor int             // how long the core is held there, in seconds: "core 57 °C for 36 min"; 0: not said
	HasCore bool
	Words   string // what was typed, always kept
}

// A Keep is how long something may wait, and where.
type Keep struct {
	Seconds int     // 4 d is 345600
	Place   string  // "chilled", "frozen", "room", "hot", "straight on"
	In      string  // what holds it: "hot cupboard", "oven", "fridge"; "" when not said
	TempC   float64 // when HasTemp: "oven at 70 °C"
	HasTemp bool
	Shelves Shelves // how much of that it takes
}

// Cool is a temperature that must be reached within a time. The stages of the
// rules are in package safety.
type Cool struct {
	ToC    float64
	Within int // seconds; 0 when not said
	Set    bool
}

// A Check is a control point with its critical limit, as typed.
type Check struct {
	Words string  // "core 74 °C"
	MinC  float64 // limit when one was read; HasC says so
	HasC  bool
	For   int // how long it is held there, in seconds: "core 57 °C for 36 min"; 0: not said
}

// After says what a step waits for.
type After struct {
	Start bool // free from the start
	Step  int  // index in Card.Steps + 1 of the step it waits for; 0: the step above it
}

// Equipment is one thing a step occupies.
type Equipment struct {
	Name    string  // from the standard list or the kitchen's: "hob", "oven"
	Count   int     // how many places of it: rings, shelves; at least 1
	TempC   float64 // when HasTemp
	HasTemp bool
	Words   string // what was typed after the colon

	Holds quantity.Amount // what a machine holds, "blender: 2 L"; zero when not said
	Full  quantity.Number // how full it is filled, "half full", as a fraction; 0 when not said
}

// A ByProduct is something a card sets aside for another.
type ByProduct struct {
	Slug   string          // "chicken-fat": what a link's #fragment names
	Name   string          // "chicken fat"
	Amount quantity.Amount // per batch by the formula as typed
	Keeps  []Keep
	Pos    document.Pos
}
