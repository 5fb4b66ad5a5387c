package sound

// Outlook says, before the run, whether the gas will be countable.
type Outlook struct {
	Rate  Band   // bubbles a second
	Ear   Answer // by tapping
	Phone Answer // from a recording
	Helps []string
}

// Answer to whether it can be counted.
type Answer int

// Answers.
const (
	Yes Answer = iota
	Barely
	No
)

// Rates up to which bubbles are told apart, a second (estimates: a hand taps four a second
// for a minute, ten with a tap for each fifth; in a recording each rings about 20 ms).
const (
	handEasy, handMost   = 3, 10
	phoneEasy, phoneMost = 8, 15
)

// Foresee the count of a stream in mL/min in bubbles of the size in mL. Touching says that
// the funnel only touches the liquid: then no bubbles form, and none are heard.
func Foresee(millilitresPerMinute float64, bubble Band, touching bool) Outlook {
	var o Outlook
	if bubble.Best > 0 && bubble.Low > 0 {
		o.Rate = Band{millilitresPerMinute / 60 / bubble.High, millilitresPerMinute / 60 / bubble.Best, millilitresPerMinute / 60 / bubble.Low}
	}
	judge := func(easy, most float64) Answer {
		switch {
		case touching || o.Rate.Best > most:
			return No
		case o.Rate.Best > easy:
			return Barely
		}
		return Yes
	}
	o.Ear, o.Phone = judge(handEasy, handMost), judge(phoneEasy, phoneMost)
	if touching {
		o.Helps = append(o.Helps, "A funnel that only touches the liquid makes no bubbles: put a counting bottle into the line before it.")
	}
	if o.Ear != Yes {
		o.Helps = append(o.Helps, "A slower flame, or the same gas over more minutes, makes fewer bubbles a second.",
			"A wider tube makes larger bubbles, and fewer of them.")
	}
	return o
}
