package chart

import "github.com/maxence-charriere/go-app/v9/pkg/app"

// Pictograms drawn here to the rule of the GHS, annex 1, and of CLP, annex I, 1.2.1: a
// square set at a point, a black symbol on white, a red frame wide enough to be clearly
// seen. The drawings are our own; the box is 100 wide, and the frame's points touch it.

// symbol is the black of a pictogram: shapes, filled by the even-odd rule, and lines.
type symbol struct {
	name  string // what it shows, in lower case
	fill  string
	lines []stroke
}

type stroke struct{ width, d string }

const (
	pictogramFrame = "M50 0L100 50L50 100L0 50ZM50 7.4L7.4 50L50 92.6L92.6 50Z"
	pictogramPaper = "M50 5L5 50L50 95L95 50Z"
)

var symbols = map[string]symbol{
	"GHS05": {
		"corrosion",
		"" +
			// what is in the tubes, the drops, the eaten bar and the eaten hand
			"M29.4 34.4L41.6 34.4L33.2 42.8L27.1 36.7ZM70.6 34.4L58.4 34.4L66.8 42.8L72.9 36.7Z" +
			"M32.5 45.5C34.9 49.2 34.9 52 32.5 52.2C30.1 52 30.1 49.2 32.5 45.5ZM32.5 54C34.9 57.7 34.9 60.5 32.5 60.7C30.1 60.5 30.1 57.7 32.5 54Z" +
			"M67.5 45.5C65.1 49.2 65.1 52 67.5 52.2C69.9 52 69.9 49.2 67.5 45.5ZM67.5 54C65.1 57.7 65.1 60.5 67.5 60.7C69.9 60.5 69.9 57.7 67.5 54Z" +
			"M23.5 62H27.5C28.4 68 36.6 68 37.5 62H47.5V70.5H31Z" +
			"M77.5 61H73.5C72.4 66.5 63.6 66.5 62.5 61H60.5C57.4 61 54.6 63.4 52 66.4C50.6 68.2 52.4 70.2 54.6 69L59.4 66.6C57.2 69.4 55.4 72.4 57 74.4C58.8 76 61.4 74.2 63.4 72.8H68.6C70.4 72 72.6 69.8 74.6 67.4Z",
		[]stroke{
			{"2", "M33.6 44.2L48.4 29.4A4.9 4.9 0 0 0 41.4 22.4L26.6 37.2M24.4 35.4L35.4 46.4"},
			{"2", "M66.4 44.2L51.6 29.4A4.9 4.9 0 0 1 58.6 22.4L73.4 37.2M75.6 35.4L64.6 46.4"},
			{"1.6", "M25.6 59L23.4 55.6M39.4 59L41.6 55.6M60.6 58.4L58.4 55M74.4 58.4L76.6 55"},
		},
	},
	"GHS07": {
		"exclamation mark",
		"M43 24C43 19 46 16.5 50 16.5S57 19 57 24L53.6 58C53.2 61 52 62.4 50 62.4S46.8 61 46.4 58ZM50 68A7 7 0 0 1 50 82A7 7 0 0 1 50 68Z", nil,
	},
	"GHS08": {
		"health hazard",
		"M50 13.5C55.4 13.5 58.6 17.6 58.6 23.6C58.6 28.4 57 32 54.8 34.2V38.4C60 41.4 68.5 42 71.2 46.6C73.4 51 73 60 71.6 68H67L58 79H42L33 68H28.4C27 60 26.6 51 28.8 46.6C31.5 42 40 41.4 45.2 38.4V34.2C43 32 41.4 28.4 41.4 23.6C41.4 17.6 44.6 13.5 50 13.5Z" +
			"M50 41.5L53.2 51.2L61.5 45.2L57.4 54.6L68 57.5L57.4 60.6L62.2 70.2L53.2 64.2L50 77L46.8 64.2L37.8 70.2L42.6 60.6L32 57.5L42.6 54.6L38.5 45.2L46.8 51.2Z", nil,
	},
	"GHS09": {
		"environment",
		// the fish with its eye, and the bank
		"M43.5 69.4L34.4 62.6C38.4 69 38.4 71.4 35.6 77.4C39 76.4 42.4 74.4 45 72.4C52 79 64.6 77.8 72 68.6C65.6 60.4 51 60.4 43.5 69.4ZM65.4 65.6A1.8 1.8 0 0 1 65.4 69.2A1.8 1.8 0 0 1 65.4 65.6Z" +
			"M17 55.5C24 53 30 55 36 54.6C44 54 54 51.2 68 54.4C54 54.8 48 57.6 38 58C30 58.4 26 61 22.6 61Z",
		[]stroke{
			{"4", "M33.5 55.5C35.5 47 35.5 40 36.5 32"},
			{"2.4", "M35.6 46C31 42 28 40 24.5 39.6M36 40C40 36 44 33.6 50 33M36.5 34C37 28 39.6 24 43 20.5M36.5 34C35.8 32 35 31 33.4 30M42.4 35L46 28.4M29.6 42L28.6 36.6"},
		},
	},
}

// Pictogram draws the hazard pictogram of that code, such as GHS05; nothing for one that
// is not drawn here. Its size is for the stylesheet.
func Pictogram(code string) app.UI {
	s, ok := symbols[code]
	if !ok {
		return nil
	}
	parts := []app.UI{
		svg("path").Attr("data-part", "hazard-paper").Attr("d", pictogramPaper),
		svg("path").Attr("data-part", "hazard-frame").Attr("fill-rule", "evenodd").Attr("d", pictogramFrame),
		svg("path").Attr("data-part", "hazard-symbol").Attr("fill-rule", "evenodd").Attr("d", s.fill),
	}
	for _, l := range s.lines {
		parts = append(parts, svg("path").Attr("data-part", "hazard-line").Attr("stroke-width", l.width).Attr("d", l.d))
	}
	return svg("svg").Attr("data-part", "hazard").Attr("viewBox", "0 0 100 100").Attr("role", "img").Attr("aria-label", code+", "+s.name).Body(parts...)
}
