package link_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/web/link"
)

// TestEveryFieldIsOfOneForm: found by its key, in one form alone, and by no other key.
func TestEveryFieldIsOfOneForm(t *testing.T) {
	c := link.NewContent()
	forms := c.Forms()
	seen := map[string]bool{}
	for i, form := range forms {
		require.NotEmpty(t, form.Fields)
		for _, f := range form.Fields {
			assert.False(t, seen[f.Key], f.Key)
			seen[f.Key] = true
			for j, other := range forms {
				found, ok := other.Find(f.Key)
				assert.Equal(t, i == j, ok, f.Key)
				if ok {
					assert.Equal(t, f.Key, found.Key)
					assert.Equal(t, f.Kind, found.Kind, f.Key)
				}
			}
		}
	}
	_, _, ok := link.Find(forms, "")
	assert.False(t, ok)
}

// texts are of every kind; few of them fit any one field.
var texts = []string{
	"", " ", "1", "0", "-1", "2.5", "12", "45", "0,5", "1e9", "abc", "1,500", "50 to 90", "90 min", "1 h 30", "09:00", "24:00",
	"2026-03-02T09:00", "1999-01-01T00:00", "2026-04-03", "20 July to 30 August 2026, 3.10.2026", "3/10/2026", "A", "staff", "one", "dry", "fades", "salt", "R20", "\u202e<b>", strings.Repeat("9", 500),
}

// TestFormsHoldWhatTheyTake: in every form, what a field takes stands there as it may be
// typed, is written into the link, and is read out of it; what it refuses is told.
func TestFormsHoldWhatTheyTake(t *testing.T) {
	usual := link.NewContent()
	for i, form := range usual.Forms() {
		taken := 0
		for _, f := range form.Fields {
			for _, text := range texts {
				c := link.NewContent()
				form := c.Forms()[i]
				if err := form.Set(f, text); err != nil {
					assert.Empty(t, legible(err.Error()), "%s=%q", f.Key, text)
					assert.Equal(t, "v=2", link.Encode(&c), "%s=%q is refused and held", f.Key, text)
					continue
				}
				if link.Encode(&c) != "v=2" {
					taken++
				}
				stands, again := form.Text(f), link.NewContent()
				require.NoError(t, again.Forms()[i].Set(f, stands), "%s=%q stands as %q", f.Key, text, stands)
				assert.Equal(t, stands, again.Forms()[i].Text(f), "%s=%q", f.Key, text)
				assert.Equal(t, link.Encode(&c), link.Encode(&again), "%s=%q", f.Key, text)
				if len(route.Check(&c.Plan)) > 0 {
					continue // it does not go with others of the plan
				}
				back, troubles := link.Decode(link.Encode(&c))
				assert.Empty(t, troubles, "%s=%q", f.Key, text)
				assert.Equal(t, link.Encode(&c), link.Encode(&back), "%s=%q", f.Key, text)
			}
		}
		assert.Positive(t, taken, "no text was for the form of %s", form.Fields[0].Key)
	}
}

// TestFormsSayWhatTheyMakeAnew: readings stand beside the plan, all else does not.
func TestFormsSayWhatTheyMakeAnew(t *testing.T) {
	c := link.NewContent()
	for key, want := range map[string]field.Affects{
		"cell.count": field.Figures, "cell.2.size": field.Figures, "gas.uptake~": field.Figures,
		"found.product": field.Account, "found.product~": field.Account, "found.copper.full": field.Account, "found.wet": field.Account,
		"assay.glass": field.Assays, "log.5.rate": field.Gas, "days.start": field.Days, "time.gas": field.Days, "by.gas": field.Days, "days.out": field.Days, "club.groups": field.Club,
		link.NotesKey: field.Nothing,
	} {
		form, _, ok := link.Find(c.Forms(), key)
		require.True(t, ok, key)
		assert.Equal(t, want, form.Affects, key)
		assert.Equal(t, want == field.Assays || want == field.Gas, form.Affects.Beside(), key)
	}
}
