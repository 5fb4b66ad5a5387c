package web

import (
	"fmt"
	"strings"

	"rosesalt/chem/gaslog"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// planText is the plan as plain text, for a notebook or a mail. What link.ReadText reads
// again stands before all that a person may have typed, so that no plan in somebody's
// notes is taken for it.
func planText(d *desk.Desk) string {
	t := &plainText{d: d}
	t.line("Rosesalt plan")
	t.line(section.Words(d, true))
	if wrong := section.Unusable(d); wrong != "" {
		t.line(wrong)
	}
	t.line("", "To open it again, paste this text into “"+pasteLabel+"” on the page. Only these lines are read:", d.PlainLink())
	t.stages()
	t.parts()
	if notes := d.Notes(); notes != "" {
		t.title("Notes")
		t.item(strings.ReplaceAll(notes, "\n", "\n  "))
	}
	t.line("", safety.Deference())
	return t.b.String()
}

// plainText is a text being written.
type plainText struct {
	d *desk.Desk
	b strings.Builder
}

func (t *plainText) line(lines ...string) {
	for _, l := range lines {
		t.b.WriteString(l + "\n")
	}
}

func (t *plainText) title(text string) { t.line("", text) }
func (t *plainText) item(text string)  { t.line("  " + text) }

// stages are the bar of the run under way, and the stages.
func (t *plainText) stages() {
	if bar := (doc.Section{Of: section.RunBar(t.d)}); bar.Of != nil {
		t.line("", strings.TrimSpace(bar.Plain()))
	}
	var none section.Pictures
	for _, stage := range section.Stages(sourceOf(t.d, nil), &none, false) {
		t.b.WriteString("\n" + stage.Plain())
	}
}

// parts are the parts of the page that are told here: as they stand there, or in words of
// their own.
func (t *plainText) parts() {
	source := sourceOf(t.d, nil)
	own := map[string]func(){gasTitle: t.gas}
	for i := range section.Parts {
		p := &section.Parts[i]
		if tell := own[p.Title]; tell != nil {
			tell()
		}
		if p.Told {
			made := p.Of(source)
			if text := made.Plain(); text != "" {
				t.b.WriteString("\n" + text)
			}
		}
	}
}

// gas is the log of the gas: what was chosen and read, and what was counted.
func (t *plainText) gas() {
	read := t.d.GasReadings()
	if len(read) == 0 {
		return
	}
	t.title(gasTitle)
	for _, in := range gaslog.Inputs() {
		if _, ok := read[in.Key]; !ok {
			continue
		}
		if line := section.ReadingLine(in, t.d.Text(in.Key)); line != "" {
			t.item("  " + line)
		}
	}
	if log, err := t.d.GasLog(); err == nil && log.Last > 0 {
		t.item(fmt.Sprintf("  By minute %d: %s of gas came over", log.Last, route.Print(log.Gas.Best, "mmol")))
	}
}
