package sound

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// A single start may be a syllable, a click or noise. Bubbles are recognised by what they
// share: one tube makes them of one size, so their pitches form a group, and nothing else
// starts at the same moment. So all starts of a recording are judged together at its end.

// Thresholds of the judgement, found on synthetic recordings (estimates).
const (
	strongSNR    = 14   // power over noise of a clear start; below it a start is faint
	alone        = 3    // most others at the moment of a start that is taken as evidence
	company      = 5    // most others at the moment of a start that is counted
	crowdPower   = 0.05 // of the median bubble's power: weaker crowds do not disturb
	crowdEvents  = 1    // crowded starts in half a second that make it a disturbance
	half         = 0.5  // s, the duration that is trusted or not as a whole
	contrast     = 5    // density of pitches in a group over that outside
	groupChance  = 1e-4 // highest probability that a group of pitches is due to chance
	strayClear   = 0.25 // highest share of strays in a class of clear starts
	strayFaint   = 0.12 // the same in a class of faint starts
	classStep    = 2    // ratio of powers from one class to the next
	fewest       = 3    // least bubbles in a group
	leastTrusted = 0.15 // least share of the recording that must be trusted
	mostSpread   = 7    // dB, largest standard deviation of a group's loudness
	quiet        = 0.02 // of the median bubble's power: weaker starts are no bubbles of that tube
	quietest     = 0.3  // of the least power of a try
	tails        = 0.3  // share of a group's width that is added on each side
)

// noiseClasses are the bounds of the classes of faint starts, power over noise.
var noiseClasses = [...]float64{strongSNR, 11, 9, overFloor}

// group is a range of pitches that bubbles share, as natural logarithms of Hz.
type group struct{ low, high float64 }

// judged is the result of judging all starts.
type judged struct {
	kept    []start
	least   float64 // power over noise down to which starts were kept
	groups  []group
	doubted []bool // each half second
	trouble string
}

func logPitch(s start) float64 { return math.Log(float64(s.pitch)) }

func (g group) holds(x float64) bool { return x >= g.low && x <= g.high }

func inGroups(groups []group, x float64) bool {
	for _, g := range groups {
		if g.holds(x) {
			return true
		}
	}
	return false
}

// judge picks the bubbles among the starts, at pitches between lowest and highest.
//
// The loudness of the bubbles decides what counts as a disturbance, and is not known before
// they are found. So all strong starts are tried first; if that finds nothing, only the
// louder ones, for a few bubbles over many soft noises.
func judge(found []start, length float64, lowest, highest Hertz) judged {
	slices.SortFunc(found, func(a, b start) int { return cmp.Compare(a.at, b.at) })
	var strong []start
	var powers []float64
	for _, s := range found {
		if s.snr >= strongSNR && s.others <= alone {
			strong = append(strong, s)
			powers = append(powers, float64(s.power))
		}
	}
	slices.Sort(powers)
	var first judged
	for i, louder := range [...]float64{0, 0.5, 0.8, 0.93} {
		least := 0.0
		if louder > 0 && len(powers) > 0 {
			least = powers[int(louder*float64(len(powers)))]
		}
		j := try(found, strong, least, length, lowest, highest)
		if j.trouble == "" {
			return j
		}
		if i == 0 {
			first = j
		}
	}
	return first
}

