package link_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/assay"
	"rosesalt/chem/club"
	"rosesalt/chem/route"
	"rosesalt/web/link"
)

// around puts a plan's lines into the text of a plan.
func around(lines string) string {
	return "Rosesalt plan\n9 dead R14 (C) cells hold about 76 g of oxide.\n\nPaste this text to open it:\n" + lines + "\n\nCells\n  How many cells: 9\n  Stop. “Open only” cells marked R.\n"
}

func full(t require.TestingT) link.Content {
	c, troubles := link.Decode("v=2&cell.count=9&gas.uptake~=60,90&found.product=31.5&notes=paper+grey%2C+%22cloudy%22%3B+see+%23v%3D2%26cell.count%3D3&time.gas=75&days.start=2026-03-02T09:00&days.every=7&club.groups=6")
	require.Empty(t, troubles)
	c.Run = &link.Run{Planned: c.Case, Done: 3}
	in := assay.Inputs()
	for _, i := range in {
		if i.Options == nil {
			c.Assays = assay.Readings{i.Key: (i.Min + i.Max) / 2}
			if i.Whole {
				c.Assays[i.Key] = i.Min
			}
			break
		}
	}
	return c
}

// mangles are what happens to a text on its way.
var mangles = map[string]func(string) string{
	"nothing":       func(s string) string { return s },
	"other lines":   func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
	"old lines":     func(s string) string { return strings.ReplaceAll(s, "\n", "\r") },
	"quoted":        func(s string) string { return "> " + strings.ReplaceAll(s, "\n", "\n> ") },
	"quoted deeply": func(s string) string { return ">> > " + strings.ReplaceAll(s, "\n", "\n>> > ") },
	"no-break":      func(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") },
	"smart quotes":  func(s string) string { return "“" + strings.ReplaceAll(s, "\n", "”\n“") + "”" },
	"markup":        func(s string) string { return strings.ReplaceAll(s, "&", "&amp;") },
	"wrapped":       func(s string) string { return wrap(s, 31) },
	"wrapped quote": func(s string) string { return "> " + strings.ReplaceAll(wrap(s, 44), "\n", "\r\n> ") },
	"one line":      func(s string) string { return strings.ReplaceAll(s, "\n", " ") },
	"blank lines":   func(s string) string { return strings.ReplaceAll(s, "\n", "\n\n") },
	"dashes":        func(s string) string { return strings.ReplaceAll(s, "-", "–") },
	"no width":      func(s string) string { return strings.ReplaceAll(s, "&", "\u200b&") },
	"printable": func(s string) string {
		return strings.ReplaceAll(wrap(strings.ReplaceAll(s, "=", "=3D"), 50), "\n", "=\r\n")
	},
	"a letter": func(s string) string { return "Dear all,\nsee v=2 below\n\n" + s + "\n-- \nYours\n" },
}

// wrap breaks lines hard, wherever they are.
func wrap(s string, width int) string {
	var b strings.Builder
	for _, line := range strings.Split(s, "\n") {
		for len(line) > width {
			b.WriteString(line[:width] + "\n")
			line = line[width:]
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

func TestMangledTextIsStillRead(t *testing.T) {
	want := full(t)
	for name, mangle := range mangles {
		t.Run(name, func(t *testing.T) {
			got, troubles, ok := link.ReadText(mangle(around(link.WriteText(&want))))
			require.True(t, ok)
			assert.Empty(t, troubles)
			assert.Equal(t, link.Encode(&want), link.Encode(&got))
		})
	}
}

func TestTextIsShortLines(t *testing.T) {
	c := full(t)
	for _, line := range strings.Split(link.WriteText(&c), "\n") {
		assert.LessOrEqual(t, len(line), 60)
	}
}

func TestLinksInTextsAreRead(t *testing.T) {
	for text, want := range map[string]string{
		"v=2&cell.count=9":          "v=2&cell.count=9",
		"#v=2":                      "v=2",
		"cell.count=9&wash.times=2": "v=2&cell.count=9&wash.times=2",
		"#cell.count=9":             "v=2&cell.count=9",
		"https://example.org/r.html#v=2&cell.count=9":                                              "v=2&cell.count=9",
		"file:///home/x/rosesalt.html#cell.count=9":                                                "v=2&cell.count=9",
		"See https://example.org/r.html#v=2&cell.count=9, and tell me.":                            "v=2&cell.count=9",
		"<https://example.org/r.html#v=2&cell.count=9>":                                            "v=2&cell.count=9",
		"“v=2&cell.count=9”.":                                                                      "v=2&cell.count=9",
		"v=2&cell.count=9\nThanks":                                                                 "v=2&cell.count=9",
		"v=2&cell.count=9\n&wash.times=2\nThanks":                                                  "v=2&cell.count=9&wash.times=2",
		"> https://example.org/a/rosesalt.html#v=2&cell.count=9&cell.size=R20&gas.str\n> ength=90": "v=2&cell.size=R20&cell.count=9&gas.strength=90",
	} {
		c, troubles, ok := link.ReadText(text)
		require.True(t, ok, text)
		assert.Empty(t, troubles, text)
		assert.Equal(t, want, link.Encode(&c), text)
	}
	for _, text := range []string{"", "Dear all,\nplease find", "https://example.org/r.html", "a=b", "#tea=1", "x & y = z", "E=mc2"} {
		_, _, ok := link.ReadText(text)
		assert.False(t, ok, text)
	}
}

func TestDamagedTextSaysSo(t *testing.T) {
	c := full(t)
	whole := link.WriteText(&c)
	for name, text := range map[string]string{
		"a letter changed": strings.Replace(whole, "cell.count=9", "cell.count=8", 1),
		"a line lost":      strings.Join(append(strings.Split(whole, "\n")[:1:1], strings.Split(whole, "\n")[2:]...), "\n"),
		"another in it":    strings.Replace(whole, "&gas.uptake", "&tea.sugar=2&gas.uptake", 1),
	} {
		_, troubles, ok := link.ReadText(around(text))
		require.True(t, ok, name)
		require.NotEmpty(t, troubles, name)
		assert.Contains(t, troubles[0].Why, "lost or changed", name)
	}
	got, troubles, ok := link.ReadText("v=3&cell.count=9&mix.smell=3&end=" + "00000000")
	require.True(t, ok)
	assert.Equal(t, 9.0, got.Plan.Rows[0].Count, "the rest stands")
	text := ""
	for _, tr := range troubles {
		text += tr.Part + tr.Why
	}
	assert.Contains(t, text, "another version")
	assert.Contains(t, text, "mix.smell", "what is not known is named")
}

func TestTwoPlansInOneText(t *testing.T) {
	c, d := full(t), link.NewContent()
	_, troubles, _ := link.ReadText(around(link.WriteText(&c)) + around(link.WriteText(&d)))
	require.Len(t, troubles, 1)
	assert.Contains(t, troubles[0].Why, "another plan")
	got, _, _ := link.ReadText(around(link.WriteText(&c)) + "> On Monday:\n" + around(link.WriteText(&d)))
	assert.Equal(t, link.Encode(&c), link.Encode(&got), "the first is opened")
}

func TestHugeTextsAreBounded(t *testing.T) {
	for _, text := range []string{strings.Repeat("v=2 ", 1<<18), strings.Repeat("#v=2&cell.count=9\n", 1<<15), "v=2&notes=" + strings.Repeat("a", 1<<20)} {
		_, troubles, ok := link.ReadText(text)
		assert.True(t, ok)
		assert.LessOrEqual(t, len(troubles), link.MaxTroubles+3)
	}
}

// content draws one as the page may hold it.
func content(t *rapid.T) link.Content {
	c := link.NewContent()
	c.Plan, c.Given = plans(t), intervals(t)
	days(t, &c)
	c.Notes = link.CutNotes(rapid.String().Draw(t, "notes"))
	c.Club = club.Club{Groups: float64(rapid.IntRange(1, 30).Draw(t, "groups")), AtOnce: 1}
	if rapid.Bool().Draw(t, "run") {
		c.Run = &link.Run{Planned: c.Case, Done: rapid.IntRange(0, route.Stages).Draw(t, "done")}
	}
	return c
}

// mail mangles a text at random, in ways that leave the plan readable: any spaces, line
// ends, quote marks, smart marks and marks without width between any letters, and prose
// around it.
func mail(text string, random *rand.Rand) string {
	put := []string{"\n", "\r\n> ", " ", "\u00a0", "\n\n", "”", "\u200b", "\n> > ", "\t", "\u2028"}
	before := []string{"", "Hello,\n\n", "> ", "On Monday somebody wrote:\n"}
	after := []string{"", "\n-- \nYours", "\n> \n", " and so on."}
	var b strings.Builder
	b.WriteString(before[random.IntN(len(before))])
	often := 1 + random.IntN(80)
	inside := false
	for i, r := range text {
		if r == '#' {
			inside = true
		}
		b.WriteRune(r)
		if inside && i+4 < len(text) && random.IntN(often) == 0 && !strings.HasSuffix(b.String(), "#") && !strings.HasSuffix(b.String(), "v") && !strings.HasSuffix(b.String(), "v=") {
			b.WriteString(put[random.IntN(len(put))])
		}
	}
	return b.String() + after[random.IntN(len(after))]
}

func TestTextComesBackThroughMail(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := content(t)
		text := mail(link.WriteText(&want), rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "mail"), 1)))
		got, troubles, ok := link.ReadText(text)
		require.True(t, ok, text)
		require.Empty(t, troubles, text)
		require.Equal(t, link.Encode(&want), link.Encode(&got), text)
	})
}

