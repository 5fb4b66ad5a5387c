package browser

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestElementIsPutIntoTheHeadOrBehindTheDocumentType(t *testing.T) {
	assert.Equal(t, "<!doctype html><html>\n<head><b>\n<title>", string(insert([]byte("<!doctype html><html>\n<head>\n<title>"), "<b>")))
	page := []byte("<!doctype html>\n<p>Rose</p>")
	assert.Equal(t, "<!doctype html><b>\n<p>Rose</p>", string(insert(page, "<b>")))
	assert.Equal(t, "<!doctype html>\n<p>Rose</p>", string(page))
	assert.Equal(t, page, Inserted("http://127.0.0.1:1/", page), "nobody asked")
}

func TestKeysAreWebDrivers(t *testing.T) {
	var pressed []string
	for _, a := range typing("B7\r\t\u0303", true)[0]["actions"].([]action) {
		if a["type"] == "keyDown" {
			pressed = append(pressed, a["value"].(string))
		}
	}
	assert.Equal(t, []string{"\ue008", "B", "7", "\ue007", "\ue004", "\ue014"}, pressed)
}

func TestAnnouncementIsFoundOrMissed(t *testing.T) {
	got, err := announced(strings.NewReader("noise\nlistening on ws://x\nmore\n"), "listening on ")
	require.NoError(t, err)
	assert.Equal(t, "ws://x", got)
	_, err = announced(strings.NewReader("noise\n"), "listening on ")
	assert.Error(t, err)
}

func TestBrowserIsChosenByTheEnvironment(t *testing.T) {
	for name, want := range map[string]Kind{"": Chromium, "chromium": Chromium, "firefox": Firefox, "webkit": WebKit} {
		t.Setenv(Variable, name)
		got, err := Chosen()
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	t.Setenv(Variable, "opera")
	_, err := Start()
	assert.ErrorContains(t, err, "opera")
}

func TestWhatABrowserLacksIsSaid(t *testing.T) {
	assert.NoError(t, Chromium.Can(Dark, Still, Forced, Paper, PDF, Pictured, Protocol))
	err := Firefox.Can(Dark, PDF, Forced)
	require.True(t, errors.Is(err, errors.ErrUnsupported))
	assert.ErrorContains(t, err, "firefox cannot be made to "+string(Forced))
	assert.ErrorIs(t, (&Tab{kind: WebKit}).Do(), errors.ErrUnsupported)
}
