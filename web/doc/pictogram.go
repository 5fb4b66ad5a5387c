package doc

import "rosesalt/web/chart"

// Pictogram is the hazard pictogram of a code, such as GHS05. The text leaves it out.
type Pictogram string

func (n Pictogram) page(_ *View, list []ui) []ui {
	if drawn := chart.Pictogram(string(n)); drawn != nil {
		list = append(list, drawn)
	}
	return list
}

func (Pictogram) text(*writer) {}