// FuzzReadText: whatever is pasted, a plan that can be worked out comes of it or none; and
// what was read, written and sent by mail, is read again.
func FuzzReadText(f *testing.F) {
	c := full(f)
	for name, mangle := range mangles {
		f.Add(mangle(around(link.WriteText(&c))), uint64(len(name)))
	}
	for _, s := range []string{"#v=2", "v=3D2=\n&a=3D", "&end=00000000", "v=2&end=", "bare=1&#", "\xff\xfev=2"} {
		f.Add(s, uint64(0))
	}
	f.Fuzz(func(t *testing.T, s string, seed uint64) {
		c, troubles, ok := link.ReadText(s)
		if len(route.Check(&c.Plan)) > 0 {
			t.Fatalf("plan with a problem from %q", s)
		}
		if len(troubles) > link.MaxTroubles+3 || !ok && len(troubles) > 0 {
			t.Fatalf("%d troubles, %v", len(troubles), ok)
		}
		text := mail(link.WriteText(&c), rand.New(rand.NewPCG(seed, 2)))
		again, more, ok := link.ReadText(text)
		if !ok || len(more) > 0 || link.Encode(&again) != link.Encode(&c) {
			t.Fatalf("%q does not come back: %v %v", text, ok, more)
		}
	})
}

// Some programs write out every sign of a link's fragment.
func TestLinkWithItsSignsWrittenOutIsRead(t *testing.T) {
	want := full(t)
	fragment := link.Encode(&want)
	escaped := strings.NewReplacer("%", "%25", "=", "%3D", "&", "%26", ",", "%2C", "~", "%7E", ":", "%3A").Replace(fragment)
	require.NotContains(t, escaped, "=")
	got, troubles := link.Decode(escaped)
	assert.Empty(t, troubles)
	assert.Equal(t, fragment, link.Encode(&got))
	got, troubles, ok := link.ReadText("Look at https://plans.example/rosesalt.html#" + escaped + " please")
	require.True(t, ok)
	assert.Empty(t, troubles)
	assert.Equal(t, fragment, link.Encode(&got))

	_, troubles = link.Decode("no%20plan%3")
	assert.Len(t, troubles, 1, "what cannot be unescaped is told as it stands")
}
