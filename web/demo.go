//go:build !js

package web

import (
	"fmt"
	entities "html"
	"maps"
	"slices"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/tabs"
)

// Demo is the page as it first stands with the plan that it begins with, as HTML. It is read
// before the program runs, and where it cannot: nothing in it can be pressed or typed in.
func Demo() (string, error) {
	p := &page{}
	p.OnInit()
	p.last.store = tabs.Open(nothingKept{}, "")
	return still(app.HTMLString(p), func(key string) string {
		text, _, _ := p.stands(key)
		return text
	})
}

// nothingKept is a storage that holds nothing.
type nothingKept struct{}

func (nothingKept) Keys() ([]string, error)     { return nil, nil }
func (nothingKept) Load(string) (string, error) { return "", nil }
func (nothingKept) Save(string, string) error   { return nil }
func (nothingKept) Remove(string) error         { return nil }

// still makes HTML that a browser reads as the elements are out of what the component library
// writes, with the texts that stand in the fields: the library puts line ends between elements,
// writes a yes as a bare name and a no as a word, quotes as Go does, and has attributes in no
// order. It is written as a browser writes it into a saved copy. The tabulator goes past all of
// it.
func still(written string, stands func(key string) string) (string, error) {
	var b strings.Builder
	for written != "" {
		text, tag, _ := strings.Cut(written, "<")
		b.WriteString(inText.Replace(entities.UnescapeString(strings.ReplaceAll(text, "\n", ""))))
		if tag == "" {
			break
		}
		name := tag[:strings.IndexAny(tag, " >")]
		attributes, rest, err := readAttributes(tag[len(name):])
		if err != nil {
			return "", fmt.Errorf("web: %s of the demo: %w", name, err)
		}
		written = rest
		switch name {
		case "/input": // has no end
			continue
		case "input":
			key := attributes["name"]
			if key == "" {
				key = attributes["data-key"]
			}
			attributes["value"] = stands(key)
			fallthrough
		case "button", "select":
			attributes["tabindex"] = "-1"
		}
		b.WriteString("<" + name)
		for _, a := range slices.Sorted(maps.Keys(attributes)) {
			b.WriteString(" " + a + `="` + inQuotes.Replace(attributes[a]) + `"`)
		}
		b.WriteString(">")
	}
	return b.String(), nil
}

// What browsers write for letters that would not be read as such.
var (
	inText   = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", "\u00a0", "&nbsp;")
	inQuotes = strings.NewReplacer("&", "&amp;", `"`, "&quot;", "\u00a0", "&nbsp;")
)

// readAttributes reads the attributes of a tag as the library writes them, and gives what is
// behind the tag. What is said no to is left out.
func readAttributes(tag string) (list map[string]string, behind string, err error) {
	list = map[string]string{}
	for strings.HasPrefix(tag, " ") {
		at := strings.IndexAny(tag[1:], "= >") + 1
		name, value := strings.Replace(tag[1:at], "Hidden", "hidden", 1), ""
		tag = tag[at:]
		if strings.HasPrefix(tag, "=") {
			quoted, err := strconv.QuotedPrefix(tag[1:])
			if err != nil {
				return nil, "", fmt.Errorf("%s: %w", name, err)
			}
			value, _ = strconv.Unquote(quoted) // it is quoted
			tag = tag[1+len(quoted):]
		} else if strings.HasPrefix(name, "aria-") {
			value = "true"
		}
		if value != "false" || strings.HasPrefix(name, "aria-") {
			list[name] = value
		}
	}
	behind, ok := strings.CutPrefix(tag, ">")
	if !ok {
		return nil, "", fmt.Errorf("%.20q does not end a tag", tag)
	}
	return list, behind, nil
}
