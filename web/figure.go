package web

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
)

// figureView is what one figure shows.
type figureView struct {
	Key, Name    string
	Value        string // full precision, or the word
	Number, Unit string // as read
	Why          string // why it is not defined
	Tint         string
	Old          bool
}

func viewFigure(s *route.Sheet, id route.FigureID, old bool) figureView {
	info := id.Info()
	v := figureView{Key: info.Key, Name: info.Name, Tint: tint[id], Old: old}
	switch {
	case s.Reason(id) != route.Defined:
		v.Why = s.Reason(id).String()
	case info.Words != nil:
		v.Value = s.Word(id)
		v.Number = v.Value
	default:
		v.Value = strconv.FormatFloat(s.Value(id), 'g', -1, 64)
		v.Number, v.Unit = route.PrintParts(s.Value(id), info.Unit)
	}
	return v
}

// figure is a line of a list of figures: the name, and a data element whose
// value is the figure in full.
type figure struct {
	app.Compo
	View figureView
}

func (f *figure) Render() app.UI {
	v := f.View
	class := "fig"
	if v.Tint != "" {
		class += " lead " + v.Tint
	}
	if v.Old {
		class += " old"
	}
	data := app.Elem("data").ID(v.Key).Attr("value", v.Value)
	switch {
	case v.Why != "":
		class += " undefined"
		data = data.DataSet("undefined", v.Why).Body(app.Span().Class("num").Text("–"), app.Small().Text(v.Why))
	case v.Unit == "":
		data = data.Body(app.Span().Class(numberClass(v.Number)).Text(v.Number))
	default:
		data = data.Body(app.Span().Class("num").Text(v.Number), app.Small().Text("\u202f"+v.Unit))
	}
	return app.Div().Class(class).Body(
		app.Dt().Text(v.Name),
		app.Dd().Body(data, app.If(v.Old, app.Small().Class("was").Text(" before the last typing"))),
	)
}

// numberClass sets words smaller than numbers.
func numberClass(s string) string {
	if len(s) > 0 && (s[0] >= '0' && s[0] <= '9' || s[0] == '-') {
		return "num"
	}
	return "word"
}
