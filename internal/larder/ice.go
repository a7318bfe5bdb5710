package larder

import "strings"

// IsIce reports whether an item is ice: "ice", "crushed ice", "ice cubes". Iced water is not.
func IsIce(item string) bool {
	for word := range strings.FieldsSeq(strings.ToLower(item)) {
		if word == "ice" {
			return !strings.Contains(strings.ToLower(item), "cream") && !strings.Contains(strings.ToLower(item), "water")
		}
	}
	return false
}
