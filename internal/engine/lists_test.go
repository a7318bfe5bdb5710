package engine

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestNoAnswerHasANullList builds each type that a call answers with, with one
// element in every list that is itself empty, and wants no null in it as the page
// gets it.
func TestNoAnswerHasANullList(t *testing.T) {
	may := mayBeNull(t)
	for _, answer := range []any{LibraryView{}, FindView{}, PageView{}, Sheet{}, SheetView{}, dinner.OrderList{}, dinner.PrepList{}, dinner.Schedule{}, WatchView{}, ControlsView{}, LabelsView{}, ValidateView{}, RevisionView{}} {
		for _, depth := range []int{0, 1, 2, 3, 4, 5, 6} {
			v := reflect.New(reflect.TypeOf(answer))
			grow(v.Elem(), depth)
			fillLists(v.Elem())
			b, err := json.Marshal(v.Interface())
			require.NoError(t, err)
			var back any
			require.NoError(t, json.Unmarshal(b, &back))
			for _, where := range nulls(back, "") {
				assert.True(t, may[where[strings.LastIndexByte(where, '.')+1:]], "%T: null at %s", answer, where)
			}
		}
	}
}

// grow puts one element into each list and a value behind each pointer, down to a
// depth.
func grow(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				grow(v.Field(i), depth)
			}
		}
	case reflect.Pointer:
		if depth > 0 {
			v.Set(reflect.New(v.Type().Elem()))
			grow(v.Elem(), depth-1)
		}
	case reflect.Slice:
		if depth > 0 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			grow(v.Index(0), depth-1)
		}
	}
}
