package chart

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// The colours of a saved picture, on white.
var inks = map[Role]struct{ line, fill string }{
	Ink: {"#24201b", "#d9d6d0"}, Rose: {"#97285f", "#dfa9c2"}, Blue: {"#155a8a", "#9cc3de"},
	Ochre: {"#7c5200", "#dfc07e"}, Zinc: {"#565d63", "#c6cacc"},
}

const (
	sans  = `Candara, Seravek, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif`
	serif = `Palatino, 'Palatino Linotype', 'Noto Serif', 'DejaVu Serif', Georgia, serif`
)

// File writes a picture as an SVG file that needs nothing else: its wide layout
// under its title, in the colours of the light page on white.
func File(p Picture) string {
	d := draw(&p, true)
	const margin, titleEm = 16.0, 18.0
	title := wrap(p.Title, d.width, titleEm)
	note := wrap(p.Note, d.width, 12)
	head := margin + float64(len(title))*24 + 8
	width, height := d.width+2*margin, head+d.height+margin
	if p.Note != "" {
		height += float64(len(note)) * 16
	}

	var b strings.Builder
	b.WriteString(`<svg xmlns="` + svgNS + `" width="` + num(width) + `" height="` + num(height) + `" viewBox="0 0 ` + num(width) + " " + num(height) + `" role="img" font-family="` + sans + `" font-size="` + num(d.em) + `">` + "\n")
	b.WriteString("<title>" + escape(p.Title) + "</title>\n<desc>" + escape(p.Says()) + "</desc>\n")
	b.WriteString(`<rect width="100%" height="100%" fill="#ffffff"/>` + "\n")
	for i, line := range title {
		b.WriteString(`<text x="` + num(margin) + `" y="` + num(margin+20+24*float64(i)) + `" font-family="` + serif + `" font-size="` + num(titleEm) + `" fill="#24201b">` + escape(line) + "</text>\n")
	}
	b.WriteString(`<g transform="translate(` + num(margin) + " " + num(head) + `)">` + "\n")
	for _, n := range d.paths {
		b.WriteString(`<path d="` + n.d + `" ` + look(n.part) + "/>\n")
	}
	for _, n := range d.texts {
		begin := `<text x="` + num(n.x) + `" y="` + num(n.y) + `" `
		if n.anchor != "" {
			begin += `text-anchor="` + n.anchor + `" `
		}
		if strings.HasPrefix(n.part, "label") {
			// Programs that do not know paint-order would draw the halo over the words.
			b.WriteString(begin + `fill="#ffffff" stroke="#ffffff" stroke-width="4" stroke-linejoin="round" aria-hidden="true">` + escape(n.text) + "</text>\n")
		}
		b.WriteString(begin + look(n.part) + ">" + escape(n.text) + "</text>\n")
	}
	b.WriteString("</g>\n")
	if p.Note != "" {
		for i, line := range note {
			b.WriteString(`<text x="` + num(margin) + `" y="` + num(head+d.height+14+16*float64(i)) + `" font-size="12" fill="#5a5348">` + escape(line) + "</text>\n")
		}
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// look is what the stylesheet says of a part, as attributes.
func look(part string) string {
	words := strings.Fields(part)
	role := Ink
	has := map[string]bool{}
	for _, w := range words {
		has[w] = true
		if _, ok := inks[Role(w)]; ok {
			role = Role(w)
		}
	}
	ink := inks[role]
	switch words[0] {
	case "grid":
		return `fill="none" stroke="#d9d0be"`
	case "cut":
		return `fill="none" stroke="` + ink.line + `" stroke-dasharray="2 3"`
	case "axis":
		return `fill="none" stroke="#24201b"`
	case "limit":
		return `fill="none" stroke="#24201b" stroke-width="1.2" stroke-dasharray="5 4"`
	case "line":
		return `fill="none" stroke="` + ink.line + `" stroke-width="2.2" stroke-linejoin="round" stroke-linecap="round"` + dashes(has)
	case "dots":
		return `fill="` + ink.line + `" stroke="#ffffff"`
	case "ring":
		return `fill="#ffffff" stroke="` + ink.line + `" stroke-width="2.4"`
	case "band":
		return `fill="` + ink.fill + `" fill-opacity="0.55" stroke="` + ink.line + `" stroke-width="0.8" stroke-dasharray="1 3"`
	case "flow":
		edge := ""
		if has["lost"] {
			edge = ` stroke-dasharray="3 3"`
		}
		return `fill="` + ink.fill + `" stroke="` + ink.line + `" stroke-width="1"` + edge
	case "tick":
		return `fill="#5a5348"`
	case "head":
		return `fill="#24201b" font-weight="600"`
	case "label":
		return `fill="` + ink.line + `"`
	}
	return `fill="#24201b"`
}

func dashes(has map[string]bool) string {
	switch {
	case has[string(Dashed)]:
		return ` stroke-dasharray="7 5"`
	case has[string(Dotted)]:
		return ` stroke-dasharray="0.1 5"`
	}
	return ""
}

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace

// Capital begins a sentence.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
