package sound

import "fmt"

// Outlook says, before the run, whether the bubbles can be counted.
type Outlook struct {
	Rate        Band     // bubbles a second; zero where none form
	ByTapping   Answer   // by tapping
	ByRecording Answer   // from a recording
	Helps       []string // sentences; none where both are Yes
}

// Answer says whether bubbles can be counted.
type Answer int

// The answers.
const (
	Yes Answer = iota
	Barely
	No
)

// Rates up to which bubbles are told apart, a second (estimates: a hand keeps up with three
// for minutes, and with six when a tap stands for five; in synthetic recordings nothing is
// lost up to fifteen, but one tube hardly makes so many apart from one another).
const (
	handEasy, handMost   = 3, 6
	phoneEasy, phoneMost = 10, 15
)

// Foresee gives the outlook for a stream in mL/min that comes in bubbles of a volume in mL.
// Touching says that the funnel only touches the liquid, so that no bubbles form. A stream
// or a bubble that is not above zero gives No and no rate.
func Foresee(millilitresPerMinute float64, bubble Band, touching bool) Outlook {
	if touching {
		return Outlook{ByTapping: No, ByRecording: No, Helps: []string{
			"A funnel that only touches the liquid makes no bubbles. Put a counting bottle into the line before it: a tube under a little strong acid, or under water that the gas has saturated.",
		}}
	}
	if !(millilitresPerMinute > 0) || !(bubble.Low > 0 && bubble.Low <= bubble.Best && bubble.Best <= bubble.High) {
		return Outlook{ByTapping: No, ByRecording: No}
	}
	flow := millilitresPerMinute / 60
	o := Outlook{Rate: Band{flow / bubble.High, flow / bubble.Best, flow / bubble.Low}}
	o.ByTapping, o.ByRecording = judgeRate(o.Rate.Best, handEasy, handMost), judgeRate(o.Rate.Best, phoneEasy, phoneMost)
	if o.ByTapping == Yes && o.ByRecording == Yes {
		return o
	}
	slower := o.Rate.Best / handEasy
	o.Helps = append(o.Helps, fmt.Sprintf("A slower flame: in %.1f times the minutes a hand can keep up.", slower))
	// By Tate's law the bubble grows as the bore; a bore of more than a few times fills
	// with liquid and lets go in pairs.
	if wider := o.Rate.Best / phoneEasy; wider > 1 && wider <= 3 {
		o.Helps = append(o.Helps, fmt.Sprintf("A tube %.1f times as wide makes larger and fewer bubbles, which a recording tells apart.", wider))
	}
	if o.ByRecording == Yes {
		o.Helps = append(o.Helps, "A recording keeps up where a hand does not: lay the phone beside the bottle.")
	} else {
		o.Helps = append(o.Helps, "Or count for half a minute now and then, while the flame is low.")
	}
	return o
}

func judgeRate(rate, easy, most float64) Answer {
	switch {
	case rate > most:
		return No
	case rate > easy:
		return Barely
	}
	return Yes
}
