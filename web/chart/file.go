package chart

import (
	"fmt"
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
	put := func(format string, v ...any) { fmt.Fprintf(&b, format+"\n", v...) }
	put(`<svg xmlns="%s" width="%[2]s" height="%[3]s" viewBox="0 0 %[2]s %[3]s" role="img" font-family="%[4]s" font-size="%[5]s">`, svgNS, num(width), num(height), sans, num(d.em))
	put("<title>%s</title>\n<desc>%s</desc>", escape(p.Title), escape(p.Says()))
	put(`<rect width="100%%" height="100%%" fill="#ffffff"/>`)
	for i, line := range title {
		put(`<text x="%s" y="%s" font-family="%s" font-size="%s" fill="#24201b">%s</text>`, num(margin), num(margin+20+24*float64(i)), serif, num(titleEm), escape(line))
	}
	put(`<g transform="translate(%s %s)">`, num(margin), num(head))
	for _, n := range d.paths {
		put(`<path d="%s" %s/>`, n.d, look(n.part))
	}
	for _, n := range d.texts {
		begin := `<text x="` + num(n.x) + `" y="` + num(n.y) + `" `
		if n.anchor != "" {
			begin += `text-anchor="` + n.anchor + `" `
		}
		if strings.HasPrefix(n.part, "label") {
			// Programs that do not know paint-order would draw the halo over the words.
			put(`%sfill="#ffffff" stroke="#ffffff" stroke-width="4" stroke-linejoin="round" aria-hidden="true">%s</text>`, begin, escape(n.text))
		}
		put(`%s%s>%s</text>`, begin, look(n.part), escape(n.text))
	}
	put("</g>")
	if p.Note != "" {
		for i, line := range note {
			put(`<text x="%s" y="%s" font-size="12" fill="#5a5348">%s</text>`, num(margin), num(head+d.height+14+16*float64(i)), escape(line))
		}
	}
	put("</svg>")
	return b.String()
}

// looks are what the stylesheet says of parts, as attributes; those after the first word of a part
// are added to its own.
var looks = map[string]string{
	"grid":  `fill="none" stroke="#d9d0be"`,
	"cut":   `fill="none" stroke="$line" stroke-dasharray="2 3"`,
	"axis":  `fill="none" stroke="#24201b"`,
	"limit": `fill="none" stroke="#24201b" stroke-width="1.2" stroke-dasharray="5 4"`,
	"line":  `fill="none" stroke="$line" stroke-width="2.2" stroke-linejoin="round" stroke-linecap="round"`,
	"dots":  `fill="$line" stroke="#ffffff"`,
	"ring":  `fill="#ffffff" stroke="$line" stroke-width="2.4"`,
	"band":  `fill="$fill" fill-opacity="0.55" stroke="$line" stroke-width="0.8" stroke-dasharray="1 3"`,
	"flow":  `fill="$fill" stroke="$line" stroke-width="1"`,
	"tick":  `fill="#5a5348"`,
	"head":  `fill="#24201b" font-weight="600"`,
	"label": `fill="$line"`,
	"name":  `fill="#24201b"`,

	string(Dashed): ` stroke-dasharray="7 5"`,
	string(Dotted): ` stroke-dasharray="0.1 5"`,
	"lost":         ` stroke-dasharray="3 3"`,
}

// look is what the stylesheet says of a part, as attributes.
func look(part string) string {
	ink, all := inks[Ink], ""
	for word := range strings.FieldsSeq(part) {
		if of, ok := inks[Role(word)]; ok {
			ink = of
		}
		all += looks[word]
	}
	return strings.NewReplacer("$line", ink.line, "$fill", ink.fill).Replace(all)
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
