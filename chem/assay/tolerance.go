package assay

import "math"

// Class is the quality of volumetric glass.
type Class int

// The classes. Unmarked glass carries no class; it is taken to err by twice as much
// as class B (estimate).
const (
	ClassA Class = iota
	ClassB
	Unmarked
)

// Ware is a kind of volumetric vessel.
type Ware int

// The wares.
const (
	Burette Ware = iota
	Pipette
	Flask
	Cylinder
)

// classA lists capacity and tolerance of class A in mL.
//
// Cylinders: ASTM E1272-02(2012), Table 1 (read in an excerpt). Pipettes with one
// mark: ASTM E694, in Table 3-1 of the Illustrated Guide to Home Chemistry Experiments.
// Burettes: ISO 385 by two makers' guides; that of 10 mL
// Reichs-Gesetzblatt 1893, no. 27, p. VI (over 2 to 10 cm³). Flasks: Germany's
// Eichordnung, Anlage 12, 3.2 (read in a transcription; 100 mL also EURACHEM/CITAC CG 4,
// Example A1); tighter ones are sold. Class B is twice class A (ASTM E287 and E288).
var classA = map[Ware][]struct{ capacity, tolerance float64 }{
	Burette:  {{10, 0.02}, {25, 0.03}, {50, 0.05}, {100, 0.10}},
	Pipette:  {{5, 0.01}, {10, 0.02}, {25, 0.03}, {50, 0.05}, {100, 0.08}},
	Flask:    {{50, 0.06}, {100, 0.10}, {250, 0.15}, {500, 0.25}, {1000, 0.40}},
	Cylinder: {{5, 0.05}, {10, 0.10}, {25, 0.17}, {50, 0.25}, {100, 0.50}, {250, 1.00}, {500, 2.00}},
}

// Tolerance is the half-width in mL within which the smallest ware of the kind that
// holds the volume is right; not ok where no such ware is listed.
func Tolerance(w Ware, c Class, millilitres float64) (t float64, ok bool) {
	for _, row := range classA[w] {
		if millilitres <= row.capacity {
			return row.tolerance * []float64{1, 2, 4}[c], millilitres > 0
		}
	}
	return 0, false
}

// rectangular is the standard uncertainty of a half-width within which all values are
// equally likely (JCGM 100:2008, 4.3.7); triangular where those in the middle are likelier,
// as the makers of glass see to (EURACHEM/CITAC Guide CG 4, Appendix E and Example
// A1; JCGM 100:2008, 4.3.9).
func rectangular(half float64) float64 { return half / math.Sqrt(3) }

func triangular(half float64) float64 { return half / math.Sqrt(6) }

const (
	// waterSwells is by what share of its volume water swells a kelvin, and roomKelvin within
	// how many kelvins a room keeps of the glass's 20 °C (EURACHEM/CITAC CG 4, Example A1).
	waterSwells = 2.1e-4
	roomKelvin  = 4
	// endPoint is a drop, in mL, by which an end point may be passed or missed (common practice).
	endPoint = 0.05
	// balanceSteps is by how many of its steps a pocket balance may be off over the span of
	// one weighing (common practice: two or three).
	balanceSteps = 2
	// puritySpan is the half-width of a reagent's stated purity, in percent (estimate).
	puritySpan = 0.5
	// knownShare is the half-width of a molarity that was typed and not found here, as a
	// share of it (estimate: a solution kept and not standardised anew).
	knownShare = 0.01
	// Sampling is how far a small sample may differ from the rest, as a half-width, a
	// share of the result (estimate: well ground and mixed).
	Sampling = 0.01
)

// weighing is the standard uncertainty in g of a mass found as a difference of two
// readings of a digital balance: each within half a step (JCGM 100:2008, F.2.2.1),
// and the balance's own error over the span.
func weighing(step float64) float64 {
	return quadrature(math.Sqrt2*step/math.Sqrt(12), rectangular(balanceSteps*step))
}

// volume is the standard uncertainty in mL of a measured volume: the ware's, and the
// room's temperature.
func volume(w Ware, c Class, ml float64) (u float64, ok bool) {
	t, ok := Tolerance(w, c, ml)
	return quadrature(triangular(t), rectangular(waterSwells*roomKelvin*ml)), ok
}
