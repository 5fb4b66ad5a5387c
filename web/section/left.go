package section

import "rosesalt/web/doc"

// The actions about what tabs that are gone left.
const (
	GoOn      = "left.goon"      // with a tab's identifier
	Forget    = "left.forget"    // the same
	ForgetAll = "left.forgetall" // with nothing: this tab's own too
)

// Offer is what a tab that is gone left, in words.
type Offer struct{ ID, Words string }

// Left offers what was left, the newest first and the others folded away, and says why
// nothing is kept where it is not.
func Left(trouble string, offers []Offer) (list []doc.Node) {
	if trouble != "" {
		list = append(list, doc.Para{ID: "keeps.nothing", Of: doc.Nodes{doc.Text(trouble)}})
	}
	var all []doc.Node
	for _, o := range offers {
		goOn, forget := press(GoOn, o.ID, "Go on"), press(Forget, o.ID, "Forget it")
		goOn.Label, forget.Label = "Go on: "+o.Words, "Forget it: "+o.Words
		all = append(all, doc.Div("offer", doc.PText("", "Go on with "+o.Words+"?"), doc.Box{Of: doc.Nodes{goOn, forget}}))
	}
	if len(all) > 0 {
		list = append(list, all[0])
	}
	if len(all) > 1 {
		list = append(list, doc.Fold{Title: "And what was left before", Of: all[1:]})
	}
	return list
}
