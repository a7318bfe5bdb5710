package larder

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// One part of a list was understood once, and the others were lost without a word.
func TestListOfGuestsWordsIsReadWhole(t *testing.T) {
	for text, want := range map[string]struct{ words, unknown string }{
		"vegetarian, no nuts":             {words: "vegetarian, nuts"},
		"no nuts, vegetarian":             {words: "nuts, vegetarian"},
		"gluten free and nut free":        {words: "gluten, nut"},
		"allergic to nuts and shellfish":  {words: "nuts, shellfish"},
		"neither fish nor nuts":           {words: "fish, nuts"},
		"no fish, nuts or milk":           {words: "fish, nuts, milk"},
		"no fish or nuts, she eats milk":  {words: "fish, nuts", unknown: "she eats milk"},
		"no nuts or fish":                 {words: "nuts, fish"},
		"nuts; eggs / milk & celery":      {words: "nuts, eggs, milk, celery"},
		"nuts (walnuts)":                  {words: "nuts, walnuts"},
		"no milk: nuts":                   {words: "milk, nuts"},
		"sulphur dioxide and sulphites":   {words: "sulphur dioxide and sulphites"},
		"sulphur dioxide and sulphites +": {words: "sulphur dioxide and sulphites"},
		"nuts,":                           {words: "nuts"},
		"nuts, nutz":                      {words: "nuts", unknown: "nutz"},
		"nutz, nuts":                      {words: "nuts", unknown: "nutz"},
		"no fish except tuna":             {unknown: "no fish except tuna"},
		",":                               {unknown: ","},
		"":                                {unknown: ""},
	} {
		a, unknown := (*Foods)(nil).UnderstandList(text)
		assert.Equal(t, want.words, a.Words, text)
		assert.Equal(t, want.unknown, unknown, text)
	}
	for _, text := range []string{"vegetarian, no nuts", "nuts; eggs", "nuts (walnuts)", "milk: nuts", "nuts/eggs"} {
		_, ok := Understand(text)
		assert.False(t, ok, "%q is a list, and not one thing to avoid", text)
	}
	a, _ := (*Foods)(nil).UnderstandList("vegetarian, no nuts")
	assert.True(t, a.Of("walnuts", nil).Sure && a.Of("beef shin", nil).Sure && !a.Of("carrots", nil).Sure)
}
