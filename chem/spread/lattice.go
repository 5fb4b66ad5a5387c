package spread

import (
	"math/bits"

	"rosesalt/chem/route"
)

// generator is the start of the generating vector of an embedded lattice in base
// 2, good for any power of two up to 2^20 points: R. Cools, F. Y. Kuo and D. Nuyens,
// "Constructing embedded lattice rules for multivariate integration", SIAM J. Sci.
// Comput. 28 (2006) 2162, the vector of order 2, all pairs of coordinates weighed
// alike, as published with it (exod2_base2_m20_CKN).
var generator = [...]uint64{
	1, 182667, 469891, 498753, 110745, 446247, 250185, 118627, 245333, 283199,
	408519, 391023, 246327, 126539, 399185, 461527, 300343, 69681, 516695, 436179,
	106383, 238523, 413283, 70841, 47719, 300129, 113029, 123925, 410745, 211325,
	17489, 511893, 40767, 186077, 519471, 255369, 101819, 243573, 66189, 152143,
	503455, 113217, 132603, 463967, 297717, 157383, 224015, 502917, 36237, 94049,
	170665, 79397, 123963, 223451, 323871, 303633, 98567, 318855, 494245, 477137,
	177975, 64483, 26695, 88779, 94497, 239429, 381007, 110205, 339157, 73397,
	407559, 181791, 442675, 301397, 32569, 147737, 189949, 138655, 350241, 63371,
	511925, 515861, 434045, 383435, 249187, 492723, 479195, 84589, 99703, 239831,
	269423, 182241, 61063, 130789, 143095, 471209, 139019, 172565, 487045, 304803,
	45669, 380427, 19547, 425593, 337729, 237863, 428453, 291699, 238587, 110653,
	196113, 465711, 141583, 224183, 266671, 169063, 317617, 68143, 291637, 263355,
	427191, 200211, 365773, 254701, 368663, 248047, 209221, 279201,
}

// mostDraws is how many points the generating vector is good for.
const mostDraws = 1 << 20

// seed fixes the shift of the lattice. Any number does.
const seed = 0x526f736573616c74

// lattice is a shifted lattice: as integers, of which 2^64 is one.
type lattice struct {
	shift [len(generator)]uint64
}

// newLattice draws the shifts by SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
func newLattice(seed uint64) (l lattice) {
	for i := range l.shift {
		seed += 0x9e3779b97f4a7c15
		z := seed
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		l.shift[i] = z ^ z>>31
	}
	return l
}

// points is the lattice of every run.
var points = newLattice(seed)

// reversed is a point's number with its bits reversed: the van der Corput sequence
// in integers. It is worth taking once for all coordinates of a point.
func reversed(point int) uint64 { return bits.Reverse64(uint64(point)) }

// at is a coordinate of a point given by its reversed number: that, times the
// coordinate's generator, shifted, modulo one.
func (l *lattice) at(reversed uint64, coordinate int) uint64 {
	return reversed*generator[coordinate] + l.shift[coordinate]
}

// unit makes a number above 0 and below 1 of an integer of which 2^64 is one. It
// is exact: 52 bits, and a half for the middle of the step.
func unit(u uint64) float64 { return (float64(u>>12) + 0.5) * 0x1p-52 }

// coordinates gives each input its own coordinate in every plan: first the inputs
// of the whole plan and of the first row, then those of further rows, which are
// seldom there, then those that came later, in the order in which they came.
var coordinates = giveCoordinates()

// giveCoordinates hands them out.
func giveCoordinates() []int {
	inputs := route.Inputs()
	list, next := make([]int, len(inputs)), 0
	take := func(wanted func(in *route.Input) bool) {
		for i := range inputs {
			if in := &inputs[i]; !in.IsChoice() && wanted(in) {
				list[i], next = next, next+1
			}
		}
	}
	last := 0
	for i := range inputs {
		last = max(last, inputs[i].DrawGroup)
	}
	take(func(in *route.Input) bool { return in.DrawGroup == 0 && in.Row <= 1 })
	take(func(in *route.Input) bool { return in.DrawGroup == 0 && in.Row > 1 })
	for group := 1; group <= last; group++ {
		take(func(in *route.Input) bool { return in.DrawGroup == group && in.Row == 0 })
	}
	if next > len(generator) {
		panic("spread: more inputs than the lattice has coordinates")
	}
	return list
}
