package doc

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
)

// Aside draws what stands on the page beside its sections, while there is anything to say.
type Aside struct {
	app.Compo
	Class string // the first of several stays when there is nothing
	Role  string
	Label string // for a screen reader; it makes a region where there is no other role
	Of    []Node
}

// Render draws it.
func (a *Aside) Render() app.UI {
	e := app.Elem("div")
	if a.Of == nil {
		class, _, _ := strings.Cut(a.Class, " ")
		return e.Class(class + " none")
	}
	if a.Role != "" {
		e = e.Role(a.Role)
	}
	if a.Label != "" {
		e = e.Role("region").Attr("aria-label", a.Label)
	}
	return e.Class(a.Class).Body(Draw(a.Of...)...)
}

type (
	// Live is what a screen reader tells when it changes. The text leaves it out.
	Live struct {
		Class, ID string
		Of        []Node
	}

	// Label names the control with an id. The text leaves it out.
	Label struct{ For, Text string }
)

func (n Live) page(v *View, list []ui) []ui {
	return append(list, with(v.elem("div", n.Class, n.Of...).Role("status").Attr("aria-live", "polite"), "id", n.ID))
}

func (n Live) text(w *writer) { w.shown(shown(n.Of)) }

func (n Label) page(_ *View, list []ui) []ui {
	return append(list, app.Elem("label").Attr("for", n.For).Text(n.Text))
}

func (n Label) text(w *writer) { w.shown(n.Text) }
