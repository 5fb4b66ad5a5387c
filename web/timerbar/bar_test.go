package timerbar

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

func TestRequestIsReadAsItWasWritten(t *testing.T) {
	for _, want := range []Request{{"gas.2", "Make the gas, batch 2 of 3", 75 * time.Minute}, {"wash", "Wash: stir", 10 * time.Minute}} {
		got, ok := request(want.Text())
		assert.True(t, ok)
		assert.Equal(t, want, got)
	}
	for _, text := range []string{"", "10m0s", "10m0s wash", "soon wash Wash: stir"} {
		_, ok := request(text)
		assert.False(t, ok, text)
	}
}
