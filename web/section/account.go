package section

import (
	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
)

// pouredOrNot is the question that comes before a verdict, with its answers to press; nil where
// nothing needs to be asked. Any other amount is typed in the field above.
func pouredOrNot(p *account.Posterior, v *account.Verdict) []doc.Node {
	planned, ok := p.Poured()
	if v.Question == "" || !ok {
		return nil
	}
	return doc.Nodes{doc.PText("lede", v.Question), doc.ScreenOnly{doc.P(
		"step-done",
		doc.Button{Class: "plain", ID: "poured.none", Text: "No dilute acid", Action: Edit, Value: account.KeyAcid + "=0"},
		doc.Text(" · "),
		doc.Button{Class: "plain", ID: "poured.planned", Text: "As planned, " + route.Print(planned, "mL"), Action: Edit, Value: account.KeyAcid + "=" + route.Plain(route.Shown(planned))},
		doc.Text(" · or type above how much."),
	)}}
}
