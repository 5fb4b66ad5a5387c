package section

import (
	"math"

	"rosesalt/chem/ledger"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// streamWidth is the width of the stream that all manganese brought in makes, in pixels.
const streamWidth = 96.0

// streams draws the manganese from the ledger's bookings.
func streams(d *desk.Desk) [route.Stages]doc.Stream {
	var list [route.Stages]doc.Stream
	legs := d.Legs()
	if len(legs) == 0 || legs[0].In <= 0 {
		return list
	}
	scale := streamWidth / float64(legs[0].In)
	width := func(moles float64) float64 { return tenth(moles * scale) }
	for _, leg := range legs {
		v := &list[leg.Stage]
		v.Flows, v.In, v.Out = true, width(float64(leg.In)), width(float64(leg.Out))
		gone := 0.0
		for _, l := range leg.Leaves {
			gone += float64(l.Moles)
			if float64(l.Moles) > 0.004*float64(legs[0].In) || float64(l.Moles) > 0.01*float64(leg.In) {
				v.Labels = append(v.Labels, route.Print(l.Moles.Millimoles(), "mmol")+" "+leaving[l.To])
			}
		}
		if gone*scale >= 0.3 {
			v.Leaves = tenth(math.Max(1.5, gone*scale))
		}
	}
	s := d.Sheet()
	for stage, id := range haloOf {
		if b := d.Band(id); b.OK && s.Value(id) > 0 && list[stage].Flows {
			list[stage].Halo = tenth(math.Min(doc.StreamMost, list[stage].Out*math.Max(1, b.High/s.Value(id))))
		}
	}
	if taken := s.Value(route.UptakeTaken); s.Reason(route.UptakeTaken) == route.Defined && taken > 0 {
		v := &list[route.Slurry]
		v.JoinWidth = width(taken / 1000)
		v.Joins = route.Print(taken, "mmol") + " of gas joins"
	}
	if s.Reason(route.ProductMass) == route.Defined {
		list[route.Dry].Jar = route.Print(s.Value(route.ProductMass), "g")
	}
	if s.Reason(route.CopperSulfatePenta) == route.Defined && s.Value(route.GasMade) > 0 {
		v := &list[route.CopperSalt]
		v.Blue = tenth(math.Min(streamWidth, s.Value(route.GasMade)/1000*scale))
		if s.Reason(route.CopperCrop) == route.Defined {
			v.BlueLabel = route.Print(s.Value(route.CopperCrop), "g") + " blue crystals"
		}
	}
	return list
}

// haloOf is the figure whose doubt widens the stream at a stage.
var haloOf = [route.Dry + 1]route.FigureID{
	route.Cells: route.MixManganese, route.Wash: route.MixManganese, route.Batch: route.BatchManganese, route.Gas: route.BatchManganese,
	route.Slurry: route.BatchManganese, route.Filter: route.ProductAnhydrous, route.Dry: route.ProductAnhydrous,
}

// leaving says where matter goes, as the stream's labels read.
var leaving = map[ledger.Vessel]string{
	ledger.Tray: "to the tray", ledger.WashLiquor: "with the liquor", ledger.Reserve: "kept for later",
	ledger.Residue: "in the cake", ledger.Losses: "lost on the way", ledger.Vent: "to the air",
	ledger.MotherLiquor: "in the mother liquor",
}

func tenth(v float64) float64 { return math.Round(v*10) / 10 }
