package web

import (
	"strconv"
	"strings"

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
// value is the figure in full. It is a plain function, not a component: a page
// of components this small would spend its start in their book-keeping.
func figure(v figureView) app.UI {
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
		data = data.DataSet("undefined", v.Why).Body(app.Text("–"), app.Small().Text(v.Why))
	case v.Unit != "":
		data = data.Body(app.Text(v.Number), app.Small().Text("\u202f"+v.Unit))
	default:
		if !startsWithDigit(v.Number) {
			class += " word"
		}
		data = data.Body(app.Text(v.Number))
	}
	if !v.Old {
		return app.Div().Class(class).Body(app.Dt().Text(v.Name), app.Dd().Body(data))
	}
	return app.Div().Class(class).Body(app.Dt().Text(v.Name), app.Dd().Body(data, app.Small().Class("was").Text("from before the last change")))
}

// startsWithDigit tells numbers from words, which are set smaller.
func startsWithDigit(s string) bool {
	return s != "" && (s[0] >= '0' && s[0] <= '9' || strings.HasPrefix(s, "−"))
}
