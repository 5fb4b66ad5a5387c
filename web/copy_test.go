package web

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/web/desk"
	"rosesalt/web/section"
)

func TestCopyKeepsWhatItDoesNotKnow(t *testing.T) {
	c, more := readCopy(`{"version":1,"plan":"v=2&cell.count=9","more":{"songs":{"b":1,"a":[2.50]}},"later":1}`)
	assert.Empty(t, c.troubles)
	assert.Equal(t, "v=2&cell.count=9", c.plan)
	c.unknown = more
	p := &page{from: c, desk: desk.New(c.plan)}
	text, failed := p.copyText()
	assert.Empty(t, failed)
	assert.Contains(t, text, `"songs":{"b":1,"a":[2.50]}`)
	assert.NotContains(t, text, "<")
	var s saved
	require.NoError(t, json.Unmarshal([]byte(text), &s))
	assert.Equal(t, "v=2&cell.count=9", s.Plan)
}

func TestCopyOfAnotherVersion(t *testing.T) {
	for name, c := range map[string]struct{ text, says, plan string }{
		"damaged": {`{"version":1,"plan":`, "damaged", ""},
		"no json": {`<b>`, "damaged", ""},
		"newer":   {`{"version":2,"plan":"v=2&cell.count=4"}`, "another version", "v=2&cell.count=4"},
		"none":    {`{}`, "another version", ""},
	} {
		t.Run(name, func(t *testing.T) {
			got, _ := readCopy(c.text)
			require.Len(t, got.troubles, 1)
			assert.Contains(t, got.troubles[0].Part+got.troubles[0].Why, c.says)
			assert.Equal(t, c.plan, got.plan)
		})
	}
}

func TestMarkupInACopyIsWrittenOut(t *testing.T) {
	p := &page{desk: desk.New("v=2&notes=" + strings.ReplaceAll(`</script><!--`, "<", "%3C"))}
	p.from.unknown = map[string]json.RawMessage{"x": json.RawMessage(`"</script>"`)}
	text, _ := p.copyText()
	assert.NotContains(t, text, "<")
	assert.Equal(t, `</script><!--`, desk.New(mustPlan(t, text)).Notes())
}

func mustPlan(t *testing.T, text string) string {
	t.Helper()
	c, _ := readCopy(text)
	return c.plan
}

func TestAddressWithoutAFragmentIsTheCopysPlan(t *testing.T) {
	p := &page{from: original{plan: "cell.count=9&v=2"}}
	assert.Equal(t, "cell.count=9&v=2", p.planAt(""))
	assert.Equal(t, "v=2&cell.count=2", p.planAt("v=2&cell.count=2"))
}

func TestLabelTextsGoThroughACopy(t *testing.T) {
	p := &page{desk: desk.New("")}
	text, failed := p.copyText()
	assert.Empty(t, failed)
	assert.NotContains(t, text, "labels", "nothing typed, nothing kept")
	p.labels.Texts = section.LabelTexts{"B7 </script>", "", "the lamp desk"}
	text, failed = p.copyText()
	assert.Empty(t, failed)
	assert.NotContains(t, text, "<")
	_, more := readCopy(text)
	q := &page{}
	require.NoError(t, q.openLabels(more["labels"]))
	assert.Equal(t, p.labels, q.labels)
	assert.ErrorContains(t, q.openLabels([]byte(`{"label.batch":"B8","label.smell":"x"}`)), "label.smell")
	assert.Equal(t, "B8", q.labels.Texts[0], "the rest stands")
	assert.Error(t, q.openLabels([]byte(`[1]`)))
}
