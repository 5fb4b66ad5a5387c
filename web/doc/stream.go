package doc

import (
	"math"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
)

// Stream is the matter that flows beside a section, at its margin. It is hidden from screen
// readers: the figures say the same. Widths are in pixels, to a tenth.
type Stream struct {
	Flows     bool // there is one
	In, Out   float64
	Halo      float64  // how wide it might be
	Leaves    float64  // width of all that leaves
	Labels    []string // what leaves, a line each
	Joins     string   // what joins, in words
	JoinWidth float64
	Blue      float64 // width of a copper ribbon instead
	BlueLabel string
	Jar       string // what runs into the jar, if it ends here
}

// The stream's measures, in pixels.
const (
	StreamMost  = 132.0 // the width of the margin
	jointHeight = 96.0  // over which what leaves bends away
)

func px(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

// path is a path with numbers in the places of ~.
func path(form string, numbers ...float64) string {
	var b strings.Builder
	for _, v := range numbers {
		before, behind, _ := strings.Cut(form, "~")
		b.WriteString(before + px(v))
		form = behind
	}
	return b.String() + form
}

func (v *Stream) draw() ui {
	if !v.Flows && v.Blue == 0 {
		return app.Elem("div").Class("spine").Attr("aria-hidden", "true")
	}
	if v.Blue > 0 {
		return app.Elem("div").Class("spine flows copper").Attr("aria-hidden", "true").Body(
			ribbon("run blue", v.Blue), labels([]string{v.BlueLabel}, "blue"),
		)
	}
	run, class := "run", "spine flows"
	if v.Jar != "" {
		run, class = run+" ends", class+" ends"
	}
	var parts []ui
	if v.Halo > 0 {
		parts = append(parts, ribbon(run+" halo", v.Halo))
	}
	parts = append(parts, ribbon(run, v.Out))
	if v.Leaves > 0 || v.Joins != "" {
		parts = append(parts, v.joint())
	}
	if v.Joins != "" {
		parts = append(parts, labels([]string{v.Joins}, "join"))
	}
	if len(v.Labels) > 0 {
		parts = append(parts, labels(v.Labels, "leave"))
	}
	if v.Jar != "" {
		parts = append(parts, v.jar())
	}
	return app.Elem("div").Class(class).Attr("aria-hidden", "true").Body(parts...)
}

// ribbon is the stream, as tall as its section.
func ribbon(class string, width float64) ui {
	return svg("svg").Attr("data-part", class).Attr("width", px(width)).Attr("height", "100%").Attr("preserveAspectRatio", "none").Attr("viewBox", "0 0 10 10").Body(
		svg("rect").Attr("data-part", "matter").Attr("width", "10").Attr("height", "10"),
	)
}

// joint narrows the stream from what comes in to what goes on; what leaves bends
// off to the right and stops at a line, what joins comes in from the right.
func (v *Stream) joint() ui {
	in, out, h := v.In, v.Out, jointHeight
	var parts []ui
	if v.Leaves > 0 {
		w := v.Leaves
		end := math.Min(StreamMost-6, math.Max(out+14+w, in+6))
		parts = append(parts,
			svg("path").Attr("data-part", "gone").Attr("d", path("M~ 0C~ 30 ~ 34 ~ 64H~C~ 40 ~ 26 ~ 0Z", in-w, in-w, end-w, end-w, end, end, in, in)),
			svg("path").Attr("data-part", "bar").Attr("d", path("M~ 65H~", math.Max(out+2, end-w-4), math.Min(StreamMost, end+4))),
		)
	}
	// A pixel more at both ends: sections seldom begin on a whole one, and the ground
	// would show as a hair across the stream.
	parts = append(parts, svg("path").Attr("data-part", "matter").Attr("d",
		path("M0 -1H~V0C~ ~ ~ ~ ~ ~V~H0Z", in, in, h*0.45, out, h*0.5, out, h, h+1)))
	if v.Joins != "" {
		w := math.Max(2, math.Min(40, v.JoinWidth))
		parts = append(parts, svg("path").Attr("data-part", "gas").Attr("d",
			path("M~ 6V~C~ ~ ~ ~ ~ ~L~ ~C~ 40 ~ 6 ~ 6Z",
				StreamMost, 6+w/2, out+40, 6+w/2, out+w/2, 50.0, out, h, out, h-w, out+4, out+30, StreamMost)))
	}
	return svg("svg").Attr("data-part", "joint").Attr("width", px(StreamMost)).Attr("height", px(h)).
		Attr("viewBox", "0 0 "+px(StreamMost)+" "+px(h)).Attr("preserveAspectRatio", "none").Body(parts...)
}

func labels(list []string, class string) ui {
	return app.Elem("div").Class("labels " + class).Body(app.Range(list).Slice(func(i int) ui { return app.Elem("span").Text(list[i]) }))
}

// jar is where the stream ends: filled with what it brought.
func (v *Stream) jar() ui {
	return app.Elem("div").Class("jar").Body(
		svg("svg").Attr("width", "92").Attr("height", "86").Attr("viewBox", "0 0 92 86").Body(
			svg("path").Attr("data-part", "matter").Attr("d", "M0 0H"+px(math.Min(60, v.Out))+"V34H0Z"),
			svg("path").Attr("data-part", "matter").Attr("d", "M6 44C20 36 34 40 48 42S68 40 72 44V78Q72 82 68 82H10Q6 82 6 78Z"),
			svg("path").Attr("data-part", "glass").Attr("d", "M2 14V20Q6 22 6 28V78Q6 82 10 82H68Q72 82 72 78V28Q72 22 76 20V14"),
		),
		app.Elem("span").Text(v.Jar+" in the jar"),
	)
}
