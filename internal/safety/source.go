package safety

// Status says how well a value is known.
type Status string

// How a value is known.
const (
	Read     Status = "read"                       // it was in a text that was found
	Memory   Status = "from memory"                // recalled; the text was not found
	Computed Status = "computed"                   // computed here from other values
	Practice Status = "working range"              // our own; no published value
	Common   Status = "common practice, no source" // what kitchens do
	Card     Status = "the card's own"             // the author of the card says so
	Measured Status = "measured by cook"           // read off a probe or a scale
)

// Source is where a value comes from.
type Source struct {
	Publication string `json:"publication"`
	Section     string `json:"section,omitempty"`
	Status      Status `json:"status"`
}

// String returns the source as it is shown, with its status:
// "US FDA Food Code 2022, 3-401.11(A)(3) (read)".
func (s Source) String() string {
	if s.Publication == "" {
		return string(s.Status)
	}
	out := s.Publication
	if s.Section != "" {
		out += ", " + s.Section
	}
	if s.Status != "" {
		out += " (" + string(s.Status) + ")"
	}
	return out
}
