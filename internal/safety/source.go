package safety

// Status says how well a value is known.
type Status string

// The four degrees of knowing.
const (
	Read     Status = "read"                       // stood in a text that was found
	Memory   Status = "from memory"                // recalled, the text itself not found
	Computed Status = "computed"                   // worked out from other values here
	Practice Status = "working range"              // own compilation, no published value
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

// String is the source as it stands on screen and on paper, its status with it:
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
