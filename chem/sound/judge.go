package sound

import (
	"cmp"
	"fmt"
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
	strongSNR    = 13.5  // power over noise of a start that is counted
	clearSNR     = 30    // power over noise of a start that hardly noise makes
	leastClear   = 0.2   // least share of clear starts in a group
	leastBroad   = 0.8   // the same where the groups are broad, and little lies beside them
	mostBeyond   = 0.1   // highest share of the clear starts in groups at an edge
	leastTaken   = 0.9   // least share of the clear starts that must lie in groups
	mostSlow     = 0.3   // highest share of the clear starts that ring on longer than bubbles
	mostNotes    = 40    // gaps between notes: a tune has few
	fluttering   = 0.021 // s
	mostFlutter  = 0.35  // highest share of starts that follow one alike within that time
	notes        = 0.15  // median over mean of the gaps between pitches below which they are those of notes
	surely       = 1.1   // over strongSNR, from where starts are found nearly always
	alone        = 3     // most others at the moment of a start that is taken as evidence
	company      = 5     // most others at the moment of a start that is counted
	crowdPower   = 0.05  // of the median bubble's power: weaker crowds do not disturb
	crowdEvents  = 1     // crowded starts in half a second that make it a disturbance
	half         = 0.5   // s, the duration that is trusted or not as a whole
	contrast     = 5     // density of pitches in a group over that outside
	groupChance  = 1e-4  // highest probability that a group of pitches is due to chance
	strayClear   = 0.25  // highest share of strays in a class of clear starts
	strayFaint   = 0.12  // the same in a class of faint starts
	faintMany    = 0.1   // share of fainter starts, of those kept, that are taken although noise seems to hide none
	lostFew      = 0.005 // share of bubbles hidden by noise that is let go
	classStep    = 2     // ratio of powers from one class to the next
	leastKept    = 0.12  // least share of the strong starts that must be bubbles
	fewest       = 3     // least bubbles in a group
	leastTrusted = 0.15  // least share of the recording that must be trusted
	mostSpread   = 7     // dB, largest standard deviation of a group's loudness
	quiet        = 0.02  // of the median bubble's power: weaker starts are no bubbles of that tube
	quietest     = 0.3   // of the least power of a try
	tails        = 0.3   // share of a group's width that is added on each side
)

// faintness are the bounds of the classes of starts by power over noise.
var faintness = [...]float64{40, 24, strongSNR, 11, 9}

// group is a range of pitches that bubbles share, as natural logarithms of Hz. Its edge is
// the end of what is listened for that it reaches, and may pass; 0 where it reaches none.
type group struct {
	low, high float64
	edge      float64
}