// try judges on the assumption that the bubbles are among the strong starts of at least a
// power.
func try(found, strong []start, least, length float64, lowest, highest Hertz) judged {
	j := judged{doubted: make([]bool, int(length/half)+1)}
	bottom, width := math.Log(float64(lowest)), math.Log(float64(highest/lowest))
	loud := slices.DeleteFunc(slices.Clone(strong), func(s start) bool { return float64(s.power) < least })
	middle := middlePower(loud, findGroups(loud, bottom, width, true))
	j.doubt(found, middle)
	candidates := slices.DeleteFunc(slices.Clone(strong), func(s start) bool {
		return j.doubts(float64(s.at)) || float64(s.power) < math.Max(quiet*middle, quietest*least)
	})
	j.groups = findGroups(candidates, bottom, width, false)
	inside := 0
	for _, s := range candidates {
		if inGroups(j.groups, logPitch(s)) {
			inside++
		}
	}
	switch {
	case len(j.groups) == 0 && j.trusted() < 0.5, len(j.groups) > 0 && j.trusted() < leastTrusted:
		j.trouble = "This recording cannot be counted, because voices, wind or knocks cover most of it."
	case len(j.groups) == 0 && len(candidates) > 20:
		j.trouble = "This recording cannot be counted, because what rings in it has no pitch in common, as bubbles from one tube have."
	case len(j.groups) == 0:
		j.trouble = "This recording cannot be counted, because nothing in it rings like a train of bubbles."
	case 2*inside < len(candidates):
		j.trouble = "This recording cannot be counted, because most of what rings in it has no pitch in common, as bubbles from one tube have."
	default:
		j.keep(found, width, middle)
	}
	return j
}

func (j *judged) doubts(at float64) bool {
	i := int(at / half)
	return i >= 0 && i < len(j.doubted) && j.doubted[i]
}

// trusted is the share of the recording that is trusted.
func (j *judged) trusted() float64 {
	n := 0
	for _, d := range j.doubted {
		if !d {
			n++
		}
	}
	return float64(n) / float64(len(j.doubted))
}

// doubt marks the half seconds in which crowds of starts as loud as bubbles are, and
// a second on each side.
func (j *judged) doubt(found []start, middle float64) {
	events := make([]int, len(j.doubted))
	for _, s := range found {
		if s.others > company && float64(s.power) >= crowdPower*middle {
			if i := int(float64(s.at) / half); i >= 0 && i < len(events) {
				events[i]++
			}
		}
	}
	for i, n := range events {
		if n >= crowdEvents {
			for k := max(0, i-2); k <= min(len(events)-1, i+2); k++ {
				j.doubted[k] = true
			}
		}
	}
}

func middlePower(s []start, groups []group) float64 {
	var p []float64
	for _, x := range s {
		if inGroups(groups, logPitch(x)) {
			p = append(p, float64(x.power))
		}
	}
	if len(p) == 0 {
		return 0
	}
	slices.Sort(p)
	return p[len(p)/2]
}

// grain is the resolution of the density of pitches, as a share of the pitch.
const (
	grain      = 0.01
	smooth     = 0.03
	mostGroups = 6
)

// findGroups finds the ranges of pitch in which candidates are dense. Lenient groups serve
// only to estimate how loud the bubbles are.
func findGroups(s []start, bottom, width float64, lenient bool) []group {
	if len(s) < fewest {
		return nil
	}
	base := math.Log(50)
	n := int((math.Log(8000) - base) / grain)
	density := make([]float64, n)
	for _, x := range s {
		at := (logPitch(x) - base) / grain
		reach := int(4 * smooth / grain)
		for i := max(0, int(at)-reach); i <= min(n-1, int(at)+reach); i++ {
			z := (float64(i) + 0.5 - at) * grain / smooth
			density[i] += math.Exp(-z*z/2) / (smooth * math.Sqrt(2*math.Pi))
		}
	}
	used := make([]bool, n)
	var groups []group
	for range mostGroups {
		top := -1
		for i, d := range density {
			if !used[i] && (top < 0 || d > density[top]) {
				top = i
			}
		}
		if top < 0 || density[top] <= 0 {
			break
		}
		edge := 0.06 * density[top]
		low, high := top, top
		for low > 0 && !used[low-1] && density[low-1] > edge {
			low--
		}
		for high < n-1 && !used[high+1] && density[high+1] > edge {
			high++
		}
		for i := low; i <= high; i++ {
			used[i] = true
		}
		groups = append(groups, group{base + float64(low)*grain, base + float64(high+1)*grain})
	}
	if lenient {
		return groups[:min(1, len(groups))] // the densest
	}
	// Each group against what lies outside of all of them.
	outside, room := 0, width
	for _, x := range s {
		if !inGroups(groups[:min(2, len(groups))], logPitch(x)) {
			outside++
		}
	}
	for _, g := range groups[:min(2, len(groups))] {
		room -= g.high - g.low
	}
	room = math.Max(room, 0.3*width)
	groups = slices.DeleteFunc(groups, func(g group) bool {
		count := 0
		for _, x := range s {
			if g.holds(logPitch(x)) {
				count++
			}
		}
		chance := (float64(outside) + 1) * (g.high - g.low) / room
		if count < fewest || float64(count) < 0.02*float64(len(s)) {
			return true
		}
		// Rumble gathers at the bottom of the range, at every loudness.
		if g.low < bottom+smooth || loudnessSpread(s, g) > mostSpread {
			return true
		}
		tail := 1 - distuv.Poisson{Lambda: chance}.CDF(float64(count)-1)
		return tail*width/smooth > groupChance || float64(count) < contrast*chance || g.high-g.low > 0.45*width
	})
	return widened(groups)
}

