package site

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"hobside/internal/folder"
)

func TestDemoWithoutItsMenuIsAnError(t *testing.T) {
	_, err := openDemo([]folder.File{{Name: "b.md", Text: "b"}}, time.Now())
	assert.ErrorContains(t, err, "boathouse-supper.md is not there")
}
