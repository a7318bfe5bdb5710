package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A guest is a vegan, and never "without vegan".
func TestGuestsAreNamedByWhatTheyAvoid(t *testing.T) {
	for _, tt := range []struct{ words, without, plate string }{
		{"", "", ""},
		{"fish", " without fish", "for guests who avoid fish"},
		{"fish;milk", " without fish, milk", "for guests who avoid fish, milk"},
		{"vegan", ", vegan", "for vegans"},
		{"vegan;nuts", ", vegan, without nuts", "for vegans, guests who avoid nuts"},
		{"nuts;vegetarian", ", vegetarian, without nuts", "for vegetarians, guests who avoid nuts"},
		{"pescatarian", ", pescatarian", "for pescatarians"},
		{"coeliac", ", coeliac", "for coeliac guests"},
		{"raw egg", " without raw egg", "for guests who avoid raw egg"},
		{"red meat", " without red meat", "for guests who avoid red meat"},
	} {
		words := strings.FieldsFunc(tt.words, func(r rune) bool { return r == ';' })
		assert.Equal(t, tt.without, Without(words), tt.words)
		assert.Equal(t, tt.plate, ForGuests(words), tt.words)
	}
	for _, word := range (*Foods)(nil).EverydayWords() {
		a, _ := Understand(word)
		assert.Equal(t, a.diet, !strings.Contains(Without([]string{word}), "without "), word)
		assert.Equal(t, a.diet, !strings.Contains(ForGuests([]string{word}), " avoid "), word)
	}
}
