package section

import (
	"strings"

	"rosesalt/chem/safety"
	"rosesalt/web/doc"
)

// PlanText is the plan as plain text, for a notebook or a mail. What link.ReadText reads
// again stands before all that a person may have typed, so that no plan in somebody's
// notes is taken for it.
func PlanText(s *Source) string {
	var b strings.Builder
	line := func(text string) { b.WriteString(text + "\n") }
	line("Rosesalt plan")
	line(Words(s.Desk, true))
	if wrong := unusable(s.Desk); wrong != "" {
		line(wrong)
	}
	line("\nTo open it again, paste this text into “" + PasteLabel + "” on the page. Only these lines are read:")
	line(s.PlainLink())
	if bar := (doc.Section{Of: RunBar(s.Desk)}); bar.Of != nil {
		line("\n" + strings.TrimSpace(bar.Plain()))
	}
	told := Stages(s, new(Pictures), false, nil)
	for i := range Parts {
		if p := &Parts[i]; p.Told {
			told = append(told, p.Of(s))
		}
	}
	if made, ok := pureTold(s); ok {
		told = append(told, made)
	}
	for _, made := range told {
		if text := made.Plain(); text != "" {
			b.WriteString("\n" + text)
		}
	}
	if notes := s.Notes(); notes != "" {
		line("\nNotes\n  " + strings.ReplaceAll(notes, "\n", "\n  "))
	}
	line("\n" + safety.Deference())
	return b.String()
}