// judged is the result of judging all starts.
type judged struct {
	left     float64 // bubbles in the first class of fainter starts that was left out
	beside   int     // clear starts beside the groups
	kept     []start
	groups   []group
	doubted  []bool  // each half second
	least    float64 // power over noise down to which starts were kept
	quietest float64 // power down to which starts were kept, 0 where none was too quiet
	trouble  string  // why it cannot be counted, in the second half of a sentence; or ""
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

// judge picks the bubbles among the starts, at pitches up to highest. It calls
// pause every some milliseconds.
//
// The loudness of the bubbles decides what counts as a disturbance, and is not known before
// they are found. So all strong starts are tried first; if that finds nothing, only the
// louder ones, for a few bubbles over many soft noises.
func judge(found []start, length float64, highest Hertz, pause func()) judged {
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
	if n := flutter(strong); n > mostFlutter*float64(len(strong)) && len(strong) >= fewest {
		return judged{doubted: make([]bool, int(length/half)+1), trouble: "what rings in it flutters, as two notes at once or a hum do; bubbles do not follow each other within hundredths of a second."}
	}
	var first judged
	for i, louder := range [...]float64{0, 0.5, 0.8, 0.93} {
		least := 0.0
		if louder > 0 && len(powers) > 0 {
			least = powers[int(louder*float64(len(powers)))]
		}
		for k, smooth := range [...]float64{0.03, 0.06, 0.12} {
			j := try(found, strong, least, smooth, length, highest, pause)
			if j.trouble == "" {
				return j
			}
			if i == 0 && k == 0 {
				first = j
			}
			if i > 0 {
				break // softer starts are let go, so those of other sizes might be
			}
		}
	}
	return first
}

// try judges on the assumption that the bubbles are among the strong starts of at least a
// power.
func try(found, strong []start, least, smooth, length float64, highest Hertz, pause func()) judged {
	pause()
	j := judged{doubted: make([]bool, int(length/half)+1)}
	bottom, width := math.Log(float64(lowest)), math.Log(float64(highest/lowest))
	loud := slices.DeleteFunc(slices.Clone(strong), func(s start) bool { return float64(s.power) < least })
	middle := middlePower(loud, findGroups(loud, bottom, width, smooth, true))
	j.doubt(found, middle)
	candidates := slices.DeleteFunc(slices.Clone(strong), func(s start) bool {
		return j.doubts(float64(s.at)) || float64(s.power) < math.Max(quiet*middle, quietest*least)
	})
	pause()
	groups := slices.DeleteFunc(findGroups(candidates, bottom, width, smooth, false), func(g group) bool {
		n, clear := 0, 0
		for _, s := range candidates {
			if g.holds(logPitch(s)) {
				n++
				if s.snr >= clearSNR {
					clear++
				}
			}
		}
		return float64(clear) < leastClear*float64(n)
	})
	for _, g := range groups {
		if g.edge == 0 {
			j.groups = append(j.groups, g)
		}
	}
	inside, slow, clear, taken, beyond, edge := 0, 0, 0, 0, 0, 0.0
	for _, s := range candidates {
		if inGroups(groups, logPitch(s)) {
			inside++
		}
		if s.snr < clearSNR {
			continue
		}
		clear++
		if s.slow {
			slow++
		}
		if inGroups(j.groups, logPitch(s)) {
			taken++
		}
		for _, g := range groups {
			if g.edge != 0 && g.holds(logPitch(s)) {
				beyond++
				edge = g.edge
			}
		}
	}
	switch {
	case len(groups) == 0 && j.trusted() < 0.5, len(groups) > 0 && j.trusted() < leastTrusted:
		j.trouble = "voices, wind or knocks cover most of it."
	case len(groups) == 0 && len(candidates) > 20:
		j.trouble = "what rings in it has no pitch in common, as bubbles from one tube have."
	case len(groups) == 0:
		j.trouble = "nothing in it rings like a train of bubbles."
	case 2*inside < len(candidates):
		j.trouble = "most of what rings in it has no pitch in common, as bubbles from one tube have."
	case float64(beyond) > mostBeyond*float64(clear) && edge != 0:
		j.trouble = fmt.Sprintf("the pitches of what rings in it pile up at %.0f Hz; %.0f to %.0f Hz are listened for, and more may ring beyond.", math.Exp(edge), float64(lowest), float64(highest))
	case taken < fewest || smooth > 0.03 && float64(taken) < leastBroad*float64(inside):
		j.trouble = "what rings in it is hardly louder than the noise: put the microphone nearer, or make it quieter around."
	case float64(taken) < leastTaken*float64(clear)-1:
		j.trouble = fmt.Sprintf("of %d clear rings in it only %d have pitches near each other, as bubbles from one tube have.", clear, taken)
	case tuned(candidates):
		j.trouble = "what rings in it keeps to a few pitches, as a tune does."
	case float64(slow) > mostSlow*float64(clear):
		j.trouble = "what rings in it dies away more slowly than bubbles do, as strings, bells and glasses do."
	default:
		j.beside = clear - taken
		j.keep(found, width, middle, smooth == 0.03, pause)
		switch n := len(j.kept); {
		case n < fewest:
			j.trouble = "nothing in it rings like a train of bubbles."
		case float64(n) < leastKept*float64(len(strong)):
			j.trouble = fmt.Sprintf("only %d of the %d rings heard in it may be bubbles.", n, len(strong))
		}
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
	mostGroups = 6
)

// findGroups finds the ranges of pitch in which candidates are dense. Lenient groups serve
// only to estimate how loud the bubbles are.
func findGroups(s []start, bottom, width, smooth float64, lenient bool) []group {
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
		groups = append(groups, group{low: base + float64(low)*grain, high: base + float64(high+1)*grain})
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
		if loudnessSpread(s, g) > mostSpread {
			return true
		}
		tail := 1 - distuv.Poisson{Lambda: chance}.CDF(float64(count)-1)
		return tail*width/smooth > groupChance || float64(count) < contrast*chance || g.high-g.low > 0.5*width
	})
	for i, g := range groups {
		switch {
		case g.low < bottom+smooth:
			groups[i].edge = bottom
		case g.high > bottom+width-smooth:
			groups[i].edge = bottom + width
		}
	}
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
		wide[i].low, wide[i].high = low, high
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

// flutter is how many starts follow one of their pitch within a few hundredths of a second.
func flutter(s []start) float64 {
	n := 0.0
	for i, a := range s {
		for k := i - 1; k >= 0 && a.at-s[k].at < fluttering; k-- {
			if math.Abs(math.Log(float64(a.pitch/s[k].pitch))) < apart {
				n++
				break
			}
		}
	}
	return n
}

// tuned tells pitches that keep to some notes from those of bubbles, which fill a range: most
// gaps between neighbours are then far smaller than the mean. Two tubes make one large gap.
func tuned(s []start) bool {
	var x []float64
	for _, a := range s {
		if a.snr >= clearSNR {
			x = append(x, logPitch(a))
		}
	}
	if len(x) < 20 {
		return false
	}
	slices.Sort(x)
	x = x[len(x)/10 : len(x)-len(x)/10]
	gaps := make([]float64, len(x)-1)
	for i := range gaps {
		gaps[i] = x[i+1] - x[i]
	}
	slices.Sort(gaps)
	gaps = gaps[:len(gaps)-2]
	least := notes * stat.Mean(gaps, nil)
	jumps, _ := slices.BinarySearch(gaps, least) // gaps below it are within a note
	return gaps[len(gaps)/2] < least && len(gaps)-jumps < mostNotes
}

// keep takes the starts in the groups class by class, until the share of strays is too high:
// clear ones from loud to quiet, then, if noise hides some and the groups are narrow, fainter
// ones. The starts of a class beside the groups tell how many strays it has.
func (j *judged) keep(found []start, width, middle float64, narrow bool, pause func()) {
	inside := 0.0
	for _, g := range j.groups {
		inside += g.high - g.low
	}
	outside := math.Max(width-inside, 0.2*width)
	// class takes a class of starts, unless too many of them are strays or fewer than fewest are
	// bubbles; it tells how many are bubbles.
	class := func(most, fewest float64, is func(start) bool) (bubbles float64, ok bool) {
		pause()
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
		bubbles = float64(len(in)) - strays
		if strays > most*float64(len(in)) && strays > 0.7 || bubbles < fewest {
			return bubbles, false
		}
		for _, s := range in {
			s.sure = float32(1 - strays/float64(len(in)))
			j.kept = append(j.kept, s)
		}
		return bubbles, true
	}
	j.least = faintness[0]
	high := math.Inf(1)
	for low := classStep * middle; high > quiet*middle; high, low = low, low/classStep {
		_, ok := class(strayClear, 0, func(s start) bool {
			return float64(s.snr) >= faintness[0] && float64(s.power) < high && float64(s.power) >= low
		})
		if !ok && low < middle {
			j.quietest = high
			break
		}
	}
	for c := 1; c < len(faintness) && j.quietest == 0; c++ {
		many, fewest, most := faintMany*float64(len(j.kept)), 0.0, strayFaint
		if j.lost() < lostFew {
			fewest = math.Max(0, many-2)
		}
		if !narrow && faintness[c] < strongSNR {
			most, fewest = 0, math.Inf(1) // what lies beside broad groups tells of no strays
		}
		bubbles, ok := class(most, fewest, func(s start) bool {
			return float64(s.snr) < faintness[c-1] && float64(s.snr) >= faintness[c]
		})
		if !ok {
			j.left = math.Max(0, bubbles)
			break
		}
		j.least = faintness[c]
	}
	slices.SortFunc(j.kept, func(a, b start) int { return cmp.Compare(a.at, b.at) })
}

// lost is the share of the bubbles whose ring the noise hides: the power over the least that
// is heard is taken to be lognormal.
func (j *judged) lost() float64 {
	if len(j.kept) == 0 {
		return 1
	}
	y := make([]float64, len(j.kept))
	for i, s := range j.kept {
		y[i] = math.Log(float64(s.snr) / (surely * j.least))
		if j.quietest > 0 {
			y[i] = math.Min(y[i], math.Log(float64(s.power)/j.quietest))
		}
	}
	slices.Sort(y)
	share := 0.0
	for range 2 {
		at := func(p float64) float64 {
			return stat.Quantile(math.Max(0, (p-share)/(1-share)), stat.LinInterp, y, nil)
		}
		middle, upper := at(0.5), at(0.84)
		share = math.Min(0.49, distuv.UnitNormal.CDF(-middle/math.Max(0.05, upper-middle)))
	}
	return share
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
