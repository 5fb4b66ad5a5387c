package web

import (
	"fmt"
	"math"
	"strconv"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/ledger"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// The stream's measures, in pixels.
const (
	streamWidth = 96.0  // of all manganese brought in
	spineWidth  = 132.0 // of the margin
	jointHeight = 96.0  // over which what leaves bends away
)

// spineView is the part of the stream beside one section, in pixels: how wide it
// comes in, how wide it goes on, what leaves and joins, and whether it ends here
// in the jar.
type spineView struct {
	In, Out   string
	Halo      string   // how wide it might be
	Leaves    string   // width of all that leaves
	Labels    []string // what leaves, a line each
	Joins     string   // what joins, in words
	JoinWidth string
	Blue      string // width of a copper ribbon instead
	BlueLabel string
	Jar       string // what runs into the jar
}

// spinesOf draws the manganese from the ledger's bookings.
func spinesOf(d *desk.Desk) [route.Stages]spineView {
	var list [route.Stages]spineView
	legs := d.Legs()
	if len(legs) == 0 || legs[0].In <= 0 {
		return list
	}
	scale := streamWidth / float64(legs[0].In)
	width := func(moles float64) string { return px(moles * scale) }
	for _, leg := range legs {
		v := &list[leg.Stage]
		v.In, v.Out = width(float64(leg.In)), width(float64(leg.Out))
		gone := 0.0
		for _, l := range leg.Leaves {
			gone += float64(l.Moles)
			if float64(l.Moles) > 0.004*float64(legs[0].In) || float64(l.Moles) > 0.01*float64(leg.In) {
				v.Labels = append(v.Labels, route.Print(l.Moles.Millimoles(), "mmol")+" "+leaving[l.To])
			}
		}
		if gone*scale >= 0.3 {
			v.Leaves = px(math.Max(1.5, gone*scale))
		}
	}
	s := d.Sheet()
	for stage, id := range haloOf {
		if b := d.Band(id); b.OK && s.Value(id) > 0 && list[stage].Out != "" {
			list[stage].Halo = px(math.Min(spineWidth, number(list[stage].Out)*math.Max(1, b.High/s.Value(id))))
		}
	}
	if taken := s.Value(route.UptakeTaken); s.Reason(route.UptakeTaken) == route.Defined && taken > 0 {
		v := &list[route.Slurry]
		v.JoinWidth = width(taken / 1000)
		v.Joins = route.Print(taken, "mmol") + " of gas joins"
	}
	if s.Reason(route.ProductMass) == route.Defined {
		list[route.Dry].Jar = route.Print(s.Value(route.ProductMass), "g")
	}
	if s.Reason(route.CopperSulfatePenta) == route.Defined && s.Value(route.GasMade) > 0 {
		v := &list[route.CopperSalt]
		v.Blue = px(math.Min(streamWidth, s.Value(route.GasMade)/1000*scale))
		if s.Reason(route.CopperCrop) == route.Defined {
			v.BlueLabel = route.Print(s.Value(route.CopperCrop), "g") + " blue crystals"
		}
	}
	return list
}

// haloOf is the figure whose doubt widens the stream at a stage.
var haloOf = [route.Dry + 1]route.FigureID{
	route.Cells: route.MixManganese, route.Wash: route.MixManganese, route.Batch: route.BatchManganese, route.Gas: route.BatchManganese,
	route.Slurry: route.BatchManganese, route.Filter: route.ProductAnhydrous, route.Dry: route.ProductAnhydrous,
}

// leaving says where matter goes, as the stream's labels read.
var leaving = map[ledger.Vessel]string{
	ledger.Tray: "to the tray", ledger.WashLiquor: "with the liquor", ledger.Reserve: "kept for later",
	ledger.Residue: "in the cake", ledger.Losses: "lost on the way", ledger.Vent: "to the air",
	ledger.MotherLiquor: "in the mother liquor",
}

func px(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

// spine draws it. It is hidden from screen readers: the figures say the same.
type spine struct {
	app.Compo
	View spineView
}

const svgNS = "http://www.w3.org/2000/svg"

func svg(tag string) app.HTMLElem { return app.Elem(tag).XMLNS(svgNS) }

func number(s string) float64 { v, _ := strconv.ParseFloat(s, 64); return v }

func (s *spine) Render() app.UI {
	v := s.View
	if v.In == "" && v.Blue == "" {
		return app.Elem("div").Class("spine").Aria("hidden", "true")
	}
	if v.Blue != "" {
		return app.Elem("div").Class("spine flows copper").Aria("hidden", "true").Body(
			ribbon("run blue", v.Blue), labels([]string{v.BlueLabel}, "blue"),
		)
	}
	run, class := "run", "spine flows"
	if v.Jar != "" {
		run, class = run+" ends", class+" ends"
	}
	var parts []app.UI
	if v.Halo != "" {
		parts = append(parts, ribbon(run+" halo", v.Halo))
	}
	parts = append(parts, ribbon(run, v.Out))
	if v.Leaves != "" || v.Joins != "" {
		parts = append(parts, joint(v))
	}
	if v.Joins != "" {
		parts = append(parts, labels([]string{v.Joins}, "join"))
	}
	if len(v.Labels) > 0 {
		parts = append(parts, labels(v.Labels, "leave"))
	}
	if v.Jar != "" {
		parts = append(parts, jar(v))
	}
	return app.Elem("div").Class(class).Aria("hidden", "true").Body(parts...)
}

// ribbon is the stream, as tall as its section.
func ribbon(class, width string) app.UI {
	return svg("svg").Attr("data-part", class).Attr("width", width).Attr("height", "100%").Attr("preserveAspectRatio", "none").Attr("viewBox", "0 0 10 10").Body(
		svg("rect").Attr("data-part", "matter").Attr("width", "10").Attr("height", "10"),
	)
}

// joint narrows the stream from what comes in to what goes on; what leaves bends
// off to the right and stops at a line, what joins comes in from the right.
func joint(v spineView) app.UI {
	in, out, h := number(v.In), number(v.Out), jointHeight
	var parts []app.UI
	if v.Leaves != "" {
		w := number(v.Leaves)
		end := math.Min(spineWidth-6, math.Max(out+14+w, in+6))
		parts = append(parts,
			svg("path").Attr("data-part", "gone").Attr("d", fmt.Sprintf("M%.1f 0C%.1f 30 %.1f 34 %.1f 64H%.1fC%.1f 40 %.1f 26 %.1f 0Z", in-w, in-w, end-w, end-w, end, end, in, in)),
			svg("path").Attr("data-part", "bar").Attr("d", fmt.Sprintf("M%.1f 65H%.1f", math.Max(out+2, end-w-4), math.Min(spineWidth, end+4))),
		)
	}
	// A pixel more at both ends: sections seldom begin on a whole one, and the ground
	// would show as a hair across the stream.
	parts = append(parts, svg("path").Attr("data-part", "matter").Attr("d",
		fmt.Sprintf("M0 -1H%.1fV0C%.1f %.1f %.1f %.1f %.1f %.1fV%.1fH0Z", in, in, h*0.45, out, h*0.5, out, h, h+1)))
	if v.Joins != "" {
		w := math.Max(2, math.Min(40, number(v.JoinWidth)))
		parts = append(parts, svg("path").Attr("data-part", "gas").Attr("d",
			fmt.Sprintf("M%.1f 6V%.1fC%.1f %.1f %.1f %.1f %.1f %.1fL%.1f %.1fC%.1f 40 %.1f 6 %.1f 6Z",
				spineWidth, 6+w/2, out+40, 6+w/2, out+w/2, 50.0, out, h, out, h-w, out+4, out+30, spineWidth)))
	}
	return svg("svg").Attr("data-part", "joint").Attr("width", px(spineWidth)).Attr("height", px(h)).Body(parts...)
}

func labels(list []string, class string) app.UI {
	return app.Elem("div").Class("labels " + class).Body(app.Range(list).Slice(func(i int) app.UI { return app.Elem("span").Text(list[i]) }))
}

// jar is where the stream ends: filled with what it brought.
func jar(v spineView) app.UI {
	return app.Elem("div").Class("jar").Body(
		svg("svg").Attr("width", "92").Attr("height", "86").Attr("viewBox", "0 0 92 86").Body(
			svg("path").Attr("data-part", "matter").Attr("d", "M0 0H"+px(math.Min(60, number(v.Out)))+"V34H0Z"),
			svg("path").Attr("data-part", "matter").Attr("d", "M6 44C20 36 34 40 48 42S68 40 72 44V78Q72 82 68 82H10Q6 82 6 78Z"),
			svg("path").Attr("data-part", "glass").Attr("d", "M2 14V20Q6 22 6 28V78Q6 82 10 82H68Q72 82 72 78V28Q72 22 76 20V14"),
		),
		app.Elem("span").Text(v.Jar+" in the jar"),
	)
}
