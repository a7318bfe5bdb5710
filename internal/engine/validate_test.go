package engine

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

func TestValidateNamesTheRefusedEvents(t *testing.T) {
	sound := dinner.Event{ID: "tick0001", Dinner: "d", Device: "phone", Stamp: dinner.Stamp{Wall: 5}, Kind: dinner.KindTick, On: "stock#1/step/1", Done: true}
	wrong := sound
	wrong.ID, wrong.On = "tick0002", "stock"
	got := call[ValidateView](t, New(), "validate", ValidateCall{Events: []dinner.Event{sound, wrong}})
	assert.Equal(t, ValidateView{Refused: []RefusedView{{ID: "tick0002", Why: dinner.Validate(wrong).Error()}}}, got)
}

func TestValidateRefusesWhatIsNoEvent(t *testing.T) {
	var answer Failure
	require.NoError(t, json.Unmarshal(New().Call("validate", []byte(`{"events":[{"id":"tick0001","number":"many"}]}`)), &answer))
	assert.Contains(t, answer.Error, "cannot read the call")
}