// widened adds the thin tails of the groups, up to half of the way to the next group.
func widened(groups []group) []group {
	slices.SortFunc(groups, func(a, b group) int { return cmp.Compare(a.low, b.low) })
	wide := slices.Clone(groups)
	for i, g := range groups {
		tail := tails * (g.high - g.low)
		low, high := g.low-tail, g.high+tail
		if i > 0 {
			low = math.Max(low, (groups[i-1].high+g.low)/2)
		}
		if i+1 < len(groups) {
			high = math.Min(high, (g.high+groups[i+1].low)/2)
		}
		wide[i] = group{low, high}
	}
	return wide
}

// loudnessSpread is the standard deviation of the group's loudness in decibels.
func loudnessSpread(s []start, g group) float64 {
	var x []float64
	for _, a := range s {
		if g.holds(logPitch(a)) {
			x = append(x, 10*math.Log10(float64(a.power)))
		}
	}
	return stat.StdDev(x, nil)
}

// keep takes the starts in the groups class by class until the share of strays is too high:
// clear ones from loud to quiet, then faint ones by falling power over noise. The starts of
// a class beside the groups tell how many strays it has.
func (j *judged) keep(found []start, width, middle float64) {
	inside := 0.0
	for _, g := range j.groups {
		inside += g.high - g.low
	}
	outside := math.Max(width-inside, 0.2*width)
	class := func(most float64, is func(start) bool) bool {
		var in []start
		out := 0
		for _, s := range found {
			if !is(s) || s.others > company || j.doubts(float64(s.at)) || float64(s.power) < quiet*middle {
				continue
			}
			if inGroups(j.groups, logPitch(s)) {
				in = append(in, s)
			} else {
				out++
			}
		}
		strays := float64(out) * inside / outside
		if strays > most*float64(len(in)) && strays > 0.7 {
			return false
		}
		for _, s := range in {
			s.sure = float32(1 - strays/float64(len(in)))
			j.kept = append(j.kept, s)
		}
		return true
	}
	j.least = strongSNR
	high := math.Inf(1)
	for low := classStep * middle; high > quiet*middle; high, low = low, low/classStep {
		ok := class(strayClear, func(s start) bool {
			return s.snr >= strongSNR && float64(s.power) < high && float64(s.power) >= low
		})
		if !ok && low < middle {
			break
		}
	}
	for c := 1; c < len(noiseClasses); c++ {
		if !class(strayFaint, func(s start) bool {
			return float64(s.snr) < noiseClasses[c-1] && float64(s.snr) >= noiseClasses[c]
		}) {
			break
		}
		j.least = noiseClasses[c]
	}
	slices.SortFunc(j.kept, func(a, b start) int { return cmp.Compare(a.at, b.at) })
}

// spans gives the trusted and untrusted spans, which cover the recording.
func (j *judged) spans(length Second) []Span {
	var spans []Span
	for i, d := range j.doubted {
		from, until := Second(i)*half, min(length, Second(i+1)*half)
		if from >= until {
			break
		}
		why := ""
		if d {
			why = "Voices, wind or knocks as loud as the bubbles."
		}
		if n := len(spans); n > 0 && spans[n-1].Why == why {
			spans[n-1].Until = until
		} else {
			spans = append(spans, Span{from, until, why})
		}
	}
	return spans
}
